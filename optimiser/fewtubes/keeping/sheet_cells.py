"""A spreadsheet's cells, row by row, whether it is a text file or a workbook."""

import csv
import io
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from decimal import Decimal
from itertools import islice
from pathlib import Path

from fewtubes.catalogue.collector import FaultCollector
from fewtubes.catalogue.files import UTF_16, bytes_of, shown_name
from fewtubes.catalogue.limits import listed, shown
from fewtubes.catalogue.names import composed
from fewtubes.catalogue.separators import below_named_sign
from fewtubes.catalogue.sizes import LARGEST_SHEET, MOST_COLUMNS, MOST_ROWS
from fewtubes.keeping.sheet_columns import ENCODINGS, SheetColumns

__all__ = ["Sheet", "SheetRow", "read_sheet"]

SheetCell = str | Decimal
"""Text, or a number of a workbook."""

Numbered = tuple[int, Sequence[SheetCell]]
"""A row's cells with its number."""

SEPARATORS = (",", ";", "\t", "|")

PACKED = b"PK\x03\x04"
"""What a workbook in XLSX begins with, as every ZIP archive does."""

COMPOUND = b"\xd0\xcf\x11\xe0"
"""What a workbook of the older kind, or one with a password, begins with."""


@dataclass(frozen=True)
class SheetRow:
    """One row: the cells of the columns that have a name here."""

    where: str
    """The file and row, as a fault is told of it."""
    cells: Mapping[str, SheetCell]
    of_workbook: bool = False
    """Whether a formula there may be computed yet; in a CSV file it is text for good."""


@dataclass(frozen=True)
class Sheet:
    """The rows of a spreadsheet that are not blank."""

    file: str
    rows: tuple[SheetRow, ...]


def read_sheet(path: Path, columns: SheetColumns) -> Sheet:
    """Return the rows of a spreadsheet.

    Parameters
    ----------
    path
        A CSV file, or a workbook in XLSX, of which the values that formulas gave are read.
    columns
        How it is read.

    Raises
    ------
    InputError
        If it cannot be read, is too large, or lacks a heading.
    """
    collector = FaultCollector()
    file = shown_name(path)
    data = bytes_of(path, file, collector, LARGEST_SHEET)
    collector.raise_if_any()
    numbered, columns = _numbered(data or b"", file, columns, collector)
    collector.raise_if_any()
    places = _places(numbered, file, columns, collector)
    collector.raise_if_any()
    packed = (data or b"").startswith(PACKED)
    headings = len(dict(numbered).get(columns.heading_row, ()))
    rows = tuple(
        SheetRow(f"{file}, row {number}", found, packed)
        for number, cells in numbered
        if number > columns.heading_row
        for found in [{key: _at(cells, place) for key, place in places.items()}]
        if any(found.values())
    )
    for number, cells in numbered:
        if number > columns.heading_row and any(cells[headings:]):
            what = (
                f"has {len(cells)} cells, but there are {headings} headings; check what parts the"
                " cells, and put quotation marks around a number or text that holds that sign"
            )
            collector.note(f"{file}, row {number}", f"{what}.")
    if not rows:
        collector.note(file, f"holds no row below its headings in row {columns.heading_row}.")
    elif len(rows) > MOST_ROWS:
        collector.note(file, f"has more than {MOST_ROWS:,} rows, the most allowed; shorten it.")
    collector.raise_if_any()
    return Sheet(file, rows)


def _numbered(
    data: bytes, file: str, columns: SheetColumns, collector: FaultCollector
) -> tuple[list[Numbered], SheetColumns]:
    """Return the rows, and how they are read: headings stand below a line that names the sign."""
    if data.startswith(PACKED):
        from fewtubes.keeping.workbook import workbook_rows

        return workbook_rows(data, file, columns, collector), columns
    if data.startswith(COMPOUND):
        what = "is a workbook of the older kind, or has a password; save it as XLSX or CSV without."
        collector.note(file, what)
        return [], columns
    text = _text(data, file, columns, collector)
    if text is None:
        return [], columns
    above = below_named_sign(text)[1]
    columns = replace(columns, heading_row=max(columns.heading_row, above + 1))
    return _records(text, file, columns, collector), columns


