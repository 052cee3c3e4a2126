"""The cells of a workbook in XLSX; of formulas the values that the spreadsheet program gave."""

import io
import warnings
import zipfile
from collections.abc import Sequence
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
        import pandas as pd
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
            frame = pd.read_excel(
                io.BytesIO(data),
                sheet_name=name,
                engine="openpyxl",
                header=None,
                dtype=object,
                keep_default_na=False,
                na_filter=False,
                nrows=most,
            )
            formulas = _formulas(book[name], most)
    except MemoryError:
        raise
    except Exception:  # a broken workbook makes the library raise whatever it likes
        collector.note(file, f"{UNREADABLE}.")
        return []
    if frame.shape[1] > MOST_COLUMNS:
        what = f"has {frame.shape[1]:,} columns; at most {MOST_COLUMNS} are allowed, so remove some"
        collector.note(file, f"{what}.")
        return []
    return [
        (row, [_cell(value, formulas.get((row, column))) for column, value in enumerate(values, 1)])
        for row, values in enumerate(frame.itertuples(index=False, name=None), start=1)
    ]


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


def _formulas(sheet: Any, most: int) -> dict[tuple[int, int], str]:
    """Return the formulas of a sheet by row and column, from 1."""
    return {
        (cell.row, cell.column): str(cell.value)
        for row in sheet.iter_rows(min_row=1, max_row=most)
        for cell in row
        if cell.data_type == "f"
    }


def _cell(value: Any, formula: str | None) -> str | Decimal:
    """Return a cell as text or number; a formula that was never computed as it is written."""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, int):
        return Decimal(value)
    if isinstance(value, float):
        return Decimal(f"{value:.{SPREADSHEET_DIGITS}g}") if isfinite(value) else "#N/A"
    text = composed(" ".join(str(value).split()))
    return formula if formula is not None and not text else text
