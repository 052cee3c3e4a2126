"""What can be bought and what can be painted: the tables and how they are read."""