def _text(data: bytes, file: str, columns: SheetColumns, collector: FaultCollector) -> str | None:
    """Return the text of a file in the encoding that was named, None after a fault."""
    marked = "utf-16" if data.startswith(UTF_16) else "utf-8-sig"
    encoding = columns.encoding or marked
    name = next((name for name, python in ENCODINGS.items() if python == encoding), encoding)
    try:
        text = data.decode(encoding)
    except UnicodeError as error:
        what = f"is not {name.upper()} text ({_reason(error)}); save it as UTF-8, or"
        collector.note(
            file,
            f'{what} name its encoding in {columns.file}, as in encoding = "windows-1252";'
            f" known are {listed(ENCODINGS)}.",
        )
        return None
    if "\0" in text:
        what = "holds null characters, so it is no text file, or one in UTF-16"
        collector.note(file, f'{what}; name that in {columns.file} as encoding = "utf-16".')
        return None
    return composed(text)


def _reason(error: UnicodeError) -> str:
    if isinstance(error, UnicodeDecodeError) and error.start < len(error.object):
        line = error.object[: error.start].count(b"\n") + 1
        return f"byte 0x{error.object[error.start]:02x} in line {line}"
    return str(error)


def _records(
    text: str, file: str, columns: SheetColumns, collector: FaultCollector
) -> list[Numbered]:
    """Return the rows of CSV text."""
    mark = columns.separator or _separator(text, columns)
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=mark, strict=True)
    most = columns.heading_row + 2 * MOST_ROWS
    try:
        rows = list(islice(enumerate(reader, start=1), most + 1))
    except csv.Error as error:
        where = f"{file}, line {reader.line_num}"
        advice = "check that every quotation mark is closed, and doubled inside a cell"
        collector.note(where, f"is not CSV ({error}); {advice}.")
        return []
    if len(rows) > most:
        collector.note(file, f"has more than {MOST_ROWS:,} rows, the most allowed; shorten it.")
    return [(number, [cell.strip() for cell in cells]) for number, cells in rows]


def _separator(text: str, columns: SheetColumns) -> str:
    """Return the sign that parts the headings so that most of those named are found."""
    lines = io.StringIO(text, newline="")
    first = list(islice(lines, columns.heading_row + MOST_COLUMNS))
    wanted = set(columns.headings.values())

    def found(mark: str) -> int:
        try:
            records = list(islice(csv.reader(first, delimiter=mark), columns.heading_row))
        except csv.Error:
            return 0
        return len({cell.strip() for cell in records[-1]} & wanted) if records else 0

    return max(SEPARATORS, key=found)


def _places(
    numbered: Sequence[Numbered], file: str, columns: SheetColumns, collector: FaultCollector
) -> dict[str, int]:
    """Return where the columns stand that have a name here; note those not found."""
    where = f"{file}, row {columns.heading_row}"
    row = dict(numbered).get(columns.heading_row, [])
    titles = [composed(str(cell).strip()) for cell in row]
    if len(titles) > MOST_COLUMNS:
        what = f"has {len(titles):,} columns; at most {MOST_COLUMNS} are allowed, so remove some."
        collector.note(where, what)
        return {}
    places: dict[str, int] = {}
    for key, title in columns.headings.items():
        if titles.count(title) == 1:
            places[key] = titles.index(title)
        elif title in titles:
            collector.note(where, f"the heading {shown(title)} stands there twice; rename one.")
        else:
            there = listed([title for title in titles if title]) or "none"
            near = collector.suggestion(title, titles)
            what = f"there is no heading {shown(title)}, which {columns.file} names; there: {there}"
            collector.note(where, f"{what}.{near}")
    return places


def _at(cells: Sequence[SheetCell], place: int) -> SheetCell:
    return cells[place] if place < len(cells) else ""
