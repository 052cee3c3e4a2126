"""A picture as a line drawing, to be painted in by hand and to be copied in black and white."""

from dataclasses import replace

from fewtubes.picture.shapes import Area, Line, Picture, Shape
from fewtubes.picture.sheet import BEYOND, MISSED, Sheet

__all__ = ["line_drawing"]

NUMBER_SIZE = 28.0
"""Of numbers [picture units], if nothing else is said: 3 mm on paper, where the drawing is 38 mm
wide."""

FIGURE_HEIGHT = 0.72
"""Of a figure ÷ its size, as where it was placed (`fewtubes.picture.brush`)."""

LINE_WIDTH = 1.0
"""Of every line [picture units]; a hair on paper, yet kept by a copier."""

MARKS = f" {MISSED}{BEYOND}"
"""What stands behind numbers and means nothing where nothing is coloured."""


def line_drawing(picture: Picture, sheet: Sheet, *, number: float = NUMBER_SIZE) -> Picture:
    """Return the outlines of a picture with its words, nothing filled.

    Parameters
    ----------
    picture
        Any.
    sheet
        The paper and the inks.
    number
        Size of the numbers [picture units].
    """
    drawn = tuple(_drawn(shape, sheet, number) for shape in picture.shapes)
    return replace(picture, shapes=drawn)


def _drawn(shape: Shape, sheet: Sheet, number: float) -> Shape:
    """Return a shape as lines on the ground; a later one still hides what lies beneath."""
    if isinstance(shape, Area):
        return Area(shape.points, sheet.ground, rim=sheet.soft_ink, rim_width=LINE_WIDTH)
    if isinstance(shape, Line):
        return replace(shape, colour=sheet.soft_ink, width=LINE_WIDTH, dashed=False)
    middle = shape.y - FIGURE_HEIGHT * shape.size / 2
    return replace(
        shape,
        y=middle + FIGURE_HEIGHT * number / 2,
        size=number,
        text=shape.text.rstrip(MARKS),
    )
