"""The few shapes that every report in the terminal is made of.

Text from outside goes through `plain`: rich reads square brackets in a str as markup, in a `Text`
it does not.
"""

from rich.console import Console, RenderableType
from rich.padding import Padding
from rich.table import Table
from rich.text import Text

from fewtubes.words.printable import printable

__all__ = ["INDENT", "bullet", "grid", "heading", "paragraph", "plain", "put", "table"]

INDENT = 2
"""Blanks before whatever stands under a heading."""

LONGEST_PARAGRAPH = 4000
"""Characters; longer than anything the program itself has to say."""


def plain(text: str, style: str = "") -> Text:
    """Return a text taken literally, safe to print."""
    # The style is of this stretch only, not the base style of what is appended to it.
    return Text().append(printable(text, LONGEST_PARAGRAPH), style=style)


def put(console: Console, shape: RenderableType) -> None:
    """Print a shape without the blanks that rich fills its lines up with."""
    for segments in console.render_lines(shape, pad=False):
        line = Text()
        for segment in segments:
            line.append(segment.text, style=segment.style)
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


def table(*titles: str, right: tuple[str, ...] = ()) -> Table:
    """Return an empty table with titles, no lines; the columns named in `right` hold numbers."""
    made = Table(box=None, pad_edge=False, padding=(0, 2, 0, 0), header_style="bold")
    for title in titles:
        made.add_column(plain(title), justify="right" if title in right else "left")
    return made


def grid(*, columns: int) -> Table:
    """Return an empty table without titles, whose last column takes the room that is left."""
    made = Table.grid(padding=(0, 2, 0, 0), expand=True)
    for _ in range(columns - 1):
        made.add_column()
    made.add_column(ratio=1)
    return made
