"""Where the boxes of a card lie: on a printed sheet in millimetres, or in a picture.

Places are counted from the top left corner, to the right and downwards.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from enum import Enum

__all__ = ["Box", "CardLayout", "Mark", "Rectangle", "Row", "Sheet", "Unit"]


class Unit(Enum):
    """What the numbers of a layout count."""

    MM = "mm"
    """On a sheet with corner marks, by which it is found in a photograph."""
    PIXELS = "pixels"
    """Of the picture as it is shown, upright and in full size."""
    SHARE = "share"
    """Of the picture's width, and of its height [0–1]."""


@dataclass(frozen=True)
class Rectangle:
    """A place, in the unit of its layout."""

    left: float
    top: float
    width: float
    height: float

    def inner(self, margin: float) -> "Rectangle":
        """Return what is left when a share [0–0.5) of width and height goes off each side."""
        return Rectangle(
            self.left + margin * self.width,
            self.top + margin * self.height,
            (1 - 2 * margin) * self.width,
            (1 - 2 * margin) * self.height,
        )

    @property
    def corners(self) -> tuple[tuple[float, float], ...]:
        """Top left, top right, bottom right, bottom left, each (x, y)."""
        right, bottom = self.left + self.width, self.top + self.height
        return ((self.left, self.top), (right, self.top), (right, bottom), (self.left, bottom))


@dataclass(frozen=True)
class Box:
    """A place for one swatch."""

    strength: float
    """Share of a full-strength stroke (0–1]."""
    over_black: bool
    """Whether the paint lies over a black line there."""
    rectangle: Rectangle
    white: tuple[Rectangle, ...] = ()
    """Bare paper beside it."""
    stroke: tuple[Rectangle, ...] = ()
    """For a box over black: where the same stroke goes on over the paper, if known; it tells
    whether there is a stroke at all."""


@dataclass(frozen=True)
class Row:
    """The boxes of one tube."""

    name: str
    """Blank if it is not known yet."""
    codes: tuple[str, ...]
    """Colour Index generic names of its pigments; empty if they are not known."""
    boxes: tuple[Box, ...]


@dataclass(frozen=True)
class Mark:
    """A corner mark."""

    code: int
    """Its place in `fewtubes.card.marks.CODES`."""
    rectangle: Rectangle


@dataclass(frozen=True)
class Sheet:
    """One sheet of a card, or one picture."""

    number: int
    """From 1."""
    width: float
    """Of the paper [mm]; 0 for a picture."""
    height: float
    """Of the paper [mm]; 0 for a picture."""
    rows: tuple[Row, ...]
    marks: tuple[Mark, ...] = ()
    """Four of a printed sheet (top left, top right, bottom right, bottom left), none of a
    picture."""
    white: tuple[Rectangle, ...] = ()
    """Bare paper, beside that of the boxes."""
    black: tuple[Rectangle, ...] = ()
    """Bare black line."""


@dataclass(frozen=True)
class CardLayout:
    """All sheets of a card."""

    unit: Unit
    sheets: tuple[Sheet, ...]
    paper_size: str = ""
    """Name of the paper's size; blank for a picture."""

    def with_names(self, names: Sequence[str], codes: Sequence[Sequence[str]] = ()) -> "CardLayout":
        """Return the layout with its rows named in their order; those left over keep theirs.

        Parameters
        ----------
        names
            Of tubes; a blank one leaves the name that is there.
        codes
            Pigments of each tube, in the same order.

        Raises
        ------
        ValueError
            If there are more names than rows.
        """
        count = sum(len(sheet.rows) for sheet in self.sheets)
        if len(names) > count:
            raise ValueError(f"{len(names)} names for {count} rows")
        given = iter(names)
        pigments = iter(codes)
        sheets = [
            replace(sheet, rows=tuple(_named(row, given, pigments) for row in sheet.rows))
            for sheet in self.sheets
        ]
        return replace(self, sheets=tuple(sheets))


def _named(row: Row, names: Iterator[str], codes: Iterator[Sequence[str]]) -> Row:
    """Return a row with the next name and pigments, if there are any."""
    return replace(row, name=next(names, "") or row.name, codes=tuple(next(codes, ()) or row.codes))
