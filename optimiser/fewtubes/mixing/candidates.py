"""Which sets of tubes may hold the best recipes for given colours.

All recipes are mixed in single precision, and a set is kept for a colour as long as its rank may
be among the best ones, the error of single precision allowed for. A colour is compared only with
mixtures in its neighbourhood, which shrinks as better recipes are found. Who ranks the sets that
are left in double precision gets what ranking all of them would give.
"""

from collections.abc import Iterable, Iterator
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass
from typing import Any

import numpy as np
import numpy.typing as npt

from fewtubes.colour.bands import BAND_COUNT, FloatArray
from fewtubes.colour.difference import delta_e_2000, nearly_opposite
from fewtubes.errors import LimitError
from fewtubes.masks import BoolArray
from fewtubes.mixing.colour_lookup import ColourLookup
from fewtubes.mixing.copies import without_copies
from fewtubes.mixing.deadline import Deadline
from fewtubes.mixing.effort import in_time, refuse_too_many
from fewtubes.mixing.mixture import Optics, film_lab
from fewtubes.mixing.recipes import PARTS, RecipeSpace, shares
from fewtubes.mixing.sets import IndexArray, set_count, sets_of_ranks
from fewtubes.mixing.washes import PRECISION, SingleArray, wash_series
from fewtubes.threads import one_thread_per_product
from fewtubes.workers import thread_count

__all__ = ["Ranking", "candidate_sets"]

CHUNK = 4096
"""Mixtures worked on at once: few for the processor's cache, enough to keep threads apart."""

MOST_CHUNKS = 32
"""Chunks between two narrowings of the neighbourhoods; the first ones follow fast."""

BEYOND = 10_000.0
"""Added to the score of a recipe out of tolerance; more than any score within it."""

NO_TUBE = -1

MOST_PAIRS = 1 << 20
"""Mixtures and colours compared at once while limits are endless: some hundred megabytes."""

MOST_KEPT = 1_000_000
"""Sets that may be among the best for a colour, over all colours; many more than differ."""


@dataclass(frozen=True)
class Ranking:
    """How recipes are ranked: those within tolerance by match and burden, then others by match.

    Parameters
    ----------
    tolerance
        Match up to which a recipe counts as covering [ΔE00].
    burden
        Added to a match within tolerance for each tube beyond the first [ΔE00].
    most
        Sets wanted per colour, at least 1.
    """

    tolerance: float
    burden: float
    most: int

    def scores(self, differences: npt.NDArray[Any], sizes: npt.NDArray[Any]) -> FloatArray:
        """Return scores, smaller is better, of matches [ΔE00] with `sizes` tubes each."""
        added = np.where(differences > self.tolerance, BEYOND, self.burden * (sizes - 1))
        return np.asarray(differences + added)

    def limits(self, scores: FloatArray, size: int) -> FloatArray:
        """Return the largest match [ΔE00] that with `size` tubes scores no worse."""
        rest = scores - self.burden * (size - 1)
        out = np.maximum(self.tolerance, scores - BEYOND)
        return np.where(scores < BEYOND, np.minimum(self.tolerance, rest), out)


@dataclass(frozen=True, eq=False)
class _Found:
    """Sets that come near colours, a row for each set and colour."""

    sets: IndexArray
    """Tube numbers, filled up with `NO_TUBE`, shape (rows, 3)."""
    colours: IndexArray
    differences: SingleArray
    """Match of the set's best recipe in single precision [ΔE00]."""

    @classmethod
    def joined(cls, parts: Iterable["_Found"]) -> "_Found":
        """Return all rows."""
        rows = [(part.sets, part.colours, part.differences) for part in parts]
        return cls(*(np.concatenate(column) for column in zip(*rows, strict=True)))

    def __getitem__(self, rows: BoolArray) -> "_Found":
        return _Found(self.sets[rows], self.colours[rows], self.differences[rows])

    @property
    def sizes(self) -> IndexArray:
        """The number of tubes in each set."""
        return np.asarray((self.sets != NO_TUBE).sum(axis=1))


