"""How near one further tube would bring colours that a palette does not reach.

All mixes of a further tube alone, with one and with two tubes of the palette are looked at in
single precision, those of the tubes that may come nearest again in double precision: the result is
the same as if all had been.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import combinations

import numpy as np

from fewtubes.colour.bands import BAND_COUNT, FloatArray
from fewtubes.colour.difference import delta_e_2000, nearly_opposite
from fewtubes.mixing.colour_lookup import ColourLookup
from fewtubes.mixing.mixture import Optics, mixture_lab
from fewtubes.mixing.recipes import PARTS, RecipeSpace, shares
from fewtubes.mixing.sets import IndexArray
from fewtubes.mixing.washes import PRECISION, SingleArray, wash_series

__all__ = ["Paints", "mix_count", "nearest_with_one_more"]

CHUNK = 4096
"""Mixtures worked on at once."""


@dataclass(frozen=True, eq=False)
class Paints:
    """All tubes, by number, and how they are laid.

    Parameters
    ----------
    K, S
        Absorption and scattering per unit load, shape (tubes, bands).
    optics, space
        Paper and light; wash strengths, and how many tubes a mix holds at most.
    """

    K: FloatArray
    S: FloatArray
    optics: Optics
    space: RecipeSpace


@dataclass(frozen=True, eq=False)
class _Bounds:
    """Between what the match [ΔE00] with each further tube lies, shapes (further, colours)."""

    least: SingleArray
    most: SingleArray


def mix_count(palette_size: int, further: int, space: RecipeSpace) -> int:
    """Return how many mixes are to be looked at for a palette and a number of further tubes."""
    sets = {1: 1, 2: palette_size, 3: palette_size * (palette_size - 1) // 2}
    each = sum(sets[size] * len(parts) for size, parts in space.parts.items())
    return further * each * len(space.strengths)


def nearest_with_one_more(
    paints: Paints,
    labs: FloatArray,
    limits: FloatArray,
    *,
    palette: Sequence[int],
    further: Sequence[int],
) -> FloatArray:
    """Return the match [ΔE00] that each further tube would bring, shape (further, colours).

    Infinite where it is not nearer than the limit, or surely not as near as another further tube.

    Parameters
    ----------
    paints
        The tubes.
    labs
        Colours asked for, CIELAB, shape (colours, 3).
    limits
        Match that is to be bettered [ΔE00], shape (colours,).
    palette, further
        Numbers of the tubes at hand, and of those of which one would come to them.
    """
    least = np.full((len(further), len(labs)), np.inf, dtype=np.float32)
    most = least.copy()
    near = ColourLookup.of(labs, limits + PRECISION)
    for sets, owner in _chunks(palette, further, paints.space):
        _look(paints, sets, owner, near, _Bounds(least, most))
    exact = np.full(least.shape, np.inf)
    hopeful = least - PRECISION <= most.min(axis=0, initial=np.inf) + PRECISION
    for row in np.flatnonzero((hopeful & np.isfinite(least)).any(axis=1)).tolist():
        match = _exactly(paints, further[row], palette, labs)
        exact[row] = np.where(hopeful[row] & (match < limits), match, np.inf)
    return exact


def _chunks(
    palette: Sequence[int], further: Sequence[int], space: RecipeSpace
) -> Iterator[tuple[IndexArray, IndexArray]]:
    """Yield sets of one size, shape (sets, size), and the place of each one's further tube."""
    for size in space.parts:
        beside = list(combinations(palette, size - 1))
        rest = np.array(beside, dtype=np.intp).reshape(len(beside), size - 1)
        owner = np.repeat(np.arange(len(further)), len(rest))
        first = np.asarray(further, dtype=np.intp)[owner][:, None]
        sets = np.concatenate([first, np.tile(rest, (len(further), 1))], axis=1)
        width = max(1, CHUNK // len(PARTS[size]))
        for start in range(0, len(sets), width):
            yield sets[start : start + width], owner[start : start + width]


def _look(
    paints: Paints, sets: IndexArray, owner: IndexArray, near: ColourLookup, bounds: _Bounds
) -> None:
    """Lower the bounds on each match by the mixes of some sets."""
    parts = shares(PARTS[sets.shape[1]]).astype(np.float32)
    K, S = (
        np.asarray(parts @ paint.astype(np.float32)[sets]).reshape(-1, BAND_COUNT)
        for paint in (paints.K, paints.S)
    )
    for _, labs in wash_series(K, S, paints.optics, paints.space.strengths):
        mixture, colour = near.pairs(labs)
        mixed, wished = labs[mixture], near.single[colour]
        match = delta_e_2000(mixed, wished)
        # Where hues are nearly opposite the error may be large: anything may be true there.
        jumps = nearly_opposite(mixed, wished)
        place = (owner[mixture // len(parts)], colour)
        np.minimum.at(bounds.least, place, np.where(jumps, 0, match))
        np.minimum.at(bounds.most, place, np.where(jumps, np.inf, match))


def _exactly(paints: Paints, tube: int, palette: Sequence[int], labs: FloatArray) -> FloatArray:
    """Return the match [ΔE00] of each colour, shape (colours,), with mixes that hold a tube."""
    best = np.full(len(labs), np.inf)
    for sets, _ in _chunks(palette, [tube], paints.space):
        loads = np.multiply.outer(paints.space.strengths, shares(PARTS[sets.shape[1]]))
        for used in sets:
            K, S = paints.K[used], paints.S[used]
            mixed = mixture_lab(loads.reshape(-1, len(used)), K, S, paints.optics)
            best = np.minimum(best, delta_e_2000(mixed[:, None], labs).min(axis=0))
    return best
