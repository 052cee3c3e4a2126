"""How far a palette reaches: for each hue the strongest colour that any of its recipes gives."""

from collections.abc import Iterator, Sequence
from itertools import combinations

import numpy as np

from fewtubes.catalogue.records import Tube
from fewtubes.colour.bands import FloatArray
from fewtubes.colour.cielab import lab_to_lch
from fewtubes.mixing.mixture import Optics
from fewtubes.mixing.recipes import RecipeSpace, shares
from fewtubes.mixing.washes import SingleArray, wash_series

__all__ = ["HUES", "strongest_by_hue"]

HUES = 36
"""Steps of hue around the circle, 10° each."""

CHUNK = 1000
"""Sets of tubes mixed at a time; keeps the arrays to a few tens of megabytes."""


def strongest_by_hue(tubes: Sequence[Tube], optics: Optics, space: RecipeSpace) -> FloatArray:
    """Return the colour of largest chroma for each step of hue, shape (`HUES`, 3).

    All recipes of the space are looked at, in single precision. A step of hue that
    no recipe falls into holds not-a-number.
    """
    best = np.full((HUES, 3), np.nan)
    for K, S in _mixtures(tubes, space):
        for _, labs in wash_series(K, S, optics, space.strengths):
            _keep_strongest(best, labs.astype(np.float64))
    return best


def _keep_strongest(best: FloatArray, labs: FloatArray) -> None:
    """Put those of the new colours into `best` that are stronger."""
    known = best[~np.isnan(best[:, 0])]
    candidates = np.concatenate([known, labs])
    lch = lab_to_lch(candidates)
    step = np.minimum((lch[:, 2] * HUES / 360).astype(int), HUES - 1)
    order = np.lexsort((lch[:, 1], step))
    last = np.flatnonzero(np.diff(step[order], append=HUES))
    best[step[order][last]] = candidates[order][last]


def _mixtures(
    tubes: Sequence[Tube], space: RecipeSpace
) -> Iterator[tuple[SingleArray, SingleArray]]:
    """Yield absorption and scattering of all mixtures, shapes (mixtures, bands), set by set."""
    if not tubes:
        return
    K = np.array([tube.K for tube in tubes], dtype=np.float32)
    S = np.array([tube.S for tube in tubes], dtype=np.float32)
    for size, parts in space.parts.items():
        sets = np.array(list(combinations(range(len(tubes)), size)), dtype=int).reshape(-1, size)
        share = shares(parts).astype(np.float32)
        for start in range(0, len(sets), CHUNK):
            some = sets[start : start + CHUNK]
            yield tuple(
                np.einsum("pt,stb->spb", share, table[some]).reshape(-1, table.shape[1])
                for table in (K, S)
            )
