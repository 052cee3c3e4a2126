"""Tubes that hold exactly the same paint, of which one stands for all.

Their mixes look the same, so trying all of them takes much longer and finds nothing new.
"""

import numpy as np
import numpy.typing as npt

from fewtubes.colour.bands import FloatArray
from fewtubes.masks import BoolArray

__all__ = ["same_paint", "without_copies"]


def same_paint(K: FloatArray, S: FloatArray) -> npt.NDArray[np.intp]:
    """Return for each tube the first one with its very absorption and scattering, (tubes,).

    Parameters
    ----------
    K, S
        Absorption and scattering of the tubes per unit load, shape (tubes, bands).
    """
    _, first, group = np.unique(
        np.concatenate([K, S], axis=1), axis=0, return_index=True, return_inverse=True
    )
    return np.asarray(first[group.reshape(-1)])


def without_copies(
    K: FloatArray, S: FloatArray, barred: BoolArray | None, colour_count: int
) -> BoolArray | None:
    """Return the tubes not to be used for a colour, with all but one of each paint among them.

    Parameters
    ----------
    K, S
        Absorption and scattering of the tubes per unit load, shape (tubes, bands).
    barred
        Tubes not to be used for a colour, shape (colours, tubes); None bars none.
    """
    first = same_paint(K, S)
    copied = np.flatnonzero(np.bincount(first, minlength=len(K)) > 1)
    if not len(copied):
        return barred
    left = np.zeros((colour_count, len(K)), dtype=np.bool_) if barred is None else barred.copy()
    for paint in copied:
        tubes = np.flatnonzero(first == paint)
        usable = ~left[:, tubes]
        left[:, tubes] = ~(usable & (np.cumsum(usable, axis=1) == 1))
    return left