@dataclass(frozen=True, eq=False)
class _Paints:
    """The tubes, what they are laid on, and where they may not be used."""

    K: FloatArray
    S: FloatArray
    optics: Optics
    strengths: tuple[float, ...]
    barred: BoolArray | None


def candidate_sets(
    K: FloatArray,
    S: FloatArray,
    labs: FloatArray,
    *,
    optics: Optics,
    space: RecipeSpace,
    ranking: Ranking,
    barred: BoolArray | None = None,
    deadline: Deadline | None = None,
) -> dict[tuple[int, ...], list[int]]:
    """Return the sets that may be among the best, each with the colours it may be so for.

    Parameters
    ----------
    K, S
        Absorption and scattering of the tubes per unit load, shape (tubes, bands).
    labs
        Colours asked for, CIELAB, shape (colours, 3).
    optics, space
        Paper and light; wash strengths, and how many tubes a mix holds at most.
    ranking
        What "best" means, and how many are wanted.
    barred
        Tubes not to be used for a colour, shape (colours, tubes).
    deadline
        Until when it must be done; by default it may take as long as it takes.

    Returns
    -------
    Colour numbers by set of tube numbers; smaller sets first, each size in ascending order. Of
    tubes that hold the very same paint the first that may be used stands for all.

    Raises
    ------
    LimitError
        If there is too little time for so many tubes, or if more sets come equally near than can
        be told apart.
    """
    deadline = deadline or Deadline()
    barred = without_copies(K, S, barred, len(labs))
    usable = np.arange(len(K)) if barred is None else np.flatnonzero(~barred.all(axis=0))
    refuse_too_many(len(usable), deadline, space.most_tubes)
    paints = _Paints(K, S, optics, space.strengths, barred)
    none = np.zeros(0, dtype=np.intp)
    kept = _Found(none.reshape(0, len(PARTS)), none, np.zeros(0, dtype=np.float32))
    hopeless = np.zeros(len(labs), dtype=np.bool_) if barred is None else barred.all(axis=1)
    scores = np.where(hopeless, -np.inf, np.inf)
    near: ColourLookup | None = None
    with one_thread_per_product(), ThreadPoolExecutor(thread_count()) as pool:
        for size in space.parts:
            for chunks in _rounds(len(usable), size, len(labs)):
                limits = ranking.limits(scores, size) + PRECISION
                near = ColourLookup.of(labs, limits) if near is None else near.narrowed(limits)
                look = _Look(paints, near, labs, limits, usable)
                parts = [kept]
                for part in pool.map(look.found, chunks):
                    parts.append(part)
                    in_time(len(usable), deadline, space.most_tubes)
                kept = _Found.joined(parts)
                scores = np.where(hopeless, -np.inf, _scores_to_beat(kept, ranking, len(labs)))
                at_best = np.maximum(kept.differences - PRECISION, 0)
                kept = kept[ranking.scores(at_best, kept.sizes) <= scores[kept.colours]]
                _refuse_too_equal(kept, len(usable))
    return _by_set(kept)


@dataclass(frozen=True)
class _Chunk:
    """Some of the sets of a size, spread over all of them: every `step`th from `first` on."""

    size: int
    first: int
    step: int
    count: int
    """Sets of that size in all."""

    def sets(self, tubes: IndexArray) -> IndexArray:
        """Return the sets over tubes, given by number, shape (sets, size)."""
        ranks = np.arange(self.first, self.count, self.step)
        return np.asarray(tubes[sets_of_ranks(ranks, len(tubes), self.size)])


