"""Strengths of washes in words.

The words are our own; no standard has any.
"""

import math

from fewtubes.mixing.recipes import STRENGTHS

__all__ = ["strength_percent", "strength_words"]


STRENGTH_WORDS = (
    "full strength",
    "strong wash",
    "half-strength wash",
    "third-strength wash",
    "quarter-strength wash",
    "sixth-strength wash",
    "light wash",
    "lighter wash",
    "thin wash",
    "pale wash",
    "paler wash",
    "very pale wash",
)
"""One for each of `STRENGTHS`, full strength first; our own wording."""


def strength_words(strength: float) -> str:
    """Return a wash strength in words and as a share, e.g. ``half-strength wash (50 %)``."""
    steps = [abs(math.log(strength / known)) for known in STRENGTHS]
    return f"{STRENGTH_WORDS[steps.index(min(steps))]} ({strength_percent(strength)})"


def strength_percent(strength: float) -> str:
    """Return a wash strength as a share to two digits, e.g. ``2.2 %``."""
    two_digits = float(f"{100 * strength:.2g}")
    return f"{two_digits:g} %"
