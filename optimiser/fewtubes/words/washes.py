"""Strengths of washes in words, and how much water makes them.

The words are our own; no standard has any.
"""

import math
from collections.abc import Sequence

from fewtubes.mixing.recipes import STRENGTHS

__all__ = ["strength_name", "strength_percent", "strength_words", "thinnings", "water_words"]


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

THINNINGS: tuple[tuple[tuple[int, int], ...], ...] = (
    (),
    ((2, 1),),
    ((1, 1),),
    ((1, 2),),
    ((1, 3),),
    ((1, 5),),
    ((1, 7),),
    ((1, 10),),
    ((1, 3), (1, 3)),
    ((1, 3), (1, 5)),
    ((1, 3), (1, 7)),
    ((1, 5), (1, 7)),
)
"""One for each of `STRENGTHS`: paint and water in whole brushfuls, thinned once, or of that again.

Nobody counts more than ten of water; each is within 6 % of its strength, where the next one is 41 %
off. Thinning in two steps is common practice, no source.
"""


def strength_words(strength: float) -> str:
    """Return a wash strength in words and as a share, e.g. ``half-strength wash (50 %)``."""
    return f"{strength_name(strength)} ({strength_percent(strength)})"


def strength_name(strength: float) -> str:
    """Return a wash strength in words alone, e.g. ``half-strength wash``."""
    return STRENGTH_WORDS[_step(strength)]


def strength_percent(strength: float) -> str:
    """Return a wash strength as a share to two digits, e.g. ``2.2 %``."""
    two_digits = float(f"{100 * strength:.2g}")
    return f"{two_digits:g} %"


def thinnings(strength: float) -> Sequence[tuple[int, int]]:
    """Return brushfuls of paint and of water that make a wash, the second pair of the first wash.

    Nothing for full strength.
    """
    return THINNINGS[_step(strength)]


def water_words(strength: float) -> str:
    """Return how to thin to a strength, e.g. ``1 + 3 water``, ``1 + 3 water, then 1 + 5``."""
    steps = thinnings(strength)
    if not steps:
        return "no water"
    first, *again = (f"{paint} + {water}" for paint, water in steps)
    if not again:
        return f"{first} water"
    return f"{first} water, twice" if again == [first] else f"{first} water, then {again[0]}"


def _step(strength: float) -> int:
    """Return the place of the nearest of `STRENGTHS`."""
    steps = [abs(math.log(strength / known)) for known in STRENGTHS]
    return steps.index(min(steps))
