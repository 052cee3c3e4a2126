"""The recipe space: the finite list of mixtures among which "best" means best.

One to three tubes, or fewer where a painter wishes so, in parts that can be measured with a brush,
at one of a dozen wash strengths. The load of each tube is strength × its parts ÷ all parts. The
paper left bare is a recipe as well, one without tubes.
"""

from dataclasses import dataclass
from itertools import permutations

import numpy as np

from fewtubes.colour.bands import FloatArray

__all__ = [
    "BARE_PAPER",
    "MOST_IN_MIX",
    "PARTS",
    "SIZE_WORDS",
    "STRENGTHS",
    "Recipe",
    "RecipeSpace",
    "shares",
]

PAIR_PATTERNS = ((1, 1), (2, 1), (3, 1), (4, 1), (6, 1), (8, 1))
TRIPLE_PATTERNS = ((1, 1, 1), (2, 1, 1), (2, 2, 1), (3, 2, 1), (4, 1, 1))


def _arrangements(patterns: tuple[tuple[int, ...], ...]) -> tuple[tuple[int, ...], ...]:
    """Return every distinct order of every pattern, sorted by the patterns' order."""
    return tuple(parts for pattern in patterns for parts in sorted(set(permutations(pattern))))


PARTS: dict[int, tuple[tuple[int, ...], ...]] = {
    1: ((1,),),
    2: _arrangements(PAIR_PATTERNS),
    3: _arrangements(TRIPLE_PATTERNS),
}
"""Number of tubes → all parts in which they are mixed."""

MOST_IN_MIX = max(PARTS)
"""Most tubes in a recipe, if nobody wishes for fewer."""

SIZE_WORDS = {1: "one", 2: "two", 3: "three"}
"""Numbers of tubes in a recipe as words."""

STRENGTHS: tuple[float, ...] = tuple(2.0 ** (-step / 2) for step in range(12))
"""Wash strengths, full strength first; each is the one before divided by √2."""


def shares(parts: tuple[tuple[int, ...], ...]) -> FloatArray:
    """Return parts as shares that sum to 1, shape (parts, tubes)."""
    table = np.array(parts, dtype=np.float64)
    return np.asarray(table / table.sum(axis=1, keepdims=True))


@dataclass(frozen=True)
class RecipeSpace:
    """The space in force: the wash strengths and the mixes a scenario allows.

    Parameters
    ----------
    strengths
        Wash strengths [0–1], descending.
    most_tubes
        Most tubes in a mix, 1 to `MOST_IN_MIX`.
    """

    strengths: tuple[float, ...] = STRENGTHS
    most_tubes: int = MOST_IN_MIX

    @classmethod
    def no_thinner_than(cls, thinnest: float, most_tubes: int = MOST_IN_MIX) -> "RecipeSpace":
        """Return the space without washes weaker than `thinnest` [0–1]; full strength stays."""
        kept = tuple(s for s in STRENGTHS if s >= thinnest - 1e-9)
        return cls(kept or STRENGTHS[:1], most_tubes)

    @property
    def parts(self) -> dict[int, tuple[tuple[int, ...], ...]]:
        """Number of tubes → all parts in which they are mixed, of as many tubes as are allowed."""
        return {size: parts for size, parts in PARTS.items() if size <= self.most_tubes}


@dataclass(frozen=True)
class Recipe:
    """One to three tubes, by id, in parts, at one wash strength [0–1]; or `BARE_PAPER`."""

    tubes: tuple[str, ...]
    """Ids; none on bare paper."""
    parts: tuple[int, ...]
    """Brushfuls of each, paint let down to full strength before."""
    strength: float
    """Share of a full-strength stroke [0–1]; 0 on bare paper."""

    @property
    def is_bare_paper(self) -> bool:
        """Whether nothing is painted."""
        return not self.tubes


BARE_PAPER = Recipe((), (), 0.0)
"""The paper left bare: no tubes, no parts, no paint on it."""
