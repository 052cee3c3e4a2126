"""A card drawn at true size, to be printed.

matplotlib is imported where used, since its import takes its time.
"""

import io
import textwrap
import warnings
from collections.abc import Sequence
from typing import TYPE_CHECKING

import numpy as np

from fewtubes.card.arrangement import (
    BAR_TAIL,
    FIRST_ROW_TOP,
    MARGIN,
    MARK_SIDE,
    NAME_WIDTH,
    STRENGTHS,
)
from fewtubes.card.layout import Box, CardLayout, Mark, Rectangle, Row, Sheet
from fewtubes.card.marks import FIELDS, mark_fields
from fewtubes.colour.picture_file import Pixels

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from matplotlib.figure import Figure

__all__ = ["card_pdf", "sheet_pixels"]

MM_PER_INCH = 25.4

FAMILY = "DejaVu Sans"
"""Comes with matplotlib, so that a card looks the same everywhere."""

INK, RULE = "black", "0.6"
"""Of words and marks; of the lines around boxes, too pale to matter beside paint."""

OVERLAP = 0.02
"""By which white fields of a mark reach into each other, so that no seam is printed [mm]."""

NAME_SIZE, SMALL_SIZE, HEAD_SIZE, TINY_SIZE = 8.5, 7.5, 6.5, 5.0
"""Of type [points]."""

NAME_COLUMNS, NAME_LINES = 21, 3
"""Signs and lines of a printed name; it is printed smaller where they do not fit."""

NAME_INDENT = 4.0
"""Left free for the number of the row [mm]."""

LINE = 3.6
"""From one line of small type to the next [mm]."""

HEADS = {
    1.0: "full",
    0.5: "half\n1 part + 1 water",
    0.25: "quarter\n1 part + 3 water",
    0.125: "eighth\n1 part + 7 water",
}

SMALL_COLUMNS = 104
"""Signs of small type that fit between two corner marks."""

BEFORE = """\
Print this on the watercolour paper you paint on. If your printer cannot: print it on plain paper,
cut out the corner marks with a white rim, tape them to your paper just as far apart, and trace
boxes and bars. Ink the bars over, waterproof. Full strength is as strong as you would ever lay a
flowing stroke, like cream. Let it down with water, drop by drop, as said above the boxes; fill them
evenly; cross the bar with full strength. Keep the paper between the boxes clean. Let it all dry.
"""
"""What full strength is: common practice, no source."""

AFTER = """\
Photograph it dry, flat and sharp, straight from above, with all four marks, in daylight from the
side, without sun, shine or flash; or scan it without automatic colours. Do not lick brushes; mind
what the label says.
"""


def card_pdf(card: CardLayout) -> bytes:
    """Return a card as the content of a PDF file, a page a sheet, at true size."""
    from matplotlib.backends.backend_pdf import PdfPages

    stream = io.BytesIO()
    with warnings.catch_warnings():
        # A name may hold signs the type lacks; they are drawn as boxes, which says so well enough.
        warnings.filterwarnings("ignore", message="Glyph .* missing from font")
        with PdfPages(
            stream, metadata={"Title": "Card of swatches", "Creator": None, "CreationDate": None}
        ) as pages:
            for sheet in card.sheets:
                pages.savefig(_figure(sheet, card))
    return stream.getvalue()


def sheet_pixels(sheet: Sheet, card: CardLayout, *, dots_per_mm: float) -> Pixels:
    """Return one sheet as a picture, shape (rows, columns, 3)."""
    from matplotlib.backends.backend_agg import FigureCanvasAgg

    with warnings.catch_warnings():
        warnings.filterwarnings("ignore", message="Glyph .* missing from font")
        figure = _figure(sheet, card)
        figure.set_dpi(dots_per_mm * MM_PER_INCH)
        canvas = FigureCanvasAgg(figure)
        canvas.draw()  # type: ignore[no-untyped-call]
    rgba = np.asarray(canvas.buffer_rgba())  # type: ignore[no-untyped-call]
    return rgba[..., :3].copy()


def _figure(sheet: Sheet, card: CardLayout) -> "Figure":
    """Return a figure in which a unit is a millimetre, counted downwards."""
    from matplotlib.figure import Figure

    figure = Figure(figsize=(sheet.width / MM_PER_INCH, sheet.height / MM_PER_INCH))
    axes = figure.add_axes((0, 0, 1, 1), frameon=False)
    axes.set_axis_off()
    axes.set_xlim(0, sheet.width)
    axes.set_ylim(sheet.height, 0)
    for mark in sheet.marks:
        _put_mark(axes, mark)
    _put_words_around(axes, sheet, card)
    for place, row in enumerate(sheet.rows):
        _put_row(axes, row, place + 1)
    return figure


