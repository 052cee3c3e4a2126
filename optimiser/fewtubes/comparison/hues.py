"""Hues in plain words: which tubes are of one, and which of these no mix of other hues replaces.

A painter asks for a clean pink and not for a certain tube. So all tubes of a hue are left out
together, and the question is how near mixes of all other hues come to each of them. What stays
clearly different needs a tube of that hue; its duller fellows may be mixed.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from fewtubes.colour.bands import FloatArray
from fewtubes.colour.plain_names import HUES, colour_name
from fewtubes.comparison.tube_ranking import MixedTube
from fewtubes.masks import BoolArray
from fewtubes.mixing.likeness import NEAR

__all__ = ["Hue", "hue_word", "hues_of", "one_hue"]

WORDS = frozenset(word for _, word in HUES)


@dataclass(frozen=True, eq=False)
class Hue:
    """The tubes of one hue, and how near mixes of all other hues come to them."""

    word: str
    """In plain words, e.g. ``pink``."""
    members: tuple[MixedTube, ...]
    """The one that other hues stay farthest from first."""

    @property
    def clean(self) -> tuple[MixedTube, ...]:
        """Those that no mix of other hues comes near."""
        return tuple(item for item in self.members if item.other_hues > NEAR)


def hue_word(labs: FloatArray) -> str:
    """Return the plain word for the hue of a tube; blank for white, grey, black and brown.

    Parameters
    ----------
    labs
        CIELAB of its washes, shape (strengths, 3); the one of most chroma counts.
    """
    strongest = labs[np.hypot(labs[:, 1], labs[:, 2]).argmax()]
    L, a, b = map(float, strongest)
    word = colour_name((L, a, b)).split()[-1]
    return word if word in WORDS else ""


def one_hue(words: Sequence[str]) -> BoolArray:
    """Return whether every two tubes are of one hue, shape (tubes, tubes); itself always is."""
    named = np.array(words)
    same = (named[:, None] == named) & (named != "")
    return np.asarray(same | np.eye(len(named), dtype=np.bool_))


def hues_of(mixed: Sequence[MixedTube]) -> tuple[Hue, ...]:
    """Return tubes by hue, the hue that all others stay farthest from first."""
    found: dict[str, list[MixedTube]] = {}
    for item in mixed:
        if item.hue:
            found.setdefault(item.hue, []).append(item)
    hues = [
        Hue(word, tuple(sorted(items, key=lambda item: (-item.other_hues, item.tube.id))))
        for word, items in found.items()
    ]
    return tuple(sorted(hues, key=lambda hue: (-hue.members[0].other_hues, hue.word)))
