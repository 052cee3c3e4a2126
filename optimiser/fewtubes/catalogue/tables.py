"""A CSV table, read so that every fault can be told with its row.

Rows are numbered as a spreadsheet numbers them: the header is row 1, a blank line counts, and a
cell that spans lines does not add any. A line above the header that names the sign between cells
counts as row 1, since it stands in the file. Source of the format: RFC 4180.
"""

import csv
import io
import os
from collections import Counter
from collections.abc import Collection, Sequence
from dataclasses import dataclass
from itertools import islice

from fewtubes.catalogue.collector import FaultCollector
from fewtubes.catalogue.decimal_signs import note_second_sign
from fewtubes.catalogue.files import HeldFile, Source, shown_name, text_of
from fewtubes.catalogue.limits import listed, shown
from fewtubes.catalogue.names import composed
from fewtubes.catalogue.rows import Row
from fewtubes.catalogue.separators import (
    COMMA,
    SEPARATORS,
    below_named_sign,
    separator_of,
    with_points,
)
from fewtubes.catalogue.sizes import LARGEST_TABLE, MOST_COLUMNS, MOST_ROWS

__all__ = ["ReadTable", "TableSize", "read_table"]


@dataclass(frozen=True)
class TableSize:
    """How large a table may be."""

    most_bytes: int = LARGEST_TABLE
    most_rows: int = MOST_ROWS


USUAL_SIZE = TableSize()


@dataclass(frozen=True)
class ReadTable:
    """The rows of one file; `readable` is false if the file or its header has a fault."""

    file: str
    rows: tuple[Row, ...]
    readable: bool


@dataclass(frozen=True)
class _Parted:
    """How the cells of a file are parted, and who is told of faults."""

    file: str
    text: str
    """From the header on."""
    header_row: int
    """1, or 2 below a line that names the sign between cells."""
    mark: str
    numbers: Collection[str]
    """Columns in which decimals may stand after a comma."""
    collector: FaultCollector

    @property
    def where(self) -> str:
        """What faults of the header are told of."""
        return f"{self.file}, row {self.header_row}"


def read_table(
    path: Source,
    columns: Sequence[str],
    collector: FaultCollector,
    *,
    optional: Sequence[str] = (),
    may_be_empty: bool = False,
    where: str | None = None,
    size: TableSize = USUAL_SIZE,
    may_be_absent: bool = False,
    numbers: Collection[str] = (),
) -> ReadTable:
    """Return the table at `path`, noting every fault of its shape.

    Parameters
    ----------
    path
        The CSV file, or its content.
    columns
        The columns it must have, in any order.
    collector
        Takes the faults.
    optional
        Columns that it may have besides.
    may_be_empty
        Whether a header without rows is allowed.
    where
        What faults are told of; the file's name if left out.
    size
        How large it may be.
    may_be_absent
        Whether there need not be such a file, which then counts as one without rows.
    numbers
        Columns of numbers. Where any are named, another sign than the comma may part the cells as
        well, a line above the header may name it, and decimals may then stand after a comma in
        these columns, but then in all of the file.
    """
    file = where or shown_name(path)
    there = isinstance(path, HeldFile) or os.path.lexists(path)
    if may_be_absent and not there:
        return ReadTable(file, (), readable=True)
    broken = ReadTable(file, (), readable=False)
    text = text_of(path, collector, largest=size.most_bytes, where=file)
    known = (*columns, *optional)
    parted = None if text is None else _parted(text, known, numbers, file, collector)
    if parted is None:
        return broken
    # No sign composes with a comma, a quotation mark or a line end, so all cells can be one text.
    records = _records(composed(parted.text), size.most_rows, parted)
    if records is None:
        return broken
    header = [cell.strip() for cell in records[0][1]]
    if not _header_is_sound(header, columns, known, parted.where, collector):
        return broken
    rows = tuple(_row(number, header, cells, parted) for number, cells in records[1:])
    if parted.numbers:
        note_second_sign(rows, parted.numbers, collector)
    if not rows and not may_be_empty:
        collector.note(file, "holds a header but no rows; add at least one.")
        return broken
    return ReadTable(file, rows, readable=True)