def _put_words_around(axes: "Axes", sheet: Sheet, card: CardLayout) -> None:
    """Write what to do, and what each column is for."""
    left = MARGIN + MARK_SIDE + 5
    of = f"sheet {sheet.number} of {len(card.sheets)}, {card.paper_size}"
    axes.text(left, MARGIN, f"Swatches of my paints — {of}", size=11, va="top", family=FAMILY)
    for line, words in enumerate(textwrap.wrap(BEFORE, SMALL_COLUMNS)):
        _put_small(axes, left, MARGIN + 6.5 + line * LINE, words)
    bottom = sheet.height - MARGIN - MARK_SIDE
    for line, words in enumerate(textwrap.wrap(AFTER, SMALL_COLUMNS)):
        _put_small(axes, left, bottom + 6 + line * LINE, words)
    for strength, box in zip(STRENGTHS, sheet.rows[0].boxes, strict=False):
        _put_head(axes, box, HEADS[strength])
    _put_head(axes, sheet.rows[0].boxes[-1], "full,\nover the bar")


def _put_head(axes: "Axes", box: Box, words: str) -> None:
    """Write what a column is for above its first box."""
    middle = box.rectangle.left + box.rectangle.width / 2
    axes.text(
        middle, FIRST_ROW_TOP - 1.5, words, size=HEAD_SIZE, ha="center", va="bottom", family=FAMILY
    )


def _put_small(axes: "Axes", left: float, top: float, words: str) -> None:
    axes.text(left, top, words, size=SMALL_SIZE, va="top", family=FAMILY, parse_math=False)


def _put_mark(axes: "Axes", mark: Mark) -> None:
    """Draw a black square and its white fields on top."""
    place = mark.rectangle
    field = place.width / FIELDS
    _put_area(axes, place, INK)
    for row, column in np.argwhere(mark_fields(mark.code)).tolist():
        left, top = place.left + column * field, place.top + row * field
        side = field + 2 * OVERLAP
        _put_area(axes, Rectangle(left - OVERLAP, top - OVERLAP, side, side), "white")


def _put_row(axes: "Axes", row: Row, number: int) -> None:
    """Draw the boxes of a tube, with its name or a line to write it on."""
    top = row.boxes[0].rectangle.top
    right = MARGIN + NAME_WIDTH
    _put_small(axes, MARGIN, top, f"{number}")
    if row.name:
        lines = textwrap.wrap(
            row.name, NAME_COLUMNS, max_lines=NAME_LINES, placeholder=" …", break_on_hyphens=False
        )
        axes.text(
            MARGIN + NAME_INDENT,
            top - 0.5,
            "\n".join(lines),
            size=_fitting_size(lines, NAME_WIDTH - NAME_INDENT),
            va="top",
            family=FAMILY,
            parse_math=False,
        )
    else:
        _put_rule(axes, MARGIN + NAME_INDENT, right, top + 6, "tube")
    _put_rule(axes, MARGIN + NAME_INDENT, right, top + 15, "pigments")
    for box in row.boxes:
        _put_box(axes, box)


def _fitting_size(lines: Sequence[str], width: float) -> float:
    """Return the size of type [points] in which the lines are no wider than `width` [mm]."""
    from matplotlib.font_manager import FontProperties
    from matplotlib.textpath import text_to_path

    type_ = FontProperties(family=FAMILY, size=NAME_SIZE)
    widest = max(
        text_to_path.get_text_width_height_descent(line, type_, ismath=False)[0] for line in lines
    )
    return float(NAME_SIZE * min(1.0, width / MM_PER_INCH * 72 / widest))


def _put_rule(axes: "Axes", left: float, right: float, y: float, words: str) -> None:
    """Draw a line to write on, and say below it what is to be written."""
    axes.plot([left, right], [y, y], color=RULE, linewidth=0.5)
    axes.text(left, y + 0.5, words, size=TINY_SIZE, va="top", color="0.4", family=FAMILY)


def _put_box(axes: "Axes", box: Box) -> None:
    """Draw a box; one over black with its bar."""
    place = box.rectangle
    if box.over_black:
        bar = Rectangle(place.left, place.top, place.width + BAR_TAIL, place.height)
        _put_area(axes, bar, INK)
        first, last = box.stroke[0], box.stroke[-1]
        place = Rectangle(place.left, first.top, place.width, last.top + last.height - first.top)
    x, y = zip(*place.corners, place.corners[0], strict=True)
    axes.plot(x, y, color=RULE, linewidth=0.4)


def _put_area(axes: "Axes", place: Rectangle, colour: str) -> None:
    from matplotlib.patches import Rectangle as Area

    axes.add_patch(
        Area((place.left, place.top), place.width, place.height, facecolor=colour, linewidth=0)
    )
