"""Which mixes reach which colours, each at the wash that comes nearest.

A mix is tubes in parts, before any water: what a painter has in a puddle and thins as needed.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import combinations

import numpy as np

from fewtubes.catalogue.records import Tube
from fewtubes.colour.bands import BAND_COUNT, FloatArray
from fewtubes.colour.difference import delta_e_2000, nearly_opposite
from fewtubes.mixing.colour_lookup import ColourLookup, IndexArray
from fewtubes.mixing.copies import same_paint
from fewtubes.mixing.deadline import Deadline
from fewtubes.mixing.effort import in_time
from fewtubes.mixing.matching import Match
from fewtubes.mixing.mixture import Optics, film_lab
from fewtubes.mixing.recipes import Recipe, RecipeSpace
from fewtubes.mixing.washes import PRECISION, wash_series
from fewtubes.threads import one_thread_per_product

__all__ = ["CHUNK", "Films", "Look", "Mix", "Pairs", "Reached", "mixes_reaching"]

CHUNK = 4096
"""Mixes worked on at once: few for the processor's cache, as in `fewtubes.mixing.candidates`."""

Mix = tuple[tuple[str, ...], tuple[int, ...]]
"""Ids of tubes and their parts, as in `Recipe`."""


@dataclass(frozen=True, eq=False)
class Pairs:
    """Mixes and colours within tolerance of each other, a place of all arrays for each pair.

    Parameters
    ----------
    mix, colour
        Numbers of mix and colour, shapes (pairs,); by mix, then by colour.
    difference
        Match at the nearest wash [ΔE00], shape (pairs,).
    step
        Number of that wash in the recipe space, shape (pairs,).
    labs
        CIELAB there, shape (pairs, 3).
    """

    mix: IndexArray
    colour: IndexArray
    difference: FloatArray
    step: IndexArray
    labs: FloatArray

    @classmethod
    def none(cls) -> "Pairs":
        """Return no pairs."""
        whole, real = np.zeros(0, dtype=np.intp), np.zeros(0)
        return cls(whole, whole, real, whole, real.reshape(0, 3))

    @classmethod
    def joined(cls, parts: Sequence["Pairs"]) -> "Pairs":
        """Return all pairs."""
        rows = [(part.mix, part.colour, part.difference, part.step, part.labs) for part in parts]
        return cls(*(np.concatenate(column) for column in zip(*rows, strict=True)))

    def between(self, first: int, end: int) -> "Pairs":
        """Return the pairs in some places, the last left out."""
        part = slice(first, end)
        return Pairs(
            self.mix[part],
            self.colour[part],
            self.difference[part],
            self.step[part],
            self.labs[part],
        )


@dataclass(frozen=True, eq=False)
class Reached:
    """The mixes that reach any colour, and which ones.

    Parameters
    ----------
    mixes
        Mixes of one tube first, then two, then three.
    pairs
        Each with every colour that it reaches, at the nearest wash.
    """

    mixes: tuple[Mix, ...]
    pairs: Pairs

    def match(self, pair: int, space: RecipeSpace) -> Match:
        """Return a pair, by number, as a recipe with its match."""
        pairs = self.pairs
        tubes, parts = self.mixes[pairs.mix[pair]]
        L, a, b = pairs.labs[pair].tolist()
        recipe = Recipe(tubes, parts, space.strengths[int(pairs.step[pair])])
        return Match(recipe, (L, a, b), float(pairs.difference[pair]))


def mixes_reaching(
    tubes: Mapping[str, Tube],
    labs: FloatArray,
    *,
    optics: Optics,
    space: RecipeSpace,
    tolerance: float,
    deadline: Deadline | None = None,
) -> Reached:
    """Return all mixes of the recipe space that reach any of the colours at some wash.

    Parameters
    ----------
    tubes
        The tubes at hand by id; of those that hold the very same paint the first stands for all.
    labs
        Colours asked for, CIELAB, shape (colours, 3).
    tolerance
        Match up to which a mix reaches a colour [ΔE00].
    deadline
        Until when it must be done; by default it may take as long as it takes.

    Raises
    ------
    LimitError
        If there is too little time for so many tubes.
    """
    deadline = deadline or Deadline()
    ids = tuple(tubes)
    K = np.array([tube.K for tube in tubes.values()]).reshape(-1, BAND_COUNT)
    S = np.array([tube.S for tube in tubes.values()]).reshape(-1, BAND_COUNT)
    usable = np.unique(same_paint(K, S)).tolist() if ids else []
    look = Look.at(labs, tolerance=tolerance, optics=optics, space=space)
    mixes: list[Mix] = []
    found = [Pairs.none()]
    for numbers, parts in _chunks(usable, space):
        in_time(len(ids), deadline, space.most_tubes)
        weights = parts / parts.sum(axis=1, keepdims=True)
        films = Films(*(np.einsum("mt,mtb->mb", weights, paint[numbers]) for paint in (K, S)))
        with one_thread_per_product():
            pairs = look.pairs(films)
        rows, places = np.unique(pairs.mix, return_inverse=True)
        found.append(replace(pairs, mix=places + len(mixes)))
        mixes += [
            (tuple(ids[i] for i in numbers[row]), tuple(map(int, parts[row])))
            for row in rows.tolist()
        ]
    return Reached(tuple(mixes), Pairs.joined(found))


