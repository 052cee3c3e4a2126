"""Which sets of up to three tubes, or fewer, reach which sample colours.

Every recipe of the space is tried. A set is kept for a sample only if no part of it reaches the
sample already, so what remains are the minimal sets; where the paper left bare reaches it, that is
the empty set alone. Mixtures are computed in single precision;
where that could decide wrongly the set is computed again in double precision, so that the result
is the same as if all had been.
"""

from collections.abc import Sequence
from contextlib import closing
from dataclasses import dataclass, replace
from itertools import combinations

import numpy as np
import numpy.typing as npt

from fewtubes.colour.bands import BAND_COUNT, FloatArray
from fewtubes.colour.difference import delta_e_2000, nearly_opposite
from fewtubes.coverage.sample_lookup import SampleLookup
from fewtubes.coverage.side_by_side import in_processes, in_threads, processes_can_start
from fewtubes.masks import WORD, MaskArray, bits_to_masks, masks_to_bits, word_count
from fewtubes.mixing.bare_paper import paper_differences
from fewtubes.mixing.deadline import Deadline
from fewtubes.mixing.effort import in_time, refuse_too_many
from fewtubes.mixing.mixture import Optics, mixture_lab
from fewtubes.mixing.recipes import MOST_IN_MIX, PARTS, RecipeSpace, shares
from fewtubes.mixing.room import Room, memory_told
from fewtubes.mixing.sets import IndexArray, set_count, sets_of_ranks
from fewtubes.mixing.washes import PRECISION, SingleArray, wash_series
from fewtubes.workers import MOST_THREADS

__all__ = ["MOST_IN_SET", "NO_TUBE", "SetArray", "find_reach"]

SetArray = npt.NDArray[np.int16]
"""Sets as ascending tube numbers, filled up with `NO_TUBE`, shape (sets, 3)."""

NO_TUBE = -1

MOST_IN_SET = MOST_IN_MIX
"""Most tubes in a recipe; sets are that wide, however few are allowed."""

NOTHING_TO_MIX: SetArray = np.full((1, MOST_IN_SET), NO_TUBE, dtype=np.int16)
"""The empty set alone: what reaches a colour of the bare paper."""

CHUNK = 4096
"""Mixtures worked on at once: few for the processor's cache, enough to keep threads apart."""

MANY_SETS = 150_000
"""Sets from which processes pay: about five seconds of work for two."""

SETS_A_PROCESS = 50_000
"""Fewer would not pay for the start of one more: about three seconds of work against a half."""

WORK_BYTES = 64 * 2**20
"""What a worker takes beside its tables, roughly [bytes]."""

BYTES_A_SET = 500
"""What a set that is found for a sample takes until the choice is made [bytes].

Measured: 557 MiB for 1,162,358 sets, of 240 tubes for 63 colours.
"""


@dataclass(frozen=True, eq=False)
class _Question:
    """What every chunk needs: paints, optics, targets, and what smaller sets reach."""

    K: FloatArray
    S: FloatArray
    optics: Optics
    space: RecipeSpace
    labs: FloatArray
    tolerance: float
    near: SampleLookup
    size: int = 1
    """Tubes in a set."""
    singles: MaskArray | None = None
    """Samples that each tube reaches, shape (tubes, words); None while they are sought."""
    pairs: MaskArray | None = None
    """Those that each two tubes reach beyond that, by ascending number, (tubes, tubes, words)."""

    def below(self, sets: IndexArray) -> MaskArray:
        """Return the samples that part of each set reaches, shape (sets, words)."""
        below = np.zeros((len(sets), self.near.masks.shape[1]), dtype=np.uint64)
        if self.singles is not None:
            for tubes in sets.T:
                below |= self.singles[tubes]
        if self.pairs is not None:
            for one, other in combinations(sets.T, 2):
                below |= self.pairs[one, other]
        return below


