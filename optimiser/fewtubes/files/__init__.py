"""Reading and writing files, all of a set or none, whatever happens meanwhile."""
