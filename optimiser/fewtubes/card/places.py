"""Where the boxes of a sheet lie in a picture, and what a fault of one is told of."""

from collections.abc import Iterator
from dataclasses import astuple

import numpy as np

from fewtubes.card.layout import Box, Rectangle, Row, Sheet
from fewtubes.card.looking import Projection
from fewtubes.catalogue.collector import FaultCollector
from fewtubes.catalogue.limits import shown
from fewtubes.colour.bands import FloatArray

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

    Of a layout by hand every other place outside is told as well; a printed card may be cut off in
    the picture where only its bare paper is.

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
            if not _inside(corners, rows, columns):
                what = "lies outside the picture; correct its rectangle in the layout."
                collector.note(place, what)
            elif side < SMALLEST:
                collector.note(
                    place,
                    f"is only {side:.0f} pixels wide or high in the picture; take a picture with at"
                    f" least {SMALLEST:.0f}.",
                )
    for key, other in () if sheet.marks else _other_places(sheet):
        if not _inside(projection(np.array(other.corners)), rows, columns):
            sides = ", ".join(f"{side:g}" for side in astuple(other))
            what = f"the place [{sides}] under {key} lies outside the picture; correct it."
            collector.note(where, what)
    collector.raise_if_any()


def _inside(corners: FloatArray, rows: int, columns: int) -> bool:
    """Return whether corners [pixels], shape (4, 2), lie in a picture, but for half a pixel."""
    return bool(((corners >= -0.5) & (corners <= [columns + 0.5, rows + 0.5])).all())


def _other_places(sheet: Sheet) -> Iterator[tuple[str, Rectangle]]:
    """Yield the places that are no boxes, each with the key that it is named under."""
    yield from (("white", place) for place in sheet.white)
    yield from (("black", place) for place in sheet.black)
    for box in (box for row in sheet.rows for box in row.boxes):
        yield from (("white", place) for place in box.white)
        yield from (("stroke", place) for place in box.stroke)
