"""The answer as text, tables and JSON."""
