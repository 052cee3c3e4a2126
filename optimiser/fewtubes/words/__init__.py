"""Figures in words, the same wherever they are said: matches, washes, money, shares, lists."""
