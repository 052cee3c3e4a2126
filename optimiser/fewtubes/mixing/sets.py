"""All sets of one size, numbered by rank, so that each is made only when its turn comes.

Ranks are those of the combinatorial number system (D. E. Knuth, The Art of Computer Programming
4A, 7.2.1.3, Theorem L): the set a < b < c has the rank C(c, 3) + C(b, 2) + C(a, 1).
"""

from math import comb

import numpy as np
import numpy.typing as npt

__all__ = ["IndexArray", "set_count", "sets_of_ranks"]

IndexArray = npt.NDArray[np.intp]


def set_count(tube_count: int, size: int) -> int:
    """Return the number of sets of a size."""
    return comb(tube_count, size)


def sets_of_ranks(ranks: IndexArray, tube_count: int, size: int) -> IndexArray:
    """Return sets as ascending tube numbers, shape (ranks, size), each from 0 to below the count.

    Parameters
    ----------
    ranks
        From 0 to below `set_count`, shape (ranks,).
    """
    sets = np.empty((len(ranks), size), dtype=np.intp)
    rest = ranks
    for place in range(size, 0, -1):
        below = np.array([comb(tube, place) for tube in range(tube_count)], dtype=np.intp)
        sets[:, place - 1] = np.searchsorted(below, rest, side="right") - 1
        rest = rest - below[sets[:, place - 1]]
    return sets
