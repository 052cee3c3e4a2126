"""Tables as they leave the program: as CSV text, or as pandas frames."""
