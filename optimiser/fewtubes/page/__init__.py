"""A page in the painter's own browser, served by this machine to itself alone."""
