"""Which sets of up to three tubes reach which sample colours.

Every recipe of the space is tried. A set is kept for a sample only if no part of it reaches the
sample already, so what remains are the minimal sets. Mixtures are computed in single precision;
where that could decide wrongly the set is computed again in double precision, so that the result
is the same as if all had been.
"""

from dataclasses import dataclass
from itertools import combinations

import numpy as np
import numpy.typing as npt

from fewtubes.colour.bands import BAND_COUNT, FloatArray
from fewtubes.colour.difference import delta_e_2000, nearly_opposite
from fewtubes.coverage.near import NearTable
from fewtubes.coverage.side_by_side import in_processes, in_threads, processes_can_start
from fewtubes.masks import BoolArray, MaskArray, bits_to_masks, masks_to_bits, word_count
from fewtubes.mixing.mixture import Optics, mixture_lab
from fewtubes.mixing.recipes import PARTS, RecipeSpace, shares
from fewtubes.mixing.washes import PRECISION, SingleArray, wash_series

__all__ = ["MOST_IN_SET", "NO_TUBE", "SetArray", "find_reach"]

IndexArray = npt.NDArray[np.intp]

SetArray = npt.NDArray[np.int16]
"""Sets as ascending tube numbers, filled up with `NO_TUBE`, shape (sets, 3)."""

NO_TUBE = -1

MOST_IN_SET = 3
"""Most tubes in a recipe."""

CHUNK = 4096
"""Mixtures worked on at once: few for the processor's cache, enough to keep threads apart."""

MANY_SETS = 150_000
"""Sets from which processes pay: about five seconds of work."""


@dataclass(frozen=True, eq=False)
class _Question:
    """What every chunk needs: paints, optics, targets."""

    K: FloatArray
    S: FloatArray
    optics: Optics
    space: RecipeSpace
    labs: FloatArray
    tolerance: float
    near: NearTable


def find_reach(
    K: FloatArray,
    S: FloatArray,
    labs: FloatArray,
    *,
    optics: Optics,
    space: RecipeSpace,
    tolerance: float,
) -> tuple[SetArray, ...]:
    """Find the minimal sets of up to three tubes for each sample.

    Parameters
    ----------
    K, S
        Absorption and scattering of the tubes per unit load, shape (tubes, bands).
    labs
        CIELAB of the samples, shape (samples, 3).
    optics, space
        Paper and light; wash strengths.
    tolerance
        Largest match that counts [ΔE00].

    Returns
    -------
    For each sample its minimal sets, smallest first, shapes (sets, 3).
    """
    question = _Question(
        K, S, optics, space, labs, tolerance, NearTable.of(labs, tolerance + PRECISION)
    )
    n = len(K)
    singles, pairs, triples = (_sets_of(n, size) for size in (1, 2, 3))
    nothing = np.zeros((n, word_count(len(labs))), dtype=np.uint64)
    single_masks = _minimal(singles, nothing, question)
    below_pairs = single_masks[pairs[:, 0]] | single_masks[pairs[:, 1]]
    pair_masks = _minimal(pairs, below_pairs, question)
    below_triples = _masks_below(triples, single_masks, pairs, pair_masks)
    triple_masks = _minimal(triples, below_triples, question)
    found = [
        _padded(sets, masks_to_bits(masks, len(labs)))
        for sets, masks in ((singles, single_masks), (pairs, pair_masks), (triples, triple_masks))
    ]
    return tuple(np.concatenate(parts) for parts in zip(*found, strict=True))


def _padded(sets: IndexArray, reached: BoolArray) -> list[SetArray]:
    """Return for each sample the sets that reach it, from booleans of shape (sets, samples)."""
    wide = np.full((len(sets), MOST_IN_SET), NO_TUBE, dtype=np.int16)
    wide[:, : sets.shape[1]] = sets
    return [wide[column] for column in reached.T]


def _sets_of(tube_count: int, size: int) -> IndexArray:
    """Return all sets of a size as ascending tube numbers, shape (sets, size)."""
    flat = np.fromiter(
        (i for tubes in combinations(range(tube_count), size) for i in tubes), dtype=np.intp
    )
    return flat.reshape(-1, size)


def _masks_below(
    triples: IndexArray, single_masks: MaskArray, pairs: IndexArray, pair_masks: MaskArray
) -> MaskArray:
    """Return the samples that part of each triple reaches, shape (triples, words)."""
    n = len(single_masks)
    table = np.zeros((n, n, single_masks.shape[1]), dtype=np.uint64)
    table[pairs[:, 0], pairs[:, 1]] = pair_masks
    a, b, c = triples.T
    below = table[a, b] | table[a, c]
    below |= table[b, c]
    for tube in (a, b, c):
        below |= single_masks[tube]
    return np.asarray(below)


def _minimal(sets: IndexArray, below: MaskArray, question: _Question) -> MaskArray:
    """Return the samples that each set reaches but no part of it does, shape (sets, words)."""
    per_chunk = max(1, CHUNK // len(PARTS[sets.shape[1]])) if len(sets) else 1
    chunks = [
        (sets[start : start + per_chunk], below[start : start + per_chunk])
        for start in range(0, len(sets), per_chunk)
    ]
    if len(sets) >= MANY_SETS and processes_can_start():
        found = in_processes(_reached, question, chunks)
    else:
        found = in_threads(_reached, question, chunks)
    return np.concatenate([below[:0], *found])


def _reached(question: _Question, chunk: tuple[IndexArray, MaskArray]) -> MaskArray:
    """Return the samples that each set of a chunk reaches beyond those below, (sets, words)."""
    sets, below = chunk
    sample_count = len(question.labs)
    parts = shares(PARTS[sets.shape[1]]).astype(np.float32)
    K, S = (_mixed(paint, sets, parts) for paint in (question.K, question.S))
    owner = np.repeat(np.arange(len(sets)), len(parts))
    reached = np.zeros((len(sets), sample_count), dtype=np.bool_)
    doubtful = np.zeros_like(reached)
    wanted = ~below
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
    return bits_to_masks(reached)


def _mixed(paint: FloatArray, sets: IndexArray, parts: SingleArray) -> SingleArray:
    """Return K or S of each set in all parts, shape (sets × parts, bands)."""
    return np.asarray(parts @ paint.astype(np.float32)[sets]).reshape(-1, BAND_COUNT)


def _best_match(tubes: IndexArray, lab: FloatArray, question: _Question) -> float:
    """Return the best match of one set with one colour, in double precision [ΔE00]."""
    loads = np.multiply.outer(question.space.strengths, shares(PARTS[len(tubes)]))
    labs = mixture_lab(loads, question.K[tubes], question.S[tubes], question.optics)
    return float(delta_e_2000(labs, lab).min())
