"""The answer as one illustrated page."""
