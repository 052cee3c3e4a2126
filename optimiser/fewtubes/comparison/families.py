"""Families of tubes that are nearly one another.

Two tubes are as unlike as the largest difference over the washes that is left when the stronger one
is thinned as serves best (`fewtubes.mixing.likeness`); so two strengths of one paint are no more
unlike than one paint. A family is made by complete linkage: every two of its tubes come near each
other, so no chain of small steps leads from a yellow to an orange.

Source: T. Sørensen, Biol. Skr. Dan. Vid. Selsk. 5(4), 1 (1948), complete linkage (from memory).
"""

from collections.abc import Mapping

import numpy as np
import numpy.typing as npt

from fewtubes.catalogue.records import Tube
from fewtubes.colour.bands import FloatArray
from fewtubes.masks import BoolArray
from fewtubes.mixing.likeness import NEAR, unlikeness
from fewtubes.mixing.mixture import Optics

__all__ = ["families", "linked"]


def families(tubes: Mapping[str, Tube], optics: Optics) -> BoolArray:
    """Return whether every two tubes are of one family, shape (tubes, tubes)."""
    number = linked(unlikeness(tubes, optics, limit=NEAR), NEAR)
    return np.asarray(number[:, None] == number)


def linked(unlike: FloatArray, limit: float) -> npt.NDArray[np.intp]:
    """Return families by complete linkage, each by the number of its first member, shape (n,).

    Parameters
    ----------
    unlike
        How unlike every two are, symmetric, 0 on the diagonal, infinite where it is beyond all
        limits, shape (n, n).
    limit
        How unlike two members of a family may be.

    Notes
    -----
    The two families of which the farthest members are nearest become one, as long as these are
    within the limit; of equally near ones the first by number.
    """
    apart = unlike.astype(np.float64)
    np.fill_diagonal(apart, np.inf)
    number = np.arange(len(apart))
    while len(apart) > 1:
        one, other = divmod(int(apart.argmin()), len(apart))
        if not apart[one, other] <= limit:
            break
        number[number == other] = one
        apart[one] = apart[:, one] = np.maximum(apart[one], apart[other])
        apart[other] = apart[:, other] = np.inf
        apart[one, one] = np.inf
    return number