@dataclass(frozen=True, eq=False)
class _Found:
    """Sets that reach something that no part of them does, and what, by sets in order."""

    sets: SetArray
    masks: MaskArray


def find_reach(
    K: FloatArray,
    S: FloatArray,
    labs: FloatArray,
    *,
    optics: Optics,
    space: RecipeSpace,
    tolerance: float,
    deadline: Deadline | None = None,
) -> tuple[SetArray, ...]:
    """Find the minimal sets of as many tubes as a mix may hold for each sample.

    Of fewer tubes they are those of three that are no larger: what makes a set minimal are its
    parts, which are smaller still.

    Parameters
    ----------
    K, S
        Absorption and scattering of the tubes per unit load, shape (tubes, bands).
    labs
        CIELAB of the samples, shape (samples, 3).
    optics, space
        Paper and light; wash strengths, and how many tubes a mix holds at most.
    tolerance
        Largest match that counts [ΔE00].
    deadline
        Until when it must be done; by default it may take as long as it takes.

    Returns
    -------
    For each sample its minimal sets, smallest first, shapes (sets, 3). One that the bare paper
    reaches has the empty set alone, a row of `NO_TUBE`.

    Raises
    ------
    LimitError
        If there is too little time or memory for so many tubes.
    """
    bare = paper_differences(labs, optics) <= tolerance
    rest, deadline = labs[~bare], deadline or Deadline()
    painted: tuple[SetArray, ...] = ()
    if len(rest):
        refuse_too_many(len(K), deadline, space.most_tubes)
        with memory_told(len(K)):
            room, each = Room.now(len(K)), _bytes_a_worker(len(K), word_count(len(rest)))
            room.refuse(2 * each)  # this process and a worker
            near = SampleLookup.of(rest, tolerance + PRECISION)
            question = _Question(K, S, optics, space, rest, tolerance, near)
            painted = _painted(question, deadline, workers=room.workers(each))
    mixed = iter(painted)
    return tuple(NOTHING_TO_MIX if free else next(mixed) for free in bare)


def _painted(question: _Question, deadline: Deadline, *, workers: int) -> tuple[SetArray, ...]:
    """Return the minimal sets for each sample, none of which the bare paper reaches."""
    n = len(question.K)
    found: list[_Found] = []
    for size in question.space.parts:
        if size == 2:
            question = replace(question, size=2, singles=_table(found[0], (n,)))
        if size == 3:
            question = replace(question, size=3, pairs=_table(found[1], (n, n)))
        found.append(_minimal(question, deadline, workers=workers))
    return _by_sample(found, len(question.labs))


def _bytes_a_worker(tube_count: int, words: int) -> int:
    """Return what the tables and the work of a worker take, without what is found [bytes]."""
    return tube_count**2 * words * 8 + WORK_BYTES


def _table(found: _Found, shape: tuple[int, ...]) -> MaskArray:
    """Return the samples that each set of one size reaches, by tube numbers, (…, words)."""
    table = np.zeros((*shape, found.masks.shape[1]), dtype=np.uint64)
    table[tuple(found.sets[:, : len(shape)].T.astype(np.intp))] = found.masks
    return table


def _by_sample(found: Sequence[_Found], sample_count: int) -> tuple[SetArray, ...]:
    """Return for each sample the sets that reach it, smallest first."""
    parts: list[list[SetArray]] = [[] for _ in range(sample_count)]
    for one in found:
        for word in range(one.masks.shape[1]):
            first = WORD * word
            reached = masks_to_bits(one.masks[:, word : word + 1], min(WORD, sample_count - first))
            for column, place in zip(reached.T, range(first, sample_count), strict=False):
                parts[place].append(one.sets[column])
    return tuple(np.concatenate(sets) for sets in parts)


