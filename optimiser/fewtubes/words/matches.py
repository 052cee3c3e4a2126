"""Matches, which are differences in ΔE00 (CIEDE2000), as figures and in words.

The words are our own; no standard has any.
"""

import math

from fewtubes.words.decimals import asked_figure, rounded

__all__ = [
    "MATCH_LIMITS",
    "bare_figure",
    "difference",
    "limit_words",
    "match_figure",
    "match_words",
]


MATCH_WORDS = (
    (1.0, "no difference to the eye"),
    (2.0, "hardly different"),
    (4.0, "near"),
    (7.0, "clearly different"),
    (12.0, "far off"),
    (math.inf, "another colour"),
)
"""Match up to which each wording holds [ΔE00]; our own wording and cut-offs.

About 1 is where a trained eye sees a difference side by side (common practice, no source).
"""

MATCH_LIMITS = tuple(limit for limit, _ in MATCH_WORDS)
"""Matches at which the wording changes [ΔE00]: a figure beside it keeps to its side of each."""


def match_words(match: float) -> str:
    """Return a match [ΔE00] in words, e.g. ``hardly different``; `difference` prints it so."""
    return next(words for limit, words in MATCH_WORDS if match <= limit)


def difference(match: float, *limits: float) -> str:
    """Return a match with its unit, e.g. ``ΔE00 6.1``.

    Parameters
    ----------
    match
        [ΔE00]
    limits
        What it was held against besides the limits of `match_words`, such as a tolerance; the
        figure lies on the same side of each as the match.
    """
    return f"ΔE00 {match_figure(match, *limits)}" if math.isfinite(match) else "ΔE00 unknown"


def match_figure(match: float, *limits: float) -> str:
    """Return a finite match without its unit; see `difference`."""
    return rounded(match, *MATCH_LIMITS, *limits)


def bare_figure(match: float, tolerance: float) -> str:
    """Return a finite match that stands without a word for it: on its side of the tolerance."""
    return rounded(match, tolerance)


def limit_words(limit: float) -> str:
    """Return a limit for matches with its unit, such as a tolerance, exactly as it was given."""
    return f"ΔE00 {asked_figure(limit)}"
