"""Which of many colours a mixture may be near to, by the cube of CIELAB it lies in."""

from dataclasses import dataclass
from typing import Any

import numpy as np
import numpy.typing as npt

from fewtubes.colour.bands import FloatArray
from fewtubes.mixing.nearness import reach_around
from fewtubes.mixing.washes import SingleArray

__all__ = ["IndexArray", "Neighbourhoods"]

IndexArray = npt.NDArray[np.intp]

SMALLEST_CUBE = 2.0
"""Edge of the cubes that neighbourhoods are cut into, at least [CIELAB units]."""

LOWEST = np.array([0.0, -130.0, -130.0])
HIGHEST = np.array([100.0, 130.0, 130.0])
"""Corners of the cut-up part of CIELAB; colours beyond count as in its outermost cubes."""


@dataclass(frozen=True, eq=False)
class Neighbourhoods:
    """Colours with the neighbourhood of each, as lists of colours by cube."""

    labs: SingleArray
    """CIELAB, shape (colours, 3)."""
    lightness: SingleArray
    """Squared reach along L*, shape (colours,)."""
    plane: SingleArray
    """Squared reach in the plane of a* and b*, shape (colours,)."""
    edge: float
    """Edge of a cube."""
    counts: IndexArray
    """Cubes along each axis, shape (3,)."""
    lengths: IndexArray
    """Number of colours near each cube, shape (cubes,)."""
    starts: IndexArray
    """Where the list of each cube starts, shape (cubes,)."""
    members: IndexArray
    """The lists, one after the other."""

    @classmethod
    def of(cls, labs: FloatArray, limits: FloatArray) -> "Neighbourhoods":
        """Return the neighbourhoods of colours, shape (colours, 3).

        Parameters
        ----------
        limits
            Largest ΔE00 that counts as near, shape (colours,); below 0 nothing does.
        """
        some = np.flatnonzero(limits >= 0)
        lightness, plane = reach_around(labs, np.maximum(limits, 0))
        edge = max(SMALLEST_CUBE, float(plane[some].mean())) if len(some) else SMALLEST_CUBE
        counts = np.ceil((HIGHEST - LOWEST) / edge).astype(np.intp)
        reach = np.stack([lightness, plane, plane], axis=1)
        first, last = (_cubes(labs + sign * reach, edge, counts) for sign in (-1, 1))
        blocks = [_block(first[t], last[t], counts) for t in some]
        sizes = np.array([len(block) for block in blocks], dtype=np.intp)
        cube = np.concatenate([np.zeros(0, dtype=np.intp), *blocks])
        lengths = np.bincount(cube, minlength=int(counts.prod()))
        return cls(
            labs=labs.astype(np.float32),
            lightness=(lightness**2).astype(np.float32),
            plane=(plane**2).astype(np.float32),
            edge=edge,
            counts=counts,
            lengths=lengths,
            starts=np.cumsum(lengths) - lengths,
            members=np.repeat(some, sizes)[np.argsort(cube, kind="stable")],
        )

    def pairs(self, mixtures: SingleArray) -> tuple[IndexArray, IndexArray]:
        """Return mixture and colour numbers of all that may be near each other.

        Parameters
        ----------
        mixtures
            CIELAB, shape (mixtures, 3).
        """
        cube = _numbers(_cubes(mixtures, self.edge, self.counts), self.counts)
        lengths = self.lengths[cube]
        some = np.flatnonzero(lengths)
        lengths, starts = lengths[some], self.starts[cube[some]]
        row = np.repeat(some, lengths)
        gone = np.repeat(np.cumsum(lengths) - lengths - starts, lengths)
        colour = self.members[np.arange(len(row)) - gone]
        apart = mixtures[row] - self.labs[colour]
        apart *= apart
        near = apart[:, 0] <= self.lightness[colour]
        near &= apart[:, 1] + apart[:, 2] <= self.plane[colour]
        return row[near], colour[near]


def _cubes(labs: npt.NDArray[Any], edge: float, counts: IndexArray) -> IndexArray:
    """Return the place of the cube of each colour along the axes, shape (colours, 3)."""
    places = ((labs - LOWEST.astype(labs.dtype)) * labs.dtype.type(1 / edge)).astype(np.int32)
    return np.asarray(np.clip(places, 0, counts - 1), dtype=np.intp)


def _numbers(places: IndexArray, counts: IndexArray) -> IndexArray:
    """Return cube numbers, shape (…), of places along the axes, shape (…, 3)."""
    return np.asarray(
        (places[..., 0] * counts[1] + places[..., 1]) * counts[2] + places[..., 2], dtype=np.intp
    )


def _block(first: IndexArray, last: IndexArray, counts: IndexArray) -> IndexArray:
    """Return the numbers of all cubes from one corner to the other, both included."""
    axes = [np.arange(start, stop + 1) for start, stop in zip(first, last, strict=True)]
    return _numbers(np.stack(np.meshgrid(*axes, indexing="ij"), axis=-1), counts).ravel()
