"""A tube painted out: one stroke from full strength to the thinnest wash, over a black line."""

import numpy as np

from fewtubes.catalogue.records import Tube
from fewtubes.colour.bands import FloatArray
from fewtubes.mixing.mixture import Optics
from fewtubes.mixing.recipes import STRENGTHS
from fewtubes.picture.outlines import by_hand, rectangle, seed_of
from fewtubes.picture.shapes import Area, Grade, Line, Picture, Shape, Words, points_of
from fewtubes.picture.sheet import BEYOND, Sheet, screen_colour
from fewtubes.picture.washes import TubeWashes, washes_of

__all__ = ["STRIP_HEIGHT", "STRIP_WIDTH", "beyond_steps", "strip_picture"]

STRIP_WIDTH = 480.0
STRIP_HEIGHT = 96.0
MARGIN = 8.0
TOP = 18.0
THICK = 50.0
"""Height of the stroke."""

LINE_AT, LINE_WIDTH = 47.0, 7.0
"""Where the black line lies, under the full-strength end."""

LABEL_SIZE = 17.0
FRACTIONS = ("full", "½", "¼", "⅛", "1/16", "1/32")
"""Strength at every second step; each step divides by √2."""


def strip_picture(tube: Tube, optics: Optics, sheet: Sheet, *, name: str) -> Picture:
    """Return the strip of one tube; `name` is how the tube is called in words."""
    return Picture(
        width=STRIP_WIDTH,
        height=STRIP_HEIGHT,
        ground=sheet.ground,
        title=f"{name}, painted out",
        description="One stroke from full strength on the left to the thinnest wash on the right;"
        " a black line lies beneath its left end.",
        shapes=_strip(tube, optics, sheet),
    )


def _strip(tube: Tube, optics: Optics, sheet: Sheet) -> tuple[Shape, ...]:
    washes, places = washes_of(tube, optics), _places()
    body = rectangle(MARGIN, TOP, STRIP_WIDTH - 2 * MARGIN, THICK)
    edge = by_hand(body, amount=1.5, seed=seed_of(tube.id))
    strongest = screen_colour(washes.inside[0]).hex
    white = sheet.outlined(strongest, strongest) != strongest
    stroke = Area(
        points_of(edge),
        _grade(places, washes.inside, sheet),
        rim=sheet.soft_ink if white else _grade(places, washes.rim, sheet),
        rim_width=0.8 if white else 1.8,
    )
    marks = [
        Words(float(places[step]), TOP - 4, BEYOND, sheet.ink, LABEL_SIZE, "middle")
        for step in beyond_steps(washes)
    ]
    labels = [
        Words(
            float(places[2 * turn]),
            STRIP_HEIGHT - 8,
            text,
            sheet.soft_ink,
            LABEL_SIZE,
            "middle",
        )
        for turn, text in enumerate(FRACTIONS)
    ]
    return (_black_line(washes), stroke, _line_seen(washes), *marks, *labels)


def beyond_steps(washes: TubeWashes) -> list[int]:
    """Return the steps of strength whose colour the screen cannot show."""
    return [step for step, lab in enumerate(washes.inside) if not screen_colour(lab).inside]


def _places() -> FloatArray:
    """Return x of each strength, shape (12,), evenly spaced, as the strengths are geometric."""
    step = (STRIP_WIDTH - 2 * MARGIN) / len(STRENGTHS)
    return np.asarray(MARGIN + step * (np.arange(len(STRENGTHS)) + 0.5))


def _grade(places: FloatArray, labs: FloatArray, sheet: Sheet) -> Grade:
    """Return the colours along a stroke, which runs out into the bare paper."""
    stops = [(x, screen_colour(lab).hex) for x, lab in zip(places.tolist(), labs, strict=True)]
    return Grade((*stops, (float(places[0]) + STRIP_WIDTH - 2 * MARGIN, sheet.paper)))


def _black_line(washes: TubeWashes) -> Line:
    """Return the black line as it shows above and below the stroke."""
    ends = ((LINE_AT, TOP - 9), (LINE_AT, TOP + THICK + 9))
    return Line(ends, screen_colour(washes.black).hex, LINE_WIDTH)


def _line_seen(washes: TubeWashes) -> Area:
    """Return the line as it shows through the stroke at full strength."""
    left, right = LINE_AT - LINE_WIDTH / 2, LINE_AT + LINE_WIDTH / 2
    upper, lower = TOP + 0.5, TOP + THICK - 0.5
    corners = ((left, upper), (right, upper), (right, lower), (left, lower))
    return Area(corners, screen_colour(washes.over_black[0]).hex)
