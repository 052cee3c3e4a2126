"""Sentences about an answer that text, page and report share."""
