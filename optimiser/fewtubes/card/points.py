"""A picture in which somebody pointed at swatches and at bare paper."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from fewtubes.card.layout import Box, CardLayout, Rectangle, Row, Sheet, Unit
from fewtubes.catalogue.names import alike_key
from fewtubes.errors import Fault, InputError

__all__ = ["RADIUS", "PointedSwatch", "layout_of_points"]

RADIUS = 0.012
"""Half the side of what is looked at around a point, as a share of the picture's longer side."""


@dataclass(frozen=True)
class PointedSwatch:
    """A place that shows a swatch."""

    tube: str
    """Its name."""
    strength: float
    """Share of a full-strength stroke (0–1]."""
    over_black: bool
    x: float
    """From the left, as a share of the picture's width [0–1]."""
    y: float
    """From the top, as a share of the picture's height [0–1]."""
    codes: tuple[str, ...] = ()
    """Colour Index generic names of the tube's pigments, where known."""


def layout_of_points(
    swatches: Sequence[PointedSwatch],
    *,
    white: Sequence[tuple[float, float]],
    black: Sequence[tuple[float, float]] = (),
    width: float,
    height: float,
    radius: float = RADIUS,
) -> CardLayout:
    """Return the layout in which a small square lies around each point.

    Parameters
    ----------
    swatches
        In any order; those of a tube become one row.
    white, black
        Points on bare paper and on the bare black line, (x, y) as shares of the picture.
    width, height
        Of the picture, in any unit; only their ratio counts.
    radius
        Half the side of a square, as a share of the picture's longer side.

    Raises
    ------
    InputError
        If there is no swatch or no bare paper among the points.
    """
    if not swatches:
        raise InputError([Fault("points", "there is none on a swatch; point at some.")])
    if not white:
        what = "there is none on bare paper; point at some, best beside each swatch."
        raise InputError([Fault("points", what)])
    longer = max(width, height)
    half = (radius * longer / width, radius * longer / height)
    rows: dict[str, Row] = {}
    for swatch in swatches:
        key = alike_key(swatch.tube)
        row = rows.get(key, Row(swatch.tube, (), ()))
        place = _square((swatch.x, swatch.y), half)
        box = Box(swatch.strength, swatch.over_black, place)
        rows[key] = replace(row, boxes=(*row.boxes, box), codes=row.codes or swatch.codes)
    sheet = Sheet(
        number=1,
        width=0.0,
        height=0.0,
        rows=tuple(rows.values()),
        white=tuple(_square(point, half) for point in white),
        black=tuple(_square(point, half) for point in black),
    )
    return CardLayout(Unit.SHARE, (sheet,))


def _square(middle: tuple[float, float], half: tuple[float, float]) -> Rectangle:
    """Return the square around a point, moved into the picture where it reaches beyond."""
    left, top = (
        min(max(place - reach, 0.0), 1 - 2 * reach)
        for place, reach in zip(middle, half, strict=True)
    )
    return Rectangle(left, top, 2 * half[0], 2 * half[1])
