"""The sheet to paint as one page to print, whose lengths on paper are true."""

from importlib.resources import files

from markupsafe import Markup

from fewtubes.picture.shapes import Area, Picture
from fewtubes.report.illustrated.basis import Basis
from fewtubes.report.illustrated.chart import (
    MOST_TUBES_IN_ALL_PAIRS,
    WASH,
    Box,
    Row,
    pair_rows,
    puddle_rows,
    tube_rows,
)
from fewtubes.report.illustrated.closing import cautions_section
from fewtubes.report.illustrated.markup import drawn, fill
from fewtubes.report.illustrated.page import inks_style, style_digest
from fewtubes.words.counting import counted
from fewtubes.words.lists import joined
from fewtubes.words.printable import printable
from fewtubes.words.washes import strength_words

__all__ = ["chart_page", "chart_words"]

CHIP = (17.0, 4.0)
"""Width and height of a computed colour [mm]."""

RULE = (100.0, 1.0)
"""Width and height of the line by which a print is checked [mm]."""


def chart_page(basis: Basis) -> str:
    """Return the page: tubes alone, pairs in steps, puddles with their washes, cautions."""
    style = _style(basis)
    puddles = [(printable(name), _told(basis, rows)) for name, rows in puddle_rows(basis)]
    return fill(
        "chart.html",
        title=printable(basis.plan.scenario.title),
        style=style,
        style_digest=style_digest(style),
        counts=chart_words(basis),
        rule=_patch(basis, RULE, basis.sheet.ink, "A line of 100 mm"),
        tubes=_told(basis, tube_rows(basis)),
        pairs=_told(basis, pair_rows(basis)),
        fewer_pairs=len(basis.tubes) > MOST_TUBES_IN_ALL_PAIRS,
        wash=strength_words(WASH),
        puddles=puddles,
        cautions=cautions_section(basis.plan),
        source=printable(basis.plan.catalogue_label),
    )


def chart_words(basis: Basis) -> str:
    """Return what stands on the sheet, e.g. ``4 tubes, 6 pairs and 9 puddles``."""
    return joined(
        [
            counted(len(basis.tubes), "tube"),
            counted(len(pair_rows(basis)), "pair"),
            counted(len(basis.plan.mixed.mixed), "puddle"),
        ]
    )


def _told(basis: Basis, rows: list[Row]) -> list[tuple[str, list[list[tuple[Box, Markup]]]]]:
    """Return rows with each box's colour drawn."""
    return [
        (
            row.title,
            [
                [(box, _patch(basis, CHIP, box.shown.hex, "computed")) for box in line]
                for line in row.lines
            ],
        )
        for row in rows
    ]


def _patch(basis: Basis, size: tuple[float, float], colour: str, title: str) -> Markup:
    """Return a rectangle, one unit a millimetre; drawn, since browsers leave out backgrounds."""
    width, height = size
    corners = ((0.0, 0.0), (width, 0.0), (width, height), (0.0, height))
    rim = basis.sheet.outlined(colour, colour)
    shape = Area(corners, colour, rim=None if rim == colour else rim, rim_width=0.3)
    return drawn(Picture(width, height, basis.sheet.ground, title, "", (shape,)), spoken=False)


def _style(basis: Basis) -> Markup:
    written = (files("fewtubes.report.illustrated") / "chart.css").read_text(encoding="utf-8")
    return Markup(inks_style(basis.sheet) + written)  # noqa: S704  # our own file, hex colours
