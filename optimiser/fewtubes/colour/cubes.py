"""An index of CIELAB: cut into cubes, it tells which of them may hold colours near given ones.

The one index by which mixtures find the colours that they may match: a mixture whose cube is not
among those of a colour differs from it by more than the limit, which is proven for the cube as a
whole (`fewtubes.colour.difference_bounds`). Large cubes are looked at first, and only those that
may hold near colours are cut into eight.
"""

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from fewtubes.colour.bands import FloatArray
from fewtubes.colour.difference_bounds import least_difference

__all__ = ["EDGES", "Cubes", "NearCubes", "near_cubes"]

EDGES = (64.0, 32.0, 16.0, 8.0, 4.0, 2.0, 1.0)
"""Edges that cubes may have [CIELAB units]."""

LOWEST = np.array([0.0, -160.0, -160.0])
HIGHEST = np.array([128.0, 160.0, 160.0])
"""Corners of the cut-up part of CIELAB; colours beyond count as in its outermost cubes."""

FARTHEST_LOW = np.array([-100.0, -500.0, -500.0])
FARTHEST_HIGH = np.array([228.0, 500.0, 500.0])
"""How far the outermost cubes are taken to go on: beyond what any surface can show.

X, Y, Z ÷ white from 0 to 1 put a* within ±431 and b* within ±173, by CIELAB's own definition.
"""

SLACK = 1e-3
"""Allowance for finding a cube in single precision [CIELAB units]; its last digit is 3e-5 there."""

AT_ONCE = 1 << 14
"""Pairs whose bound is computed at once: few for the processor's cache."""

CORNERS = np.stack(np.meshgrid([0, 1], [0, 1], [0, 1], indexing="ij"), axis=-1).reshape(8, 3)
"""Places of the eight parts of a cube."""

IndexArray = npt.NDArray[np.intp]


@dataclass(frozen=True)
class Cubes:
    """All cubes of one edge, one of `EDGES`, numbered."""

    edge: float

    @property
    def counts(self) -> IndexArray:
        """Cubes along each axis, shape (3,)."""
        return np.asarray((HIGHEST - LOWEST) / self.edge, dtype=np.intp)

    @property
    def count(self) -> int:
        """Cubes in all."""
        return int(self.counts.prod())

    def numbers(self, labs: npt.NDArray[np.float32]) -> npt.NDArray[np.int32]:
        """Return the numbers of the cubes in which colours lie, shape (colours,).

        Parameters
        ----------
        labs
            CIELAB in single precision, in which numbers below 2²⁴ are exact, shape (colours, 3).
        """
        counts = self.counts
        place = labs - LOWEST.astype(np.float32)
        place *= np.float32(1 / self.edge)
        np.maximum(place, 0, out=place)
        np.minimum(place, (counts - 1).astype(np.float32), out=place)
        np.floor(place, out=place)
        strides = np.array([counts[1] * counts[2], counts[2], 1], dtype=np.float32)
        return np.asarray((place @ strides).astype(np.int32))

    def corners(self, places: IndexArray) -> tuple[FloatArray, FloatArray]:
        """Return opposite corners of all that counts as in cubes at places, shapes (cubes, 3)."""
        low = LOWEST + self.edge * places
        high = low + self.edge
        low = np.where(places == 0, FARTHEST_LOW, low - SLACK)
        return low, np.where(places == self.counts - 1, FARTHEST_HIGH, high + SLACK)


@dataclass(frozen=True, eq=False)
class NearCubes:
    """Pairs of a cube and a colour that some colour of the cube may be near to."""

    cubes: Cubes
    numbers: npt.NDArray[np.int32]
    """The cube of each pair, shape (pairs,)."""
    colours: IndexArray
    """The colour of each pair, in ascending order, shape (pairs,)."""
    least: npt.NDArray[np.float32]
    """ΔE00 that no colour of the cube falls below, shape (pairs,)."""

    def within(self, limits: FloatArray) -> "NearCubes":
        """Return the pairs that lower limits leave, shape (colours,)."""
        near = self.least <= limits[self.colours]
        return NearCubes(self.cubes, self.numbers[near], self.colours[near], self.least[near])


def near_cubes(labs: FloatArray, limits: FloatArray, edge: float) -> NearCubes:
    """Return the cubes that may hold colours within a limit of given ones.

    Parameters
    ----------
    labs
        The colours, CIELAB, L* from 0 to 100, shape (colours, 3).
    limits
        Largest ΔE00 that counts as near, shape (colours,); nothing does below 0.
    edge
        Of the cubes, one of `EDGES`.
    """
    asked = np.flatnonzero(limits >= 0)
    roots = Cubes(EDGES[0])
    places = np.stack(np.meshgrid(*map(np.arange, roots.counts), indexing="ij"), axis=-1)
    places = np.tile(places.reshape(-1, 3), (len(asked), 1))
    colours = np.repeat(asked, roots.count)
    for cubes in map(Cubes, EDGES[: EDGES.index(edge) + 1]):
        if cubes != roots:
            places = (2 * places[:, None] + CORNERS).reshape(-1, 3)
            colours = np.repeat(colours, len(CORNERS))
        least = _least(labs, cubes, places, colours)
        near = least <= limits[colours]
        places, colours, least = places[near], colours[near], least[near]
    counts = cubes.counts
    numbers = (places[:, 0] * counts[1] + places[:, 1]) * counts[2] + places[:, 2]
    # Rounded to single precision, a bound may be larger by its last digit; so it is made smaller.
    lower = np.nextafter(least.astype(np.float32), np.float32(-1))
    return NearCubes(cubes, numbers.astype(np.int32), colours, lower)


def _least(labs: FloatArray, cubes: Cubes, places: IndexArray, colours: IndexArray) -> FloatArray:
    """Return the least difference of each pair of a cube and a colour, shape (pairs,)."""
    least = np.empty(len(colours))
    for start in range(0, len(colours), AT_ONCE):
        part = slice(start, start + AT_ONCE)
        least[part] = least_difference(labs[colours[part]], *cubes.corners(places[part]))
    return least
