"""The cells of a workbook in XLSX; of formulas the values that the spreadsheet program gave."""

import io
import warnings
import zipfile
from collections.abc import Iterable, Iterator, Sequence
from decimal import Decimal
from math import isfinite
from typing import Any

from fewtubes.catalogue.collector import FaultCollector
from fewtubes.catalogue.limits import listed, shown
from fewtubes.catalogue.names import composed
from fewtubes.catalogue.sizes import LARGEST_UNPACKED, MOST_COLUMNS, MOST_ROWS
from fewtubes.keeping.sheet_columns import SheetColumns

__all__ = ["workbook_rows"]

SPREADSHEET_DIGITS = 15
"""Significant digits that spreadsheets show; what a float has beyond them is rounding."""

UNREADABLE = "cannot be read as a workbook in XLSX; save it again, or as CSV"


def workbook_rows(
    data: bytes, file: str, columns: SheetColumns, collector: FaultCollector
) -> list[tuple[int, Sequence[str | Decimal]]]:
    """Return the rows of a workbook's sheet with their numbers; none after a fault.

    Parameters
    ----------
    data, file
        The workbook, and what a fault is told of.
    columns
        Which sheet is read.
    collector
        Takes the fault.
    """
    try:
        import openpyxl
    except ImportError:
        what = "a workbook is read with openpyxl, which is not installed; save it as CSV, or run"
        collector.note(file, f"{what} `python -m pip install 'fewtubes[sheets]'`.")
        return []
    if not _fits(data, file, collector):
        return []
    most = columns.heading_row + MOST_ROWS + 1
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")  # of what is in it beside cells
            book = openpyxl.load_workbook(io.BytesIO(data), read_only=True)
            name = _chosen(book.sheetnames, file, columns, collector)
            if name is None:
                return []
            values = openpyxl.load_workbook(io.BytesIO(data), read_only=True, data_only=True)
            both = zip(_cells(values[name], most), _cells(book[name], most), strict=True)
            return _rows(both, file, collector)
    except MemoryError:
        raise
    except Exception:  # a broken workbook makes the library raise whatever it likes
        collector.note(file, f"{UNREADABLE}.")
        return []


def _fits(data: bytes, file: str, collector: FaultCollector) -> bool:
    """Note a workbook that cannot be unpacked or would be too large; return whether it is fine."""
    try:
        with zipfile.ZipFile(io.BytesIO(data)) as archive:
            size = sum(part.file_size for part in archive.infolist())
    except (zipfile.BadZipFile, OSError, ValueError):
        collector.note(file, f"{UNREADABLE}.")
        return False
    if size > LARGEST_UNPACKED:
        what = f"unpacks to {size:,} bytes; at most {LARGEST_UNPACKED:,} are allowed, so shorten it"
        collector.note(file, f"{what}.")
    return size <= LARGEST_UNPACKED


def _chosen(
    names: Sequence[str], file: str, columns: SheetColumns, collector: FaultCollector
) -> str | None:
    """Return the sheet that is read, None after a fault."""
    if columns.sheet is None:
        return names[0]
    for name in names:
        if composed(name) == columns.sheet:
            return name
    near = collector.suggestion(columns.sheet, names)
    what = f"holds no sheet {shown(columns.sheet)}, which {columns.file} names; it holds"
    collector.note(file, f"{what} {listed(names)}.{near}")
    return None


def _rows(
    both: Iterable[tuple[Sequence[Any], Sequence[Any]]], file: str, collector: FaultCollector
) -> list[tuple[int, Sequence[str | Decimal]]]:
    """Return the rows of a sheet with their numbers, read with and without formulas.

    Nothing comes back after a fault, which ends the reading.
    """
    found: list[tuple[int, Sequence[str | Decimal]]] = []
    for number, (values, formulas) in enumerate(both, start=1):
        row = [_cell(*cells) for cells in zip(values, formulas, strict=True)]
        while row and row[-1] == "":
            row.pop()
        if len(row) > MOST_COLUMNS:
            what = f"has more than {MOST_COLUMNS} columns, the most allowed; remove some."
            collector.note(f"{file}, row {number}", what)
            return []
        found.append((number, row))
    while found and not found[-1][1]:
        found.pop()
    return found


def _cells(sheet: Any, most: int) -> Iterator[Sequence[Any]]:
    """Yield the cells of each row, no more than tell whether there are too many.

    A row is filled up to its last cell, so that a few bytes of a file could stand for many cells.
    """
    yield from sheet.iter_rows(min_row=1, max_row=most, max_col=MOST_COLUMNS + 1)


def _cell(cell: Any, written: Any) -> str | Decimal:
    """Return a cell as text or number; a formula that was never computed as it is written."""
    value = "" if cell.value is None else cell.value
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, int):
        return Decimal(value)
    if isinstance(value, float):
        return Decimal(f"{value:.{SPREADSHEET_DIGITS}g}") if isfinite(value) else "#N/A"
    text = composed(" ".join(str(value).split()))
    return str(written.value) if written.data_type == "f" and not text else text
