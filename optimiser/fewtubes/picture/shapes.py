"""A picture as a value: areas, lines and words on a ground, in the order they are painted.

Lengths are in the picture's own unit, x to the right, y down. Colours are written as ``#rrggbb``.
What a picture shows is thus fixed before anything is drawn, and SVG and PNG agree.
"""

from dataclasses import dataclass
from typing import Literal

import numpy as np

from fewtubes.colour.bands import FloatArray

__all__ = [
    "Area",
    "Fill",
    "Grade",
    "Line",
    "Picture",
    "Points",
    "Shape",
    "Words",
    "points_of",
]

Points = tuple[tuple[float, float], ...]


@dataclass(frozen=True)
class Grade:
    """Colours that change along x; between two stops the sRGB values are in proportion."""

    stops: tuple[tuple[float, str], ...]
    """Places x, rising, with their colours; beyond the ends the last colour holds."""


Fill = str | Grade


@dataclass(frozen=True)
class Area:
    """A closed outline, filled, with a rim if wanted."""

    points: Points
    fill: Fill
    rim: Fill | None = None
    rim_width: float = 0.0


@dataclass(frozen=True)
class Line:
    """A line through points, not closed."""

    points: Points
    colour: str
    width: float = 1.0
    dashed: bool = False


@dataclass(frozen=True)
class Words:
    """A short text; x is its start, middle or end, y its base line."""

    x: float
    y: float
    text: str
    colour: str
    size: float
    anchor: Literal["start", "middle", "end"] = "start"
    bold: bool = False
    halo: str | None = None
    """Colour of a seam around the signs where other shapes may lie beneath."""


Shape = Area | Line | Words


@dataclass(frozen=True)
class Picture:
    """Shapes on a ground, with what they show in words."""

    width: float
    height: float
    ground: str
    title: str
    description: str
    shapes: tuple[Shape, ...]


def points_of(table: FloatArray) -> Points:
    """Return a table of places, shape (n, 2), as points to a hundredth of a unit."""
    return tuple((x, y) for x, y in np.round(table, 2).tolist())
