"""How high a hand-out is, and so how closely it has to be set to take the fewest sheets of paper.

The heights are reckoned, since what prints the page runs no program: of letters rather wider than
most, and for US Letter, which is shorter than A4. So twelve flowers of four washes in two puddles
each take one sheet, or eight of six washes; what is beyond takes a second.
"""

import math
from collections.abc import Iterator, Sequence

from fewtubes.report.illustrated.handout import (
    Handout,
    HandoutPuddle,
    HandoutSubject,
    HandoutTube,
    HandoutWash,
)
from fewtubes.report.illustrated.handout_setting import (
    BESIDE_BOX,
    GAP,
    POINT,
    SETTINGS,
    WIDTH,
    Setting,
)

__all__ = ["height", "setting_for", "sheets", "span"]

HEIGHT = 257.0
"""Of what is printed on US Letter, the shorter: 279.4 less margins of 11 [mm]."""

LETTER_WIDTH = 0.45
"""Of a letter of a serif face ÷ its size, blanks counted; faces with narrow letters have 0.42."""

TITLE_ROOM = 100.0
"""The width for the title, beside the name [mm]."""

HOW_LETTERS = 386
"""Of what is done with the boxes, at most."""

FINE_LEADING = 1.25
"""Line height ÷ size of letters of what is told once."""

PAINT_BOX, AROUND_PAINTS = (16.0, 9.0), 6.5
"""Box of a paint, and the heading of the paints with what is around [mm]."""

AROUND_HOW, AROUND_FOOT = 4.5, 3.5
"""What is around of what is told once [mm]."""

LEADER_TEXT = 9.0
"""Letters of what is told to whoever leads the class [pt]."""

AROUND = 2.7
"""Line above a subject with what is around [mm]."""

HEADING = 12.0
"""Letters of a flower's name [pt]."""


def setting_for(handout: Handout, settings: Sequence[Setting] = SETTINGS) -> Setting:
    """Return the first of settings, the roomiest, of those that take the fewest sheets."""
    return min(settings, key=lambda setting: sheets(setting, handout))


def sheets(setting: Setting, handout: Handout) -> int:
    """Return how many sheets of paper a hand-out takes at most, as reckoned.

    What does not stand on what is left of a sheet goes to the next one, whole; only what is higher
    than a sheet is parted.
    """
    full, used = divmod(_top(setting, handout), HEIGHT)
    for block in [*_flowers(setting, handout.subjects), _foot(setting, handout)]:
        if used and used + block > HEIGHT:
            full, used = full + 1, 0.0
        more, used = divmod(used + block, HEIGHT)
        full += more
    return int(full) + (used > 0)


def height(setting: Setting, handout: Handout) -> float:
    """Return the height of all of a hand-out at most, on one endless sheet, as reckoned [mm]."""
    flowers = sum(_flowers(setting, handout.subjects))
    return _top(setting, handout) + flowers + _foot(setting, handout)


def span(setting: Setting, subject: HandoutSubject, puddle: HandoutPuddle) -> int:
    """Return over how many columns a puddle reaches: as many as washes, more for a long mix."""
    across, column = setting.across(subject), setting.column(subject)
    wide = _head(setting, puddle) / setting.head_lines
    return min(across, max(len(puddle.washes), math.ceil((wide + GAP) / (column + GAP))))


def _lines(text: str, width: float, size: float) -> int:
    """Return how many lines a text takes, words unparted but where one is longer than a line.

    Parameters
    ----------
    text
        Any text.
    width
        Of a line [mm].
    size
        Of the letters [pt].
    """
    most = max(1, int(width / (LETTER_WIDTH * size * POINT)))
    lines, used = 1, 0
    for word in text.split(" "):
        length = len(word)
        if used and used + 1 + length > most:
            lines, used = lines + 1, 0
        lines += max(0, length - 1) // most
        used = length % most if length > most else used + length + bool(used)
    return lines


def _fine(text: str, size: float) -> float:
    """Return the height of a text over the whole width [mm]."""
    return _lines(text, WIDTH, size) * size * FINE_LEADING * POINT


def _top(setting: Setting, handout: Handout) -> float:
    """Return the height of title, paints and what is done with them [mm]."""
    lines = _lines(handout.title, TITLE_ROOM, setting.title)
    title = 2.5 + max(7.0, lines * setting.title * 1.15 * POINT)
    room = (WIDTH - (setting.paints - 1) * 4) / setting.paints - PAINT_BOX[0] - 2
    heights = [max(PAINT_BOX[1], _paint(tube, room, setting.paint)) for tube in handout.tubes]
    starts = range(0, len(heights), setting.paints)
    paints = sum(max(heights[at : at + setting.paints]) + 1.5 for at in starts)
    how = _fine("m" * (HOW_LETTERS - 1), setting.fine) + AROUND_HOW
    return title + AROUND_PAINTS + paints + how


