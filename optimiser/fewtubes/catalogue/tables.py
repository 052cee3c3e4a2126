"""A CSV table, read so that every fault can be told with its row.

Rows are numbered as a spreadsheet numbers them: the header is row 1, a blank line counts, and a
cell that spans lines does not add any. Source of the format: RFC 4180.
"""

import csv
import io
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from fewtubes.catalogue.collector import FaultCollector
from fewtubes.catalogue.files import text_of
from fewtubes.catalogue.limits import listed, shown
from fewtubes.catalogue.rows import Row
from fewtubes.errors import suggestion

__all__ = ["Table", "read_table"]


@dataclass(frozen=True)
class Table:
    """The rows of one file; `readable` is false if the file or its header has a fault."""

    file: str
    rows: tuple[Row, ...]
    readable: bool


def read_table(
    path: Path, columns: Sequence[str], collector: FaultCollector, *, may_be_empty: bool = False
) -> Table:
    """Return the table at `path`, noting every fault of its shape.

    Parameters
    ----------
    path
        The CSV file.
    columns
        The columns it must have, in any order.
    collector
        Takes the faults.
    may_be_empty
        Whether a header without rows is allowed.
    """
    broken = Table(path.name, (), readable=False)
    text = text_of(path, collector)
    if text is None:
        return broken
    records = _records(text, path.name, collector)
    if records is None:
        return broken
    header = [cell.strip() for cell in records[0]]
    if not _header_is_sound(header, columns, path.name, collector):
        return broken
    rows = tuple(
        _row(number, header, cells, path.name, collector)
        for number, cells in enumerate(records[1:], start=2)
        if any(cell.strip() for cell in cells)
    )
    if not rows and not may_be_empty:
        collector.note(path.name, "holds a header but no rows; add at least one.")
        return broken
    return Table(path.name, rows, readable=True)


def _records(text: str, file: str, collector: FaultCollector) -> list[list[str]] | None:
    """Return all records, header first, or None after a fault."""
    if not text.strip():
        collector.note(file, "is empty; it needs a header row and at least one row below.")
        return None
    reader = csv.reader(io.StringIO(text, newline=""), strict=True)
    try:
        return list(reader)
    except csv.Error as error:
        where = f"{file}, line {reader.line_num}"
        advice = "check that every quotation mark is closed, and doubled inside a cell"
        collector.note(where, f"is not CSV ({error}); {advice}.")
        return None


def _header_is_sound(
    header: list[str], columns: Sequence[str], file: str, collector: FaultCollector
) -> bool:
    """Note faults of the header; return whether every column needed is there exactly once."""
    where = f"{file}, row 1"
    if len(header) == 1 and any(mark in header[0] for mark in ";\t"):
        collector.note(where, "the cells are not parted by commas; save the table with commas.")
        return False
    for place, name in enumerate(header, start=1):
        if not name:
            collector.note(where, f"column {place} has no name; remove it or name it.")
        elif name not in columns:
            near = suggestion(name, columns) if len(name) < 100 else ""
            collector.note(where, f"unknown column {shown(name)}; remove or rename it.{near}")
    counts = Counter(header)
    twice = [name for name in columns if counts[name] > 1]
    missing = [name for name in columns if not counts[name]]
    if twice:
        collector.note(where, f"these columns appear more than once: {listed(twice)}.")
    if missing:
        collector.note(where, f"these columns are missing: {listed(missing)}; add them.")
    return not twice and not missing


def _row(
    number: int, header: list[str], cells: list[str], file: str, collector: FaultCollector
) -> Row:
    """Return the row; cells too many or too few are noted once, and the rest is not judged."""
    whole = len(cells) == len(header)
    padded = [cell.strip() for cell in cells] + [""] * (len(header) - len(cells))
    row = Row(f"{file}, row {number}", dict(zip(header, padded, strict=False)), collector, whole)
    if not whole:
        collector.note(
            row.where,
            f"has {len(cells)} cells, but the header has {len(header)}; check the commas, and put"
            " quotation marks around a text that holds one.",
        )
    return row
