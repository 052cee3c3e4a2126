"""Which of many colours a mixture may be near to, by the cube of CIELAB it lies in."""

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from fewtubes.colour.bands import FloatArray
from fewtubes.colour.cubes import EDGES, NearCubes, near_cubes
from fewtubes.colour.difference_bounds import reach_around
from fewtubes.mixing.washes import SingleArray

__all__ = ["ColourLookup", "IndexArray"]

IndexArray = npt.NDArray[np.intp]

SMALLEST_EDGE = 2.0
"""Of the cubes that neighbourhoods are made of [CIELAB units]; smaller ones take more to look up
than they spare."""

EDGE_PER_LIMIT = 1.0
"""Edge of the cubes for a limit [CIELAB units per ΔE00]; by measuring."""


@dataclass(frozen=True, eq=False)
class ColourLookup:
    """Colours with the neighbourhood of each, as lists of colours by cube."""

    labs: FloatArray
    """CIELAB, shape (colours, 3)."""
    near: NearCubes
    single: SingleArray
    """The same colours in single precision, shape (colours, 3)."""
    lightness: SingleArray
    """Squared reach along L*, shape (colours,)."""
    plane: SingleArray
    """Squared reach in the plane of a* and b*, shape (colours,)."""
    lengths: IndexArray
    """Number of colours near each cube, shape (cubes,)."""
    starts: IndexArray
    """Where the list of each cube starts, shape (cubes,)."""
    members: IndexArray
    """The lists, one after the other."""

    @classmethod
    def of(cls, labs: FloatArray, limits: FloatArray) -> "ColourLookup":
        """Return the neighbourhoods of colours, shape (colours, 3).

        Parameters
        ----------
        limits
            Largest ΔE00 that counts as near, shape (colours,); below 0 nothing does.
        """
        return cls._listed(labs, near_cubes(labs, limits, _edge_for(limits)), limits)

    def narrowed(self, limits: FloatArray) -> "ColourLookup":
        """Return the neighbourhoods for limits none of which is larger than before."""
        edge = _edge_for(limits)
        if edge < self.near.cubes.edge:
            return self._listed(self.labs, near_cubes(self.labs, limits, edge), limits)
        return self._listed(self.labs, self.near.within(limits), limits)

    @classmethod
    def _listed(cls, labs: FloatArray, near: NearCubes, limits: FloatArray) -> "ColourLookup":
        """Return the pairs as lists by cube."""
        reach = (reach**2 for reach in reach_around(labs, np.maximum(limits, 0)))
        lightness, plane = (square.astype(np.float32) for square in reach)
        lengths = np.bincount(near.numbers, minlength=near.cubes.count)
        members = near.colours[np.argsort(near.numbers, kind="stable")]
        return cls(
            labs=labs,
            near=near,
            single=labs.astype(np.float32),
            lightness=lightness,
            plane=plane,
            lengths=lengths,
            starts=np.cumsum(lengths) - lengths,
            members=members,
        )

    def pairs(self, mixtures: SingleArray) -> tuple[IndexArray, IndexArray]:
        """Return mixture and colour numbers of all that may be near each other.

        Parameters
        ----------
        mixtures
            CIELAB, shape (mixtures, 3).
        """
        cube = self.near.cubes.numbers(mixtures)
        lengths = self.lengths[cube]
        some = np.flatnonzero(lengths)
        lengths, starts = lengths[some], self.starts[cube[some]]
        row = np.repeat(some, lengths)
        gone = np.repeat(np.cumsum(lengths) - lengths - starts, lengths)
        colour = self.members[np.arange(len(row)) - gone]
        apart = mixtures[row] - self.single[colour]
        apart *= apart
        near = apart[:, 0] <= self.lightness[colour]
        near &= apart[:, 1] + apart[:, 2] <= self.plane[colour]
        return row[near], colour[near]


def _edge_for(limits: FloatArray) -> float:
    """Return the edge of the cubes that serve limits best."""
    asked = limits[limits >= 0]
    wanted = EDGE_PER_LIMIT * float(np.minimum(asked, EDGES[0]).mean()) if len(asked) else 0.0
    return min(edge for edge in EDGES if edge >= min(max(wanted, SMALLEST_EDGE), EDGES[0]))
