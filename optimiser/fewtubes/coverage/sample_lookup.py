"""Which sample colours a mixture may be near to, by table look-up.

Each cube of CIELAB holds, as a bit mask, the samples that some colour in it may match within the
tolerance. A look-up spares the difference formula for all but a few mixtures.
"""

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from fewtubes.colour.bands import FloatArray
from fewtubes.colour.cubes import Cubes, near_cubes
from fewtubes.masks import WORD, BoolArray, MaskArray, word_count

__all__ = ["SampleLookup"]

EDGES = ((6.0, 2.0), (12.0, 4.0), (np.inf, 8.0))
"""Up to which tolerance [ΔE00] cubes of which edge [CIELAB units] serve best; by measuring."""

LARGEST_TABLE = 64 * 2**20
"""Of masks [bytes]; for more samples than that holds, the cubes are larger."""


@dataclass(frozen=True, eq=False)
class SampleLookup:
    """The masks of all cubes, shape (cubes, words), and which are not empty, shape (cubes,)."""

    cubes: Cubes
    masks: MaskArray
    occupied: BoolArray

    @classmethod
    def of(cls, labs: FloatArray, tolerance: float) -> "SampleLookup":
        """Return the table for samples, shape (samples, 3), at a tolerance [ΔE00]."""
        words = word_count(len(labs))
        cubes = _cubes_for(tolerance, words)
        masks = np.zeros((cubes.count, words), dtype=np.uint64)
        for word in range(words):
            part = labs[WORD * word : WORD * (word + 1)]
            near = near_cubes(part, np.full(len(part), tolerance), cubes.edge)
            ends = np.cumsum(np.bincount(near.colours, minlength=len(part)))[:-1]
            for bit, numbers in enumerate(np.split(near.numbers, ends)):
                masks[numbers, word] |= np.uint64(1) << np.uint64(bit)
        return cls(cubes, masks, np.asarray(masks.any(axis=1)))

    def candidates(self, labs: npt.NDArray[np.float32]) -> tuple[npt.NDArray[np.intp], MaskArray]:
        """Return which mixtures, shape (mixtures, 3), are near any sample, and their samples.

        Returns
        -------
        Row numbers, shape (near,), and masks, shape (near, words).
        """
        place = self.cubes.numbers(labs)
        near = np.flatnonzero(self.occupied[place])
        return near, self.masks[place[near]]


def _cubes_for(tolerance: float, words: int) -> Cubes:
    """Return cubes as small as pays, and so few that the table keeps within its size."""
    edge = next(edge for most, edge in EDGES if tolerance <= most)
    while Cubes(edge).count * words * 8 > LARGEST_TABLE and edge < 64:
        edge *= 2
    return Cubes(edge)
