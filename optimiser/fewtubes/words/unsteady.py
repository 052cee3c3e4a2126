"""How forgiving a recipe is of an unsteady hand, as a figure and in words.

The words are our own; no standard has any.
"""

import math

from fewtubes.words.decimals import rounded

__all__ = ["steadiness_words", "unsteady_figure"]


STEADINESS_WORDS = (
    (0.0, "forgiving"),
    (2.0, "measure with care"),
    (math.inf, "touchy"),
)
"""How far beyond the tolerance an unsteady hand may lead [ΔE00]; our own wording and cut-offs."""


def steadiness_words(match_if_unsteady: float, tolerance: float) -> str:
    """Return how forgiving a recipe is, from its match when the hand is off [ΔE00]."""
    limits = zip(_steadiness_limits(tolerance), STEADINESS_WORDS, strict=True)
    return next(words for limit, (_, words) in limits if match_if_unsteady <= limit)


def unsteady_figure(match_if_unsteady: float, tolerance: float) -> str:
    """Return the match when the hand is off, without unit, in keeping with `steadiness_words`."""
    return rounded(match_if_unsteady, *_steadiness_limits(tolerance))


def _steadiness_limits(tolerance: float) -> tuple[float, ...]:
    return tuple(tolerance + beyond for beyond, _ in STEADINESS_WORDS)
