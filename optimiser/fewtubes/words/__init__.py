"""Figures in words, the same wherever they are said: a module for each kind of figure."""
