"""Palettes side by side, tubes side by side: trade-offs, stand-ins, and reasons."""
