"""Tables as CSV text that a spreadsheet opens without running any of it.

Sources: RFC 4180 (commas, CRLF at the end of every line, quotes where a cell needs them, quotes
doubled); OWASP, CSV Injection (a text that begins like a formula gets an apostrophe before it).
"""

import csv
import io
import math
import re
from collections.abc import Collection, Iterable, Sequence
from decimal import Decimal

from fewtubes.tables.spreadsheet import Spreadsheet
from fewtubes.words.decimals import FILE_DECIMALS
from fewtubes.words.printable import printable

__all__ = ["FORMULA_STARTS", "Cell", "cell_text", "csv_text", "file_figure"]

Cell = str | bool | int | float | Decimal | None
"""Texts are defused; truth is told as yes or no; numbers stay numbers; None and numbers without end
give an empty cell."""

FORMULA_STARTS = frozenset("=+-@\t\r\n＝＋－＠")
"""Signs a spreadsheet may take for the start of a formula; wide ones too, as OWASP lists them."""

LONGEST_CELL = 4000
"""Characters; spreadsheets hold 32,767."""


def csv_text(
    columns: Sequence[str],
    rows: Iterable[Sequence[Cell]],
    *,
    spreadsheet: Spreadsheet = Spreadsheet.COMMA,
    shares: Collection[int] = (),
) -> str:
    """Return a table as CSV text.

    Parameters
    ----------
    columns
        The header row.
    rows
        One cell a column.
    spreadsheet
        How cells are parted and decimals written.
    shares
        Places of the columns whose numbers are shares [0–1], written as per cent.
    """
    stream = io.StringIO(newline="")
    stream.write(spreadsheet.begins)
    writer = csv.writer(
        stream,
        delimiter=spreadsheet.parts_cells,
        lineterminator="\r\n",
        quoting=csv.QUOTE_MINIMAL,
    )
    other = spreadsheet.parts_nothing
    writer.writerow(columns)
    for row in rows:
        if len(row) != len(columns):
            raise ValueError(f"a row needs {len(columns)} cells (got {len(row)})")
        writer.writerow(
            [
                _kept_whole(cell_text(cell, spreadsheet=spreadsheet, share=place in shares), other)
                for place, cell in enumerate(row)
            ]
        )
    return stream.getvalue()


def cell_text(
    cell: Cell, *, spreadsheet: Spreadsheet = Spreadsheet.COMMA, share: bool = False
) -> str:
    """Return one cell as text, before any quoting; a share [0–1] in per cent, such as ``62.5%``.

    Spreadsheets take such a cell for a number, with which they reckon as a share.
    """
    if cell is None:
        return ""
    if isinstance(cell, str):
        return _defused(cell)
    if isinstance(cell, bool):
        return "yes" if cell else "no"
    if not isinstance(cell, float):
        return spreadsheet.number(str(cell))
    return spreadsheet.number(_per_cent(cell) if share else _number(cell))


def _defused(text: str) -> str:
    """Return a text that no spreadsheet takes for a formula; blanks before one do not hide it."""
    begins = text.lstrip(" ")[:1]
    safe = printable(text, LONGEST_CELL)
    return f"'{safe}" if begins in FORMULA_STARTS and begins else safe


def _kept_whole(text: str, other: str) -> str:
    """Return a cell that begins no formula either where the other sign parts cells.

    A spreadsheet that parts them there heeds no quotes in the middle of its own cell.
    """
    if other not in text:
        return text
    return re.sub(rf"({other} *)(?=[{re.escape(''.join(FORMULA_STARTS))}])", r"\1'", text)


def _number(value: float) -> str:
    """Return a number as plain decimals, empty if it is not finite."""
    figure = file_figure(value)
    return "" if figure is None else f"{figure:.{FILE_DECIMALS}f}".rstrip("0").rstrip(".")


def _per_cent(share: float) -> str:
    """Return a share [0–1] in per cent, with all the decimals that a file keeps of it."""
    figure = file_figure(share)
    if figure is None:
        return ""
    text = f"{100 * Decimal(repr(figure)):f}"
    return f"{text.rstrip('0').rstrip('.') if '.' in text else text}%"


def file_figure(value: float) -> float | None:
    """Return a number as its cell tells it, rounded to four decimals; None if it is not finite."""
    return round(value, FILE_DECIMALS) + 0.0 if math.isfinite(value) else None
