"""Pictures to hang up: with a heading and a note, and several set under each other."""

from collections.abc import Sequence

from fewtubes.picture.moving import moved
from fewtubes.picture.shapes import Picture, Shape, Words
from fewtubes.picture.sheet import Sheet

__all__ = ["framed", "stacked"]

MARGIN = 28.0
HEADING_SIZE, NOTE_SIZE = 24.0, 14.0
HEADING_ROOM, NOTE_ROOM = 40.0, 20.0
NAME_SIZE, NAME_ROOM = 17.0, 30.0
"""Sizes of type and the height that a line of it takes."""

LETTER_WIDTH, CLOSE_WIDTH = 0.62, 0.52
"""Width of a letter ÷ its size: generous for a heading, usual for a line of prose."""


def framed(picture: Picture, sheet: Sheet, *, heading: str, notes: Sequence[str]) -> Picture:
    """Return a picture with a margin, a heading above and lines of note below.

    A picture narrower than its words is set in the middle.
    """
    widest = max(
        [picture.width, LETTER_WIDTH * HEADING_SIZE * len(heading)]
        + [CLOSE_WIDTH * NOTE_SIZE * len(note) for note in notes]
    )
    top = MARGIN + HEADING_ROOM
    foot = top + picture.height
    words: list[Shape] = [Words(MARGIN, MARGIN + HEADING_SIZE, heading, sheet.ink, HEADING_SIZE)]
    words += [
        Words(MARGIN, foot + (turn + 1) * NOTE_ROOM + 4, note, sheet.soft_ink, NOTE_SIZE)
        for turn, note in enumerate(notes)
    ]
    aside = MARGIN + (widest - picture.width) / 2
    return Picture(
        width=widest + 2 * MARGIN,
        height=foot + NOTE_ROOM * len(notes) + MARGIN,
        ground=sheet.ground,
        title=picture.title,
        description=picture.description,
        shapes=(*words, *(moved(shape, aside, top) for shape in picture.shapes)),
    )


def stacked(
    pictures: Sequence[Picture], names: Sequence[str], sheet: Sheet, *, title: str
) -> Picture:
    """Return pictures under each other, each with its name above it."""
    shapes: list[Shape] = []
    y = 0.0
    for picture, name in zip(pictures, names, strict=True):
        shapes.append(Words(0, y + NAME_SIZE, name, sheet.ink, NAME_SIZE))
        shapes += [moved(shape, 0, y + NAME_ROOM) for shape in picture.shapes]
        y += NAME_ROOM + picture.height + 8
    return Picture(
        width=max((picture.width for picture in pictures), default=1.0),
        height=max(y, 1.0),
        ground=sheet.ground,
        title=title,
        description="; ".join(names),
        shapes=tuple(shapes),
    )
