"""The few shapes that every report in the terminal is made of.

Text from outside goes through `plain`: rich reads square brackets in a str as markup, in a `Text`
it does not.
"""

from typing import Any

from rich.console import Console, RenderableType
from rich.padding import Padding
from rich.table import Table
from rich.text import Text

from fewtubes.words.printable import printable
from fewtubes.words.unparted import unparted

__all__ = ["INDENT", "bullet", "grid", "heading", "paragraph", "plain", "put", "table"]

INDENT = 2
"""Blanks before whatever stands under a heading."""

FIXED = "\ue000"
"""Stands for a blank at which no line is broken, until it is printed: rich breaks lines at every
sign that is a blank, the fixed one too. It is one for private use, which no text that was made fit
to print has, and one column wide."""

LONGEST_PARAGRAPH = 4000
"""Characters; longer than anything the program itself has to say."""


def plain(text: str, style: str = "") -> Text:
    """Return a text taken literally, safe to print, whose numbers keep their units beside them."""
    # The style is of this stretch only, not the base style of what is appended to it.
    return Text().append(unparted(printable(text, LONGEST_PARAGRAPH), FIXED), style=style)


def put(console: Console, shape: RenderableType) -> None:
    """Print a shape without the blanks that rich fills its lines up with."""
    for segments in console.render_lines(shape, pad=False):
        line = Text()
        for segment in segments:
            line.append(segment.text.replace(FIXED, " "), style=segment.style)
        line.rstrip()
        console.print(line, no_wrap=True, overflow="ignore", crop=False)


def heading(console: Console, text: str) -> None:
    """Print a heading after an empty line."""
    console.print()
    put(console, plain(text, "bold"))


def paragraph(console: Console, text: str, *, indent: int = INDENT, style: str = "") -> None:
    """Print a paragraph, wrapped and indented."""
    put(console, Padding(plain(text, style), (0, 0, 0, indent)))


def bullet(console: Console, text: str, *, indent: int = INDENT) -> None:
    """Print an item of a list: further lines stand below its first word, not below its dash."""
    made = Table.grid(padding=0, expand=True)
    made.add_column(width=INDENT)
    made.add_column(ratio=1)
    made.add_row(plain("-"), plain(text))
    put(console, Padding(made, (0, 0, 0, indent)))


class _Plain(Table):
    """A table whose cells are taken literally."""

    def add_row(self, *cells: RenderableType | None, **how: Any) -> None:
        """Add a row; a str is made plain."""
        super().add_row(*(plain(cell) if isinstance(cell, str) else cell for cell in cells), **how)


def table(*titles: str, right: tuple[str, ...] = ()) -> Table:
    """Return an empty table with titles, no lines; the columns named in `right` hold numbers."""
    made = _Plain(box=None, pad_edge=False, padding=(0, 2, 0, 0), header_style="bold")
    for title in titles:
        made.add_column(plain(title), justify="right" if title in right else "left")
    return made


def grid(*, columns: int) -> Table:
    """Return an empty table without titles, whose last column takes the room that is left."""
    made = _Plain.grid(padding=(0, 2, 0, 0), expand=True)
    for _ in range(columns - 1):
        made.add_column()
    made.add_column(ratio=1)
    return made
