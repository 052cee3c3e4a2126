"""How a card is laid out on sheets: a row a tube, five boxes a row, bare paper between them.

All measures in millimetres. Sizes of paper: ISO 216 (A4); ANSI/ASME Y14.1 (A, called Letter).
"""

from collections.abc import Sequence

from fewtubes.card.layout import Box, CardLayout, Mark, Rectangle, Row, Sheet, Unit
from fewtubes.card.marks import codes_of_sheet
from fewtubes.errors import Fault, InputError

__all__ = [
    "BAR_TAIL",
    "FIRST_ROW_TOP",
    "MARGIN",
    "MARK_SIDE",
    "MOST_ROWS",
    "NAME_WIDTH",
    "PAPER_SIZES",
    "ROWS_A_SHEET",
    "STRENGTHS",
    "arranged_card",
]

PAPER_SIZES = {"A4": (210.0, 297.0), "Letter": (215.9, 279.4)}
"""Width and height [mm]."""

FIRST_CODES = {"A4": 0, "Letter": 48}
"""Of the corner marks, so that a photograph of the one size is not taken for the other."""

STRENGTHS = (1.0, 0.5, 0.25, 0.125)
"""Of the boxes over paper; the one over black is at full strength."""

ROWS_A_SHEET = 8

MOST_SHEETS = 12
"""As many as there are codes for."""

MOST_ROWS = ROWS_A_SHEET * MOST_SHEETS

MARGIN = 10.0
"""Left free all round; printers for the home leave 3 to 6 mm white."""

MARK_SIDE = 14.0
"""Fields of 2 mm: told apart where a pixel of the photograph is up to about 0.7 mm."""

FIRST_ROW_TOP = 44.0
"""Top of the first boxes."""

NAME_WIDTH = 38.0

BOX_WIDTH, BOX_HEIGHT = 20.0, 17.0
"""A stroke of a broad brush, with room for its edges to be left out."""

GAP = 9.0
"""Bare paper between boxes."""

BAR_HEIGHT = 8.0
BAR_TAIL = 6.0
"""How far the bar stands out of its box, bare."""

WHITE_MARGIN = 1.5
"""Of the bare paper beside a box, left out: brushes overshoot."""


BESIDE_BAR = 0.5
"""Of the bare paper above and below the bar's tail, left out [mm]."""


def arranged_card(paper_size: str, names: Sequence[str]) -> CardLayout:
    """Return a card for so many tubes.

    Parameters
    ----------
    paper_size
        One of `PAPER_SIZES`.
    names
        A name a row, blank where it is to be written by hand.

    Raises
    ------
    InputError
        If there are no rows or more than fit.
    """
    if not 1 <= len(names) <= MOST_ROWS:
        what = f"has {len(names):,} rows; it must have from 1 to {MOST_ROWS}: make several cards."
        raise InputError([Fault("card", what)])
    starts = range(0, len(names), ROWS_A_SHEET)
    sheets = tuple(
        _sheet(number, paper_size, names[start : start + ROWS_A_SHEET])
        for number, start in enumerate(starts, start=1)
    )
    return CardLayout(Unit.MM, sheets, paper_size)


def _sheet(number: int, paper_size: str, names: Sequence[str]) -> Sheet:
    """Return one sheet."""
    width, height = PAPER_SIZES[paper_size]
    right, bottom = (round(side - MARGIN - MARK_SIDE, 2) for side in (width, height))
    places = ((MARGIN, MARGIN), (right, MARGIN), (right, bottom), (MARGIN, bottom))
    codes = codes_of_sheet(number, FIRST_CODES[paper_size])
    pitch = (bottom - FIRST_ROW_TOP) // ROWS_A_SHEET
    tops = [FIRST_ROW_TOP + place * pitch for place in range(len(names))]
    bar_left = _box_left(len(STRENGTHS)) + BOX_WIDTH
    return Sheet(
        number=number,
        width=width,
        height=height,
        rows=tuple(Row(name, (), _boxes(top)) for name, top in zip(names, tops, strict=True)),
        marks=tuple(
            Mark(code, Rectangle(x, y, MARK_SIDE, MARK_SIDE))
            for code, (x, y) in zip(codes, places, strict=True)
        ),
        black=tuple(Rectangle(bar_left, _bar_top(top), BAR_TAIL, BAR_HEIGHT) for top in tops),
    )


def _box_left(place: int) -> float:
    """Return where a box begins, counted from 0."""
    return MARGIN + NAME_WIDTH + GAP + place * (BOX_WIDTH + GAP)


def _bar_top(top: float) -> float:
    return top + (BOX_HEIGHT - BAR_HEIGHT) / 2


def _boxes(top: float) -> tuple[Box, ...]:
    """Return the boxes of the row that begins at `top`."""
    over_paper = [
        Box(
            strength,
            over_black=False,
            rectangle=Rectangle(_box_left(place), top, BOX_WIDTH, BOX_HEIGHT),
            white=(_white(_box_left(place) - GAP, top), _white(_box_left(place + 1) - GAP, top)),
        )
        for place, strength in enumerate(STRENGTHS)
    ]
    left = _box_left(len(STRENGTHS))
    bar_top = _bar_top(top)
    free = (BOX_HEIGHT - BAR_HEIGHT) / 2
    over_black = Box(
        1.0,
        over_black=True,
        rectangle=Rectangle(left, bar_top, BOX_WIDTH, BAR_HEIGHT),
        white=(
            _white(left - GAP, top),
            *(
                Rectangle(left + BOX_WIDTH + WHITE_MARGIN, y, BAR_TAIL - 2, free - 2 * BESIDE_BAR)
                for y in (top + BESIDE_BAR, bar_top + BAR_HEIGHT + BESIDE_BAR)
            ),
        ),
        stroke=(
            Rectangle(left, top, BOX_WIDTH, free),
            Rectangle(left, bar_top + BAR_HEIGHT, BOX_WIDTH, free),
        ),
    )
    return (*over_paper, over_black)


def _white(left: float, top: float) -> Rectangle:
    """Return the bare paper of a gap that begins at `left`."""
    return Rectangle(
        left + WHITE_MARGIN,
        top + WHITE_MARGIN,
        GAP - 2 * WHITE_MARGIN,
        BOX_HEIGHT - 2 * WHITE_MARGIN,
    )
