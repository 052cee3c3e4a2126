"""The options of the commands, each declared once, by what they are about."""
