"""An instance of the choice as bit masks, ready for exact search.

Dense tables say what each tube, pair and triple covers; tubes are one axis (n), samples are bits in
words. A palette's cover is the union over its tubes, pairs and triples. Tubes that every palette
holds (owned and must-have ones) are taken out of all sets beforehand, so that they cost nothing.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import cache
from itertools import combinations, permutations

import numpy as np
import numpy.typing as npt

from fewtubes.masks import BoolArray, MaskArray, masks_to_bits, word_count
from fewtubes.selection.instance import ChoiceInstance

__all__ = ["IntArray", "PackedSets"]

IntArray = npt.NDArray[np.int64]

MOST_TOTAL_ADDED = 1 << 53
"""Sum of weights up to which doubles add whole numbers exactly (IEEE 754: 53 bits)."""

SINGLE_BITS = 24
"""Up to 2^24 singles add whole numbers exactly (IEEE 754)."""

AT_ONCE = 4096
"""Sets of tubes looked up at once: many, since a look-up costs more than what is looked up."""

CHUNK_BITS = 16
"""Samples looked up at once when weights are summed."""


@dataclass(frozen=True, eq=False)
class PackedSets:
    """Minimal sets as tables, symmetric in their tubes.

    Parameters
    ----------
    held
        Samples covered by the tubes in every palette alone, shape (words,).
    singles, pairs, triples
        Samples for which the tubes are a minimal set, shapes (n, words), (n, n, words),
        (n, n, n, words).
    weights
        Importance of each sample, shape (m,).
    grain
        The unit that bounds charge in: the smallest power of 2 of which all weights together are
        less than 2^24, so that sums of whole charges are exact in single precision.
    weight_sums
        Summed weight of every 16-bit pattern by its place, shape (4 × words, 65536).
    members
        For each sample its sets as rows of booleans, shapes (sets, n); none where `held` covers.
    """

    held: MaskArray
    singles: MaskArray
    pairs: MaskArray
    triples: MaskArray
    weights: IntArray
    grain: float
    weight_sums: IntArray
    members: tuple[BoolArray, ...]

    @classmethod
    def of(cls, instance: ChoiceInstance) -> "PackedSets":
        """Pack an instance."""
        n, words = instance.tube_count, word_count(len(instance.weights))
        in_all = instance.owned | instance.must_have
        held = np.zeros(words, dtype=np.uint64)
        tables = [np.zeros((*[n] * size, words), dtype=np.uint64) for size in (1, 2, 3)]
        members = []
        for t, sets in enumerate(instance.minimal_sets):
            bit = np.uint64(1) << np.uint64(t % 64)
            open_sets = _without(sets, in_all) if in_all else list(sets)
            if () in open_sets:
                held[t // 64] |= bit
                open_sets = []
            rows = np.zeros((len(open_sets), n), dtype=np.bool_)
            for size in (1, 2, 3):
                which = [r for r, tubes in enumerate(open_sets) if len(tubes) == size]
                tubes = np.array([open_sets[r] for r in which], dtype=np.intp).reshape(-1, size)
                rows[np.array(which, dtype=np.intp)[:, None], tubes] = True
                for order in permutations(range(size)):
                    tables[size - 1][(*tubes[:, order].T, t // 64)] |= bit
            members.append(rows)
        if sum(instance.weights) > MOST_TOTAL_ADDED:
            raise ValueError(f"weights of more than {MOST_TOTAL_ADDED} cannot be added exactly")
        weights = np.array(instance.weights, dtype=np.int64)
        return cls(
            held=held,
            singles=tables[0],
            pairs=tables[1],
            triples=tables[2],
            weights=weights,
            grain=_grain(sum(instance.weights)),
            weight_sums=_weight_sums(weights, words),
            members=tuple(members),
        )

    def reweighed(self, weights: Sequence[int]) -> "PackedSets":
        """Return the same sets with other weights of the samples, each ≥ 0."""
        total = sum(weights)
        if total > MOST_TOTAL_ADDED:
            raise ValueError(f"weights of more than {MOST_TOTAL_ADDED} cannot be added exactly")
        counts = np.array(weights, dtype=np.int64)
        sums = _weight_sums(counts, len(self.held))
        return replace(self, weights=counts, grain=_grain(total), weight_sums=sums)

    @property
    def tube_count(self) -> int:
        """The number of tubes n."""
        return len(self.singles)

    @property
    def sample_count(self) -> int:
        """The number of samples m."""
        return len(self.weights)

    def value(self, masks: MaskArray) -> IntArray:
        """Return the summed weight of masks, shape (…, words) to (…)."""
        places = np.ascontiguousarray(masks).view(np.uint16)
        total = self.weight_sums[0][places[..., 0]]
        for place in range(1, places.shape[-1]):
            total = total + self.weight_sums[place][places[..., place]]
        return np.asarray(total)

    def bits(self, masks: MaskArray) -> BoolArray:
        """Return masks, shape (…, words), as booleans, shape (…, m)."""
        return masks_to_bits(masks, self.sample_count)

    def cover(self, tubes: IntArray) -> MaskArray:
        """Return the cover of palettes, (palettes, words), by tubes added, (palettes, size)."""
        cover = np.repeat(self.held[None], len(tubes), axis=0)
        for size, table in enumerate((self.singles, self.pairs, self.triples), start=1):
            places = _places(tubes.shape[1], size)
            step = max(1, AT_ONCE // max(1, len(tubes)))
            for start in range(0, len(places), step):
                chosen = tuple(tubes[:, some] for some in places[start : start + step].T)
                cover |= np.bitwise_or.reduce(table[chosen], axis=1)
        return np.asarray(cover)

    def gains(self, tubes: IntArray) -> MaskArray:
        """Return what each further tube would add to palettes.

        Parameters
        ----------
        tubes
            Tubes added, as many in each palette, shape (palettes, size).

        Returns
        -------
        Samples covered by each tube with tubes of the palette, shape (palettes, n, words).
        """
        size = tubes.shape[1]
        gains = np.repeat(self.singles[None], len(tubes), axis=0)
        for a in range(size):
            gains |= self.pairs[tubes[:, a]]
        for a, b in combinations(range(size), 2):
            gains |= self.triples[tubes[:, a], tubes[:, b]]
        return gains


@cache
def _places(count: int, size: int) -> IntArray:
    """Return every choice of places of so many among a count, shape (choices, size)."""
    return np.array(list(combinations(range(count), size)), dtype=np.intp).reshape(-1, size)


def _without(sets: Sequence[tuple[int, ...]], held: frozenset[int]) -> list[tuple[int, ...]]:
    """Return sets without the tubes held, each once, none that holds another of one tube."""
    rest = sorted({tuple(i for i in tubes if i not in held) for tubes in sets}, key=len)
    alone = {tubes[0] for tubes in rest if len(tubes) == 1}
    return [tubes for tubes in rest if len(tubes) < 2 or alone.isdisjoint(tubes)]


def _grain(total: int) -> float:
    """Return the smallest power of 2 of which a total weight is less than 2^24."""
    return 2.0 ** (total.bit_length() - SINGLE_BITS)


def _weight_sums(weights: IntArray, words: int) -> IntArray:
    """Return the summed weights of all 16-bit patterns, shape (4 × words, 65536)."""
    places = words * 64 // CHUNK_BITS
    padded = np.zeros(places * CHUNK_BITS, dtype=np.int64)
    padded[: len(weights)] = weights
    patterns = np.arange(1 << CHUNK_BITS)[:, None] >> np.arange(CHUNK_BITS) & 1
    return np.asarray(padded.reshape(places, CHUNK_BITS) @ patterns.T)
