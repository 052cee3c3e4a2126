"""Places of a layout that lie over one another, of which at least one is wrong."""

from collections.abc import Iterator, Sequence

import numpy as np

from fewtubes.card.layout import Rectangle, Sheet
from fewtubes.card.places import box_place, row_place
from fewtubes.colour.bands import FloatArray

__all__ = ["overlaps"]

MOST_OVERLAP = 0.1
"""Share of the smaller of two places that may lie over the other; rims are not looked at."""


def overlaps(sheet: Sheet, where: str) -> Iterator[tuple[str, str]]:
    """Yield each box that lies over another box or over bare paper, and what is wrong with it.

    Parameters
    ----------
    sheet
        Its boxes; a place may be named as bare paper or bare black several times.
    where
        What a fault is told of.
    """
    named = [
        (box_place(row_place(where, number, row), box), box)
        for number, row in enumerate(sheet.rows, start=1)
        for box in row.boxes
    ]
    boxes = _sides([box.rectangle for _, box in named])
    white = _sides([*sheet.white, *(place for _, box in named for place in box.white)])
    black = _sides(sheet.black)
    for number, (place, _) in enumerate(named):
        one = boxes[number]
        before = np.flatnonzero(_lie_over(one, boxes[:number]))
        if before.size:
            yield place, f"lies over {named[before[0]][0]}; correct the rectangle of one of them"
        elif _lie_over(one, white).any():
            yield (
                place,
                "lies over bare paper; correct its rectangle or that under white",
            )
        elif _lie_over(one, black).any():
            yield place, "lies over the bare black line; correct its rectangle or that under black"


def _sides(places: Sequence[Rectangle]) -> FloatArray:
    """Return left, top, right, bottom of each place, shape (places, 4)."""
    corners = [(*place.corners[0], *place.corners[2]) for place in places]
    return np.array(corners, dtype=np.float64).reshape(-1, 4)


def _lie_over(one: FloatArray, others: FloatArray) -> FloatArray:
    """Return which others share more with a place than `MOST_OVERLAP`, shape (others,)."""
    corner, opposite = np.maximum(one[:2], others[:, :2]), np.minimum(one[2:], others[:, 2:])
    common = np.prod(np.maximum(opposite - corner, 0.0), axis=1)
    smaller = np.minimum(_area(one[None]), _area(others))
    return np.asarray(common > MOST_OVERLAP * smaller)


def _area(sides: FloatArray) -> FloatArray:
    return np.asarray(np.prod(sides[:, 2:] - sides[:, :2], axis=1))
