"""Answers as CSV tables."""
