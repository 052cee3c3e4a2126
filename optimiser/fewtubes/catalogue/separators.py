"""What parts the cells of a table that a spreadsheet saved, and decimals that go with it.

Where a comma stands before decimals spreadsheets part cells by semicolons (common practice, no
source).
"""

import csv
import re
from collections.abc import Collection, Sequence
from itertools import zip_longest

from fewtubes.catalogue.commas import with_point

__all__ = ["COMMA", "SEPARATORS", "separator_of", "with_points"]

COMMA = ","
"""The sign between cells (RFC 4180)."""

SEPARATORS = {COMMA: "commas", ";": "semicolons", "\t": "tabs", "|": "strokes"}
"""What spreadsheets put between cells; the others where a comma is the decimal sign, or when asked
to."""

LONGEST_HEADER = 10_000
"""Characters in which the header's cells are looked for before they are known to be cells."""


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