def _minimal(question: _Question, deadline: Deadline, *, workers: int) -> _Found:
    """Return the sets of one size that reach what no part of them does."""
    n, size = len(question.K), question.size
    count = set_count(n, size)
    chunks = range(0, count, _per_chunk(size))
    if count >= MANY_SETS and workers > 1 and processes_can_start():
        work, workers = in_processes, max(1, min(workers, count // SETS_A_PROCESS))
    else:
        work, workers = in_threads, min(workers, MOST_THREADS)
    parts = [_Found(np.zeros((0, MOST_IN_SET), np.int16), question.near.masks[:0])]
    room = Room.now(n)
    taken = (workers + 1) * _bytes_a_worker(n, question.near.masks.shape[1])
    with closing(work(_reached, question, chunks, workers=workers)) as results:
        for found in results:
            in_time(n, deadline, question.space.most_tubes)
            if len(found.sets):
                parts.append(found)
                taken += found.masks.nbytes + BYTES_A_SET * int(np.bitwise_count(found.masks).sum())
                room.refuse(taken)
    sets = np.concatenate([part.sets for part in parts])
    order = np.lexsort(sets.T[::-1])
    return _Found(sets[order], np.concatenate([part.masks for part in parts])[order])


def _per_chunk(size: int) -> int:
    """Return how many sets of a size make a chunk."""
    return max(1, CHUNK // len(PARTS[size]))


def _reached(question: _Question, first: int) -> _Found:
    """Return which sets of the chunk from a rank on reach what no part of them does."""
    n, size = len(question.K), question.size
    last = min(first + _per_chunk(size), set_count(n, size))
    sets = sets_of_ranks(np.arange(first, last), n, size)
    wanted = ~question.below(sets) & bits_to_masks(np.ones(len(question.labs), dtype=np.bool_))
    open_ = wanted.any(axis=1)
    sets, wanted = sets[open_], wanted[open_]
    sample_count = len(question.labs)
    parts = shares(PARTS[sets.shape[1]]).astype(np.float32)
    K, S = (_mixed(paint, sets, parts) for paint in (question.K, question.S))
    owner = np.repeat(np.arange(len(sets)), len(parts))
    reached = np.zeros((len(sets), sample_count), dtype=np.bool_)
    doubtful = np.zeros_like(reached)
    targets = question.labs.astype(np.float32)
    for _, labs in wash_series(K, S, question.optics, question.space.strengths):
        near, masks = question.near.candidates(labs)
        row, sample = np.nonzero(masks_to_bits(masks & wanted[owner[near]], sample_count))
        mixture = near[row]
        mixed, wished = labs[mixture], targets[sample]
        match = delta_e_2000(mixed, wished)
        jumps = nearly_opposite(mixed, wished)
        sure = (match <= question.tolerance - PRECISION) & ~jumps
        unsure = ~sure & ((match <= question.tolerance + PRECISION) | jumps)
        reached[owner[mixture[sure]], sample[sure]] = True
        doubtful[owner[mixture[unsure]], sample[unsure]] = True
        wanted &= ~bits_to_masks(reached)
    for row, t in np.argwhere(doubtful & ~reached):
        reached[row, t] = _best_match(sets[row], question.labs[t], question) <= question.tolerance
    some = reached.any(axis=1)
    wide = np.full((int(some.sum()), MOST_IN_SET), NO_TUBE, dtype=np.int16)
    wide[:, :size] = sets[some]
    return _Found(wide, bits_to_masks(reached[some]))


def _mixed(paint: FloatArray, sets: IndexArray, parts: SingleArray) -> SingleArray:
    """Return K or S of each set in all parts, shape (sets × parts, bands)."""
    return np.asarray(parts @ paint.astype(np.float32)[sets]).reshape(-1, BAND_COUNT)


def _best_match(tubes: IndexArray, lab: FloatArray, question: _Question) -> float:
    """Return the best match of one set with one colour, in double precision [ΔE00]."""
    loads = np.multiply.outer(question.space.strengths, shares(PARTS[len(tubes)]))
    labs = mixture_lab(loads, question.K[tubes], question.S[tubes], question.optics)
    return float(delta_e_2000(labs, lab).min())
