"""Where the boxes of a sheet lie in a picture, and what a fault of one is told of."""

import numpy as np

from fewtubes.card.layout import Box, Row, Sheet
from fewtubes.card.looking import Projection
from fewtubes.catalogue.collector import FaultCollector
from fewtubes.catalogue.limits import shown

__all__ = ["SMALLEST", "box_place", "check_boxes", "row_place"]

SMALLEST = 12.0
"""Side of a box of which the middle can be told from the rims [pixels]."""

SPOKEN = {1.0: "full", 0.5: "half", 0.25: "quarter", 0.125: "eighth"}


def row_place(where: str, number: int, row: Row) -> str:
    """Return what a fault of a row is told of; `number` counts from 1."""
    return f"{where}, row {number}{f' ({shown(row.name)})' if row.name else ''}"


def box_place(row_told: str, box: Box) -> str:
    """Return what a fault of a box is told of, from what one of its row is."""
    spoken = SPOKEN.get(box.strength, f"strength {box.strength:g}")
    return f"{row_told}, {spoken}{' over black' if box.over_black else ''}"


def check_boxes(
    sheet: Sheet, projection: Projection, *, rows: int, columns: int, where: str
) -> None:
    """Raise an `InputError` with every box that lies outside a picture or is too small in it.

    Parameters
    ----------
    sheet
        Its boxes.
    projection
        From the layout's unit to pixels.
    rows, columns
        Of the picture [pixels].
    where
        What faults are told of.
    """
    collector = FaultCollector()
    for number, row in enumerate(sheet.rows, start=1):
        for box in row.boxes:
            place = box_place(row_place(where, number, row), box)
            corners = projection(np.array(box.rectangle.corners))
            side = np.linalg.norm(corners - np.roll(corners, -1, axis=0), axis=1).min()
            if not ((corners >= -0.5) & (corners <= [columns + 0.5, rows + 0.5])).all():
                what = "lies outside the picture; correct its rectangle in the layout."
                collector.note(place, what)
            elif side < SMALLEST:
                collector.note(
                    place,
                    f"is only {side:.0f} pixels wide or high in the picture; take a picture with at"
                    f" least {SMALLEST:.0f}.",
                )
    collector.raise_if_any()
