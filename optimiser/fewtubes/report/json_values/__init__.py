"""Answers as values that JSON knows."""
