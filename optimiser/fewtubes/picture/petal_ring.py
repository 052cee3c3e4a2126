"""Where around the heart each petal of a flower taken apart is drawn.

Petals go clockwise from light to deep, the lightest on top, unless a name tells where one grows: an
upper petal stays at the top and a lower one at the foot, whatever their colours. What grades into
one of these lies on the same petal and is drawn beside it.
"""

from collections.abc import Sequence

import numpy as np

from fewtubes.coverage.heights import told_height
from fewtubes.coverage.samples import Sample

__all__ = ["petal_ring"]


def petal_ring(petals: Sequence[Sample]) -> list[tuple[int, float]]:
    """Return the petals clockwise as drawn: which one, and its direction.

    Parameters
    ----------
    petals
        Swatches of petals and the steps between them.

    Returns
    -------
    Place in `petals` and direction, clockwise from upwards [radians].
    """
    order = sorted(range(len(petals)), key=lambda place: -petals[place].lab[0])
    heights = _heights(petals)
    upper = [place for place in order if heights[place] > 0]
    lower = [place for place in order if heights[place] < 0]
    sides = [place for place in order if heights[place] == 0]
    step = 2 * np.pi / max(len(petals), 1)
    if not (upper or lower):
        ring, first = sides, 0.0
    elif not upper:
        ring, first = lower + sides, np.pi - (len(lower) - 1) * step / 2
    else:
        right = (len(sides) + 1) // 2
        ring = [*upper, *sides[:right], *lower, *sides[right:]]
        first = -(len(upper) - 1) * step / 2
    return [(place, first + turn * step) for turn, place in enumerate(ring)]


def _heights(petals: Sequence[Sample]) -> list[int]:
    """Return 1 for what grows at the top, −1 for what grows at the foot, 0 for all else."""
    told = {petal.name: told_height(petal.name) for petal in petals if petal.between is None}
    steps = [petal.between for petal in petals if petal.between is not None]
    known = {name: height for name, height in told.items() if height}
    while True:
        beside: dict[str, set[int]] = {}
        for light, deep in steps:
            for one, other in ((light, deep), (deep, light)):
                if one in known and other in told and other not in known:
                    beside.setdefault(other, set()).add(known[one])
        taken = {name: heights.pop() for name, heights in beside.items() if len(heights) == 1}
        if not taken:
            break
        known |= taken
    return [
        known.get(petal.name, 0)
        if petal.between is None
        else _common({known.get(end, 0) for end in petal.between})
        for petal in petals
    ]


def _common(heights: set[int]) -> int:
    return heights.pop() if len(heights) == 1 else 0