def _paint(tube: HandoutTube, room: float, size: float) -> float:
    """Return the height of a paint's letter, name and pigments [mm]."""
    lines = _lines(f"{tube.letter} {tube.name} {tube.codes}", room, size)
    return (1 + lines * size * 1.15) * POINT


def _foot(setting: Setting, handout: Handout) -> float:
    """Return the height of cautions and origin [mm]."""
    care, leader = _fine(handout.care, setting.fine), _fine(handout.leader, LEADER_TEXT)
    return AROUND_FOOT + care + leader


def _flowers(setting: Setting, subjects: Sequence[HandoutSubject]) -> Iterator[float]:
    """Yield the heights of what is not parted between sheets [mm].

    That is a row of flowers, each with its drawing and mixes; of what has no drawing at its side,
    its head, each row of its puddles and what is told below them.
    """
    row: list[float] = []
    for subject in subjects:
        if row and (len(row) == setting.abreast or not subject.has_side):
            yield max(row)
            row = []
        if subject.has_side:
            row.append(_sided(setting, subject))
        else:
            yield from _wide(setting, subject)
    if row:
        yield max(row)


def _sided(setting: Setting, subject: HandoutSubject) -> float:
    """Return the height of a flower with its drawing at the side [mm]."""
    heading = _lines(subject.name, setting.drawing, HEADING) * HEADING * 1.15 * POINT
    side = heading + sum(_drawings(setting, subject))
    return AROUND + max(side, sum(_rows(setting, subject)) + sum(_asides(setting, subject)))


def _wide(setting: Setting, subject: HandoutSubject) -> Iterator[float]:
    """Yield the heights of head, rows of puddles and words of what takes the whole width [mm]."""
    drawings = _drawings(setting, subject)
    beside = max(1, int((WIDTH + GAP) / (setting.drawing + GAP)))
    rows = [max(drawings[at : at + beside]) + 6 for at in range(0, len(drawings), beside)]
    yield AROUND + _lines(subject.name, WIDTH, HEADING) * HEADING * 1.15 * POINT + sum(rows)
    yield from _rows(setting, subject)
    yield from _asides(setting, subject)


def _asides(setting: Setting, subject: HandoutSubject) -> Iterator[float]:
    """Yield the heights of what is told below a subject's puddles [mm]."""
    for said, text in subject.asides:
        lines = _lines(f"{said} {text}", setting.room(subject), setting.text)
        yield lines * setting.line + setting.between


def _drawings(setting: Setting, subject: HandoutSubject) -> list[float]:
    """Return the heights of a subject's drawings [mm]."""
    return [
        min(setting.drawing, setting.drawing * picture.height / picture.width)
        for _, picture in subject.pictures
    ]


def _rows(setting: Setting, subject: HandoutSubject) -> Iterator[float]:
    """Yield the heights of a subject's rows of puddles, filled in turn [mm]."""
    across, used, height = setting.across(subject), 0, 0.0
    for puddle in subject.puddles:
        wide = span(setting, subject, puddle)
        if used + wide > across:
            yield height + setting.between
            used, height = 0, 0.0
        used += wide
        height = max(height, _puddle(setting, setting.column(subject), puddle, wide))
    if used:
        yield height + setting.between


def _puddle(setting: Setting, column: float, puddle: HandoutPuddle, wide: int) -> float:
    """Return the height of a puddle [mm]."""
    room = wide * (column + GAP) - GAP
    head = math.ceil(_head(setting, puddle) / room) * setting.head_line
    if not setting.counted:
        head += _lines(puddle.words, room, setting.text) * setting.line
    words = column - setting.box[0] - BESIDE_BOX
    heights = [_wash(setting, words, wash) for wash in puddle.washes]
    starts = range(0, len(heights), wide)
    return head + sum(max(heights[at : at + wide]) + setting.between for at in starts)


def _wash(setting: Setting, words: float, wash: HandoutWash) -> float:
    """Return the height of a box with its words [mm]."""
    told = (f"{wash.strength}: {wash.water}" if setting.named else wash.water, wash.uses)
    lines = sum(_lines(text, words, setting.text) for text in told)
    return max(setting.box[1], lines * setting.line)


def _head(setting: Setting, puddle: HandoutPuddle) -> float:
    """Return the width of a mix on one line [mm]."""
    letter = LETTER_WIDTH * setting.head * POINT
    called = len(f"{setting.puddle} {puddle.number}: ") * letter * 1.1
    if setting.counted:
        names = sum(1 + len(name) for name in puddle.names) if setting.named else 0
        told = sum(len(f"{count} ") for _, count in puddle.parts) + names
        return called + told * letter + len(puddle.parts) * 4.6 + (len(puddle.parts) - 1) * 3.2
    chips = sum(count for _, count in puddle.parts) * 5.2
    return called + chips + (len(puddle.parts) - 1) * 4.5