def _chunks(usable: list[int], space: RecipeSpace) -> Iterator[tuple[IndexArray, FloatArray]]:
    """Yield tube numbers and parts of some mixes, both shape (mixes, tubes in each)."""
    for size, table in space.parts.items():
        parts = np.array(table, dtype=np.float64)
        sets = np.array([*combinations(usable, size)], dtype=np.intp).reshape(-1, size)
        several = max(1, CHUNK // len(parts))
        for first in range(0, len(sets), several):
            some = sets[first : first + several]
            yield np.repeat(some, len(parts), axis=0), np.tile(parts, (len(some), 1))


@dataclass(frozen=True, eq=False)
class Films:
    """Mixes at full strength: absorption and scattering, shapes (mixes, bands)."""

    K: FloatArray
    S: FloatArray


@dataclass(frozen=True, eq=False)
class Look:
    """What is sought among all mixes."""

    labs: FloatArray
    tolerance: float
    near: ColourLookup
    """The neighbourhoods outside which nothing is within tolerance."""
    optics: Optics
    space: RecipeSpace

    @classmethod
    def at(
        cls, labs: FloatArray, *, tolerance: float, optics: Optics, space: RecipeSpace
    ) -> "Look":
        """Return what is sought; parameters as of `mixes_reaching`."""
        near = ColourLookup.of(labs, np.full(len(labs), tolerance + PRECISION))
        return cls(labs, tolerance, near, optics, space)

    def pairs(self, films: Films) -> Pairs:
        """Return the pairs within tolerance, each at its nearest wash, by mix and colour.

        Washes that may be the nearest are told in single precision, as in
        `fewtubes.mixing.candidates`, and mixed again in double precision, which decides.
        """
        mix, colour, step = self._likely(films)
        load = np.array(self.space.strengths)[step][:, None]
        labs = film_lab(load * films.K[mix], load * films.S[mix], self.optics)
        difference = np.asarray(delta_e_2000(labs, self.labs[colour]))
        order = np.lexsort((step, difference, colour, mix))
        order = order[difference[order] <= self.tolerance]
        key = mix[order] * len(self.labs) + colour[order]
        first = order[np.diff(key, prepend=-1) != 0]
        return Pairs(mix[first], colour[first], difference[first], step[first], labs[first])

    def _likely(self, films: Films) -> tuple[IndexArray, IndexArray, IndexArray]:
        """Return mixes, colours and steps among which the nearest wash of each pair is."""
        single = (films.K.astype(np.float32), films.S.astype(np.float32))
        wanted = self.labs.astype(np.float32)
        mixes, colours, steps, differences = [], [], [], []
        for turn, labs in wash_series(*single, self.optics, self.space.strengths):
            mix, colour = self.near.pairs(labs)
            difference = delta_e_2000(labs[mix], wanted[colour])
            # Where hues are opposite single precision tells nothing: decided in double.
            difference[nearly_opposite(labs[mix], wanted[colour])] = -np.inf
            kept = np.flatnonzero(difference <= self.tolerance + PRECISION)
            mixes.append(mix[kept])
            colours.append(colour[kept])
            steps.append(np.full(len(kept), turn, dtype=np.intp))
            differences.append(difference[kept])
        mix, colour, step = (np.concatenate(column) for column in (mixes, colours, steps))
        difference = np.concatenate(differences)
        key = mix * len(self.labs) + colour
        best = np.full(len(films.K) * len(self.labs), np.inf, dtype=np.float32)
        told = np.isfinite(difference)
        np.minimum.at(best, key[told], difference[told])
        likely = difference <= best[key] + 2 * PRECISION
        return mix[likely], colour[likely], step[likely]
