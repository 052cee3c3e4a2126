"""A table as it is kept: what nobody touches stays as it was written, to the byte.

Read are tables that were found sound (see `fewtubes.catalogue.tables`), so that each record has a
cell a column.
"""

import csv
import io
from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from decimal import Decimal

from fewtubes.catalogue.money import exact_amount
from fewtubes.catalogue.names import composed
from fewtubes.catalogue.price_list import SELLING_NUMBERS
from fewtubes.catalogue.rows import BAND_COLUMNS

__all__ = [
    "BYTE_ORDER_MARK",
    "Cells",
    "KeptRow",
    "KeptTable",
    "content",
    "empty_table",
    "kept_table",
]

Cells = Mapping[str, str]
"""The cells of a row by column, without outer spaces, in Unicode's composed form."""

BYTE_ORDER_MARK = "\ufeff"

NUMBERS = frozenset(
    {
        *("draw", "strength", "cm2_per_ml", "share", "L", "a", "b", "importance", "nm", "power"),
        *SELLING_NUMBERS,
    }
)
"""Columns beside the bands in which 1 and 1.0 are the same."""


@dataclass(frozen=True)
class KeptRow:
    """One row; a blank line has no cells."""

    cells: Cells
    written: str = ""
    """As it stands in the file, its line end included; "" for a new row."""


@dataclass(frozen=True)
class KeptTable:
    """A table to which rows are added, or in which they are replaced; the others stay."""

    columns: tuple[str, ...]
    head: str
    """What stands before the first row, as it was written."""
    rows: tuple[KeptRow, ...]
    line_end: str = "\n"

    def things(self, column: str) -> dict[str, list[Cells]]:
        """Return the rows by what stands in a column, in the order of the file."""
        found: dict[str, list[Cells]] = {}
        for row in self.rows:
            if row.cells:
                found.setdefault(row.cells[column], []).append(row.cells)
        return found

    def with_things(self, column: str, things: Mapping[str, Sequence[Cells]]) -> "KeptTable":
        """Return the table with these rows of things, in the place of those they had before.

        Parameters
        ----------
        column
            Names the thing that a row belongs to.
        things
            All rows of each thing; those of other things stay. A column that only they have comes
            to the table.
        """
        new = dict.fromkeys(name for rows in things.values() for row in rows for name in _said(row))
        table = self._widened([name for name in new if name not in self.columns])
        return table._with_things(column, things)

    def _widened(self, columns: Sequence[str]) -> "KeptTable":
        """Return the table with further columns at its end, blank in all its rows."""
        if not columns:
            return self
        blank = dict.fromkeys(columns, "")
        rows = [
            KeptRow({**row.cells, **blank}, _longer(row.written, "," * len(columns)))
            if row.cells
            else row
            for row in self.rows
        ]
        head = _longer(self.head, "," + ",".join(columns))
        return replace(self, columns=(*self.columns, *columns), head=head, rows=tuple(rows))

    def _with_things(self, column: str, things: Mapping[str, Sequence[Cells]]) -> "KeptTable":
        """Return the table with these rows of things; it has all their columns."""
        before: dict[str, list[KeptRow]] = {}
        for row in self.rows:
            if row.cells.get(column) in things:
                before.setdefault(row.cells[column], []).append(row)
        fresh = {
            key: _fresh(rows, before.get(key, []))
            for key, rows in things.items()
            if content(rows) != content([row.cells for row in before.get(key, [])])
        }
        rows: list[KeptRow] = []
        placed: set[str] = set()
        for row in self.rows:
            key = row.cells.get(column)
            if key is None or key not in fresh:
                rows.append(row)
            elif key not in placed:
                placed.add(key)
                rows += fresh[key]
        rows += [row for key, new in fresh.items() if key not in placed for row in new]
        return replace(self, rows=tuple(rows))

    def text(self) -> str:
        """Return the table as CSV text; rows that were read stand there as they were written."""
        parts = [self.head]
        for row in self.rows:
            if not parts[-1].endswith(("\n", "\r")):
                parts.append(self.line_end)
            parts.append(row.written or self._line(row.cells))
        return "".join(parts)

    def _line(self, cells: Cells) -> str:
        return _csv_line([cells.get(column, "") for column in self.columns], self.line_end)


def kept_table(text: str) -> KeptTable:
    """Return a sound table's text as rows that remember how they were written."""
    mark = BYTE_ORDER_MARK if text.startswith(BYTE_ORDER_MARK) else ""
    lines = list(io.StringIO(text.removeprefix(BYTE_ORDER_MARK), newline=""))
    reader = csv.reader(lines, strict=True)
    records: list[tuple[list[str], str]] = []
    begun = 0
    for record in reader:
        records.append((record, "".join(lines[begun : reader.line_num])))
        begun = reader.line_num
    header, head = records[0]
    columns = tuple(composed(cell.strip()) for cell in header)
    rows = tuple(
        KeptRow(_cells(columns, record) if any(cell.strip() for cell in record) else {}, written)
        for record, written in records[1:]
    )
    return KeptTable(columns, mark + head, rows, _line_end(head))


def empty_table(columns: Sequence[str]) -> KeptTable:
    """Return a table with its header row alone."""
    return KeptTable(tuple(columns), _csv_line(columns, "\n"), ())


def content(rows: Sequence[Cells]) -> Counter[tuple[tuple[str, str | Decimal], ...]]:
    """Return what rows say, whatever their order, that of their columns, or the digits of 0.50.

    A column that is not there says as much as a blank cell.
    """
    return Counter(
        tuple((column, _value(column, cells[column])) for column in sorted(_said(cells)))
        for cells in rows
    )


def _said(cells: Cells) -> list[str]:
    """Return the columns of the cells that are not blank."""
    return [column for column, cell in cells.items() if cell]


def _longer(line: str, cells: str) -> str:
    """Return a line with further cells behind its last; a new row's, not yet written, stays."""
    end = _line_end(line) if line.endswith(("\n", "\r")) else ""
    return line and line.removesuffix(end) + cells + end


def _value(column: str, cell: str) -> str | Decimal:
    number = exact_amount(cell) if column in NUMBERS or column in BAND_COLUMNS else None
    return cell if number is None else number


def _fresh(rows: Sequence[Cells], before: Sequence[KeptRow]) -> list[KeptRow]:
    """Return rows, those that say nothing new as they were written."""
    known = {next(iter(content([row.cells]))): row for row in before}
    return [known.get(next(iter(content([cells]))), KeptRow(cells)) for cells in rows]


def _cells(columns: Sequence[str], record: Sequence[str]) -> Cells:
    return {
        column: composed(cell.strip()) for column, cell in zip(columns, record, strict=False)
    } | dict.fromkeys(columns[len(record) :], "")


def _csv_line(cells: Sequence[str], line_end: str) -> str:
    stream = io.StringIO(newline="")
    csv.writer(stream, lineterminator=line_end).writerow(cells)
    return stream.getvalue()


def _line_end(line: str) -> str:
    return next((end for end in ("\r\n", "\n", "\r") if line.endswith(end)), "\n")
