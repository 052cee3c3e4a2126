"""Answers in the terminal."""
