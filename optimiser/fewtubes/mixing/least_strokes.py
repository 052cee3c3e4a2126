"""What reaching a colour takes at least, by the set of tubes that it is mixed from.

A stroke of a mix takes as much of each tube as its parts say, times the wash. Where each tube has a
price for a full-strength stroke, the cheapest mix of a set for a colour is the least that painting
it from just these tubes costs.
"""

from collections.abc import Iterator, Sequence
from itertools import combinations

import numpy as np

from fewtubes.colour.bands import FloatArray
from fewtubes.errors import LimitError
from fewtubes.mixing.colour_lookup import IndexArray
from fewtubes.mixing.deadline import Deadline
from fewtubes.mixing.reached import CHUNK, Films, Look
from fewtubes.threads import one_thread_per_product

__all__ = ["least_strokes"]


def least_strokes(
    look: Look,
    K: FloatArray,
    S: FloatArray,
    *,
    usable: Sequence[int],
    rates: FloatArray,
    deadline: Deadline,
) -> Iterator[tuple[IndexArray, FloatArray]]:
    """Yield sets of tubes, and what a unit of area of each colour costs at least from each.

    Each mix is taken at the wash that comes nearest, as in `Look.pairs`.

    Parameters
    ----------
    look
        The colours, and how near a mix must come.
    K, S
        Absorption and scattering of all tubes, shapes (tubes, bands).
    usable
        Numbers of the tubes that are mixed, ascending.
    rates
        Price of a unit of area in full strength from each tube, shape (tubes,).
    deadline
        Until when it must be done.

    Yields
    ------
    Numbers of tubes, shape (sets, tubes in each), and prices, shape (sets, colours), infinite where
    no mix reaches the colour.

    Raises
    ------
    LimitError
        If there is too little time.
    """
    strengths = np.array(look.space.strengths)
    for size, parts in look.space.parts.items():
        table = np.array(parts, dtype=np.float64)
        shares = table / table.sum(axis=1, keepdims=True)
        all_sets = np.array([*combinations(usable, size)], dtype=np.intp).reshape(-1, size)
        several = max(1, CHUNK // len(parts))
        for first in range(0, len(all_sets), several):
            if deadline.left <= 0:
                raise LimitError("there is too little time to mix all sets of tubes.")
            sets = all_sets[first : first + several]
            numbers = np.repeat(sets, len(parts), axis=0)
            weights = np.tile(shares, (len(sets), 1))
            films = Films(*(np.einsum("mt,mtb->mb", weights, paint[numbers]) for paint in (K, S)))
            with one_thread_per_product():
                pairs = look.pairs(films)
            price = (weights * rates[numbers]).sum(axis=1)
            least = np.full((len(sets), len(look.labs)), np.inf)
            where = (pairs.mix // len(parts), pairs.colour)
            np.minimum.at(least, where, price[pairs.mix] * strengths[pairs.step])
            yield sets, least