def _rounds(tube_count: int, size: int, colour_count: int) -> Iterator[list[_Chunk]]:
    """Yield the sets in chunks in rounds of ever more chunks.

    Single tubes come first, when everything is still near; so few of them make a chunk if there are
    many colours.
    """
    count = set_count(tube_count, size)
    per_chunk = CHUNK // len(PARTS[size])
    if size == 1:
        per_chunk = max(1, min(per_chunk, MOST_PAIRS // max(1, colour_count)))
    step = -(-count // per_chunk)
    start, width = 0, 1
    while start < step:
        yield [_Chunk(size, at, step, count) for at in range(start, min(start + width, step))]
        start, width = start + width, min(2 * width, MOST_CHUNKS)


def _refuse_too_equal(kept: _Found, tube_count: int) -> None:
    """Raise `LimitError` if so many sets come equally near that they cannot be told apart."""
    if len(kept.colours) > MOST_KEPT:
        raise LimitError(
            f"Among mixes of {tube_count:,} tubes more than {MOST_KEPT:,} come as near as the best"
            " ones, so many tubes hold nearly the same paint; leave some of these out."
        )


@dataclass(frozen=True, eq=False)
class _Look:
    """One round: what is sought, the same for all its chunks."""

    paints: _Paints
    near: ColourLookup
    labs: FloatArray
    """CIELAB of the colours asked for, shape (colours, 3)."""
    limits: FloatArray
    """Match up to which a set is of interest [ΔE00], shape (colours,)."""
    usable: IndexArray
    """The numbers of the tubes that may be used for any colour."""

    def found(self, chunk: _Chunk) -> _Found:
        """Return the sets of a chunk that are of interest."""
        sets = chunk.sets(self.usable)
        count, wanted = len(self.limits), self.labs.astype(np.float32)
        parts = shares(PARTS[sets.shape[1]]).astype(np.float32)
        K, S = (
            np.asarray(parts @ paint.astype(np.float32)[sets]).reshape(-1, BAND_COUNT)
            for paint in (self.paints.K, self.paints.S)
        )
        best = np.full(len(sets) * count, np.inf, dtype=np.float32)
        for step, labs in wash_series(K, S, self.paints.optics, self.paints.strengths):
            mixture, colour = self.near.pairs(labs)
            owner = mixture // len(parts)
            if self.paints.barred is not None:
                used = ~self.paints.barred[colour[:, None], sets[owner]].any(axis=1)
                mixture, colour, owner = mixture[used], colour[used], owner[used]
            mixed, wished = labs[mixture], wanted[colour]
            match = delta_e_2000(mixed, wished)
            jumps = np.flatnonzero(nearly_opposite(mixed, wished))
            if len(jumps):
                load = self.paints.strengths[step] * shares(PARTS[sets.shape[1]])
                mixing = load[mixture[jumps] % len(parts)], sets[owner[jumps]]
                match[jumps] = self._exactly(*mixing, colour[jumps])
            np.minimum.at(best, owner * count + colour, match)
        table = best.reshape(len(sets), count)
        row, colour = np.nonzero((table <= self.limits) & np.isfinite(table))
        wide = np.full((len(row), len(PARTS)), NO_TUBE, dtype=np.intp)
        wide[:, : sets.shape[1]] = sets[row]
        return _Found(wide, colour, table[row, colour])

    def _exactly(self, loads: FloatArray, sets: IndexArray, colours: IndexArray) -> FloatArray:
        """Return the match of mixtures, loads and sets of shape (rows, size), with colours."""
        K, S = (
            np.einsum("rt,rtb->rb", loads, paint[sets]) for paint in (self.paints.K, self.paints.S)
        )
        return delta_e_2000(film_lab(K, S, self.paints.optics), self.labs[colours])


def _scores_to_beat(kept: _Found, ranking: Ranking, colour_count: int) -> FloatArray:
    """Return the score that the last of the sets wanted has at worst, infinite if there is none."""
    at_worst = ranking.scores(kept.differences + PRECISION, kept.sizes)
    order = np.lexsort((at_worst, kept.colours))
    ends = np.cumsum(np.bincount(kept.colours, minlength=colour_count))
    last = np.concatenate([[0], ends[:-1]]) + ranking.most - 1
    enough = last < ends
    scores = np.full(colour_count, np.inf)
    scores[enough] = at_worst[order[last[enough]]]
    return scores


def _by_set(kept: _Found) -> dict[tuple[int, ...], list[int]]:
    """Return the colours of each set in order."""
    gathered: dict[tuple[int, ...], list[int]] = {}
    for row, colour in zip(kept.sets.tolist(), kept.colours.tolist(), strict=True):
        gathered.setdefault(tuple(tube for tube in row if tube != NO_TUBE), []).append(colour)
    ordered = sorted(gathered, key=lambda tubes: (len(tubes), tubes))
    return {tubes: sorted(gathered[tubes]) for tubes in ordered}