def _parted(
    text: str,
    known: Sequence[str],
    numbers: Collection[str],
    file: str,
    collector: FaultCollector,
) -> _Parted | None:
    """Return what parts the cells; another sign than the comma is noted where none may stand."""
    below, above = below_named_sign(text)
    mark = separator_of(below, known)
    pointed = () if mark == COMMA else numbers
    parted = _Parted(file, below, above + 1, mark, pointed, collector)
    if numbers or (mark == COMMA and not above):
        return parted
    if mark == COMMA:
        collector.note(f"{file}, row 1", "only names the sign between cells; remove this line.")
        return None
    what = f"the cells are parted by {SEPARATORS[mark]}, not by commas; save the table with commas."
    collector.note(parted.where, what)
    return None


def _records(text: str, most_rows: int, parted: _Parted) -> list[tuple[int, list[str]]] | None:
    """Return the header and all rows that are not blank with their numbers, None after a fault."""
    file, collector = parted.file, parted.collector
    if not text.strip():
        collector.note(file, "is empty; it needs a header row and at least one row below.")
        return None
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=parted.mark, strict=True)
    numbered = (
        (number, cells)
        for number, cells in enumerate(reader, start=parted.header_row)
        if number == parted.header_row or any(cell.strip() for cell in cells)
    )
    try:
        records = list(islice(numbered, most_rows + 2))
    except csv.Error as error:
        where = f"{file}, line {reader.line_num + parted.header_row - 1}"
        advice = "check that every quotation mark is closed, and doubled inside a cell"
        collector.note(where, f"is not CSV ({error}); {advice}.")
        return None
    if len(records) - 1 > most_rows:
        what = f"has more than {most_rows:,} rows, which is the most allowed; shorten it."
        collector.note(file, what)
        return None
    return records


def _header_is_sound(
    header: list[str],
    columns: Sequence[str],
    known: Sequence[str],
    where: str,
    collector: FaultCollector,
) -> bool:
    """Note faults of the header; return whether every column needed is there exactly once."""
    if len(header) > MOST_COLUMNS:
        what = f"has {len(header):,} columns; at most {MOST_COLUMNS} are allowed, so remove some."
        collector.note(where, what)
        return False
    for place, name in enumerate(header, start=1):
        if not name:
            collector.note(where, f"column {place} has no name; remove it or name it.")
        elif name not in known:
            near = collector.suggestion(name, known)
            collector.note(where, f"unknown column {shown(name)}; remove or rename it.{near}")
    counts = Counter(header)
    twice = [name for name in known if counts[name] > 1]
    missing = [name for name in columns if not counts[name]]
    if twice:
        collector.note(where, f"these columns appear more than once: {listed(twice)}.")
    if missing:
        collector.note(where, f"these columns are missing: {listed(missing)}; add them.")
    return not twice and not missing


def _row(number: int, header: list[str], cells: list[str], parted: _Parted) -> Row:
    """Return the row; cells too many or too few are noted once, and the rest is not judged."""
    whole = len(cells) == len(header)
    pointed = with_points(cells, header, parted.numbers)
    padded = [cell.strip() for cell in pointed] + [""] * (len(header) - len(cells))
    where = f"{parted.file}, row {number}"
    read = dict(zip(header, padded, strict=False))
    stood = zip(header, cells, strict=False) if parted.numbers else ()
    written = {column: cell.strip() for column, cell in stood if cell.strip() != read[column]}
    row = Row(where, read, parted.collector, whole, written)
    if not whole:
        parted.collector.note(
            row.where,
            f"has {len(cells)} cells, but the header has {len(header)}; check the"
            f" {SEPARATORS[parted.mark]}, and put quotation marks around a text that holds one.",
        )
    return row
