"""What parts the cells of a table that a spreadsheet saved, and decimals that go with it.

Where a comma stands before decimals spreadsheets part cells by semicolons (common practice, no
source).
"""

import csv
import re
from collections.abc import Collection, Sequence
from itertools import zip_longest

from fewtubes.catalogue.commas import with_point

__all__ = ["COMMA", "SEPARATORS", "below_named_sign", "separator_of", "with_points"]

COMMA = ","
"""The sign between cells (RFC 4180)."""

SEPARATORS = {COMMA: "commas", ";": "semicolons", "\t": "tabs", "|": "strokes"}
"""What spreadsheets put between cells; the others where a comma is the decimal sign, or when asked
to."""

NAMED_SIGN = re.compile(r'"?sep=(?:[^\r\n]|\\t)"?[ \t]*(?:\r\n|\r|\n|$)', re.IGNORECASE)
"""A first line such as ``sep=;``, by which a file tells a spreadsheet what parts its cells; it is
no row of the table (common practice of spreadsheets, no source)."""

LONGEST_HEADER = 10_000
"""Characters in which the header's cells are looked for before they are known to be cells."""


def below_named_sign(text: str) -> tuple[str, int]:
    """Return a table's text below a first line that names the sign between cells.

    With it goes how many rows stand above: one, or none where there is no such line. Which sign it
    is the header gives away as well, so that the line need not be believed.
    """
    line = NAMED_SIGN.match(text)
    return (text[line.end() :], 1) if line else (text, 0)


def separator_of(text: str, columns: Collection[str]) -> str:
    """Return the sign between cells, which the header gives away where it is not the comma.

    Parameters
    ----------
    text
        Of the table.
    columns
        Those it may have.
    """
    first = re.split(r"[\r\n]", text.lstrip()[:LONGEST_HEADER], maxsplit=1)
    for mark in SEPARATORS:
        for cells in csv.reader(first[:1], delimiter=mark):
            if mark != COMMA and len(cells) > 1 and {cell.strip() for cell in cells} & set(columns):
                return mark
    return COMMA


def with_points(
    cells: Sequence[str], header: Sequence[str], numbers: Collection[str]
) -> Sequence[str]:
    """Return a row's cells with decimal points in columns of numbers, whichever sign was there."""
    if not numbers:
        return cells
    return [
        (with_point(cell) or cell) if column in numbers else cell
        for cell, column in zip_longest(cells, header[: len(cells)], fillvalue="")
    ]
