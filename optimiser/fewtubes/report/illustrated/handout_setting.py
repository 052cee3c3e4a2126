"""How closely a hand-out is set: three settings, from roomy to as dense as can be read.

The measures go into the style sheet from here, so that what is reckoned (`handout_height`) is what
is printed.
"""

from dataclasses import dataclass

from fewtubes.report.illustrated.handout import HandoutSubject

__all__ = ["BESIDE_BOX", "GAP", "POINT", "SETTINGS", "WIDTH", "Setting"]

WIDTH = 186.0
"""Of what is printed [mm], for A4 (210 × 297, ISO 216) and US Letter (215.9 × 279.4, ANSI/ASME
Y14.1); the margins are 12 and 11."""

POINT = 25.4 / 72
"""A typographic point [mm] (CSS Values and Units Level 4, absolute lengths)."""

GAP = 2.5
"""Between puddles, side by side [mm]."""

BETWEEN_FLOWERS, BESIDE_DRAWING = 5.0, 4.0
"""Between flowers side by side, between a drawing and its puddles [mm]."""

BESIDE_BOX = 1.5
"""Between a box and its words [mm]."""


@dataclass(frozen=True)
class Setting:
    """Measures of a hand-out, lengths in mm, letters in points."""

    drawing: float
    """Width of a flower's drawing, and its greatest height."""
    number: float
    """Size of a number in a drawing [picture units]."""
    columns: int
    """Washes side by side, beside a drawing."""
    wide_columns: int
    """The same over the whole width."""
    box: tuple[float, float]
    """Width and height of the box for a wash."""
    text: float
    head: float
    """Letters of a puddle's mix."""
    leading: float
    """Line height ÷ size of letters."""
    head_lines: int
    """Most lines of a mix; a longer one takes the room of a further wash."""
    counted: bool
    """Whether parts are told by a number, and not by as many letters."""
    puddle: str
    """What a puddle is called before its number."""
    named: bool
    """Whether paints of a mix are named beside their letters, strengths beside their water."""
    title: float
    paint: float
    """Letters of the paints' names."""
    fine: float
    """Letters of what is told once: what to do, cautions."""
    abreast: int
    """Flowers side by side."""
    paints: int
    """Paints side by side."""
    between: float
    """Between what stands one above the other."""

    @property
    def line(self) -> float:
        """Height of a line beside a box [mm]."""
        return self.leading * self.text * POINT

    @property
    def head_line(self) -> float:
        """Height of a line of a mix [mm]."""
        return (self.leading + 0.1) * self.head * POINT

    def css(self) -> str:
        """Return the measures as `handout.css` refers to them."""
        lengths = {
            "drawing": f"{self.drawing}mm",
            "columns": f"{self.columns}",
            "wide-columns": f"{self.wide_columns}",
            "abreast": f"{self.abreast}",
            "box-width": f"{self.box[0]}mm",
            "box-height": f"{self.box[1]}mm",
            "text": f"{self.text}pt",
            "head": f"{self.head}pt",
            "paint": f"{self.paint}pt",
            "title": f"{self.title}pt",
            "fine": f"{self.fine}pt",
            "line": f"{self.line:.2f}mm",
            "head-line": f"{self.head_line:.2f}mm",
            "paints": f"{self.paints}",
            "between": f"{self.between}mm",
            "gap": f"{GAP}mm",
            "between-flowers": f"{BETWEEN_FLOWERS}mm",
            "beside-drawing": f"{BESIDE_DRAWING}mm",
            "beside-box": f"{BESIDE_BOX}mm",
        }
        return f":root{{{';'.join(f'--{name}:{value}' for name, value in lengths.items())}}}\n"

    def across(self, subject: HandoutSubject) -> int:
        """Return how many washes stand side by side where a subject's puddles are."""
        return self.columns if subject.has_side else self.wide_columns

    def room(self, subject: HandoutSubject) -> float:
        """Return the width for a subject's puddles [mm]."""
        if not subject.has_side:
            return WIDTH
        whole = (WIDTH - (self.abreast - 1) * BETWEEN_FLOWERS) / self.abreast
        return whole - self.drawing - BESIDE_DRAWING

    def column(self, subject: HandoutSubject) -> float:
        """Return the width of a wash with its words [mm]."""
        across = self.across(subject)
        return (self.room(subject) - (across - 1) * GAP) / across


ROOMY = Setting(
    drawing=38,
    number=28,
    columns=2,
    wide_columns=3,
    box=(15, 8),
    text=9.5,
    head=11,
    leading=1.15,
    head_lines=2,
    counted=False,
    puddle="Puddle",
    named=True,
    abreast=1,
    title=19,
    paint=11,
    fine=10,
    paints=3,
    between=1.5,
)

CLOSE = Setting(
    drawing=28,
    number=34,
    columns=4,
    wide_columns=5,
    box=(14, 8),
    text=9,
    head=10,
    leading=1.12,
    head_lines=2,
    counted=True,
    puddle="Puddle",
    named=True,
    abreast=1,
    title=17,
    paint=10.5,
    fine=10,
    paints=3,
    between=1.2,
)

DENSE = Setting(
    drawing=22,
    number=40,
    columns=2,
    wide_columns=5,
    box=(11, 7),
    text=8.5,
    head=9,
    leading=1.1,
    head_lines=2,
    counted=True,
    puddle="Mix",
    named=False,
    abreast=2,
    title=15,
    paint=9.5,
    fine=9,
    paints=4,
    between=0.8,
)

SETTINGS = (ROOMY, CLOSE, DENSE)
"""The roomiest first; in the last letters are as small as can be read and boxes as can be painted
(our own measure)."""
