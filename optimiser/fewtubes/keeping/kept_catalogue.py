"""A catalogue as it is kept: its tables as they are written, looked through before they change."""

from collections.abc import Collection, Iterator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, replace
from pathlib import Path
from tempfile import TemporaryDirectory
from types import MappingProxyType

from fewtubes.catalogue.collector import FaultCollector
from fewtubes.catalogue.files import text_of
from fewtubes.catalogue.limits import parsed_number, shown
from fewtubes.catalogue.location import demo_catalogue_folder
from fewtubes.catalogue.reading import (
    LIKELY_TABLE,
    OPTIONAL_TABLES,
    TABLE_COLUMNS,
    read_unfinished,
)
from fewtubes.catalogue.records import Catalogue
from fewtubes.catalogue.sizes import LARGEST_LIKELY_TABLE, LARGEST_TABLE
from fewtubes.errors import Fault, InputError
from fewtubes.keeping.kept_table import (
    BYTE_ORDER_MARK,
    Cells,
    KeptRow,
    KeptTable,
    empty_table,
    kept_table,
)
from fewtubes.tables.cells import cell_text

__all__ = [
    "DEMO",
    "KEPT_COLUMNS",
    "KeptCatalogue",
    "catalogue_of_rows",
    "changed_files",
    "earlier_texts",
    "empty_catalogue",
    "looked_through",
    "read_kept",
]

DEMO = "demo catalogue"
"""What the catalogue that comes along is called."""

KEPT_COLUMNS: Mapping[str, tuple[str, ...]] = MappingProxyType({**TABLE_COLUMNS, **OPTIONAL_TABLES})
"""All tables and the columns that each must have."""


@dataclass(frozen=True)
class KeptCatalogue:
    """The tables of a catalogue by file name; an optional one may be missing."""

    label: str
    """The folder as the user named it, or what else a message calls it."""
    tables: Mapping[str, KeptTable]

    def table(self, name: str) -> KeptTable:
        """Return a table; one that is not there has no rows."""
        return self.tables.get(name) or empty_table(KEPT_COLUMNS[name])

    def with_table(self, name: str, table: KeptTable) -> "KeptCatalogue":
        """Return the catalogue with another table; one without a row is not begun."""
        if name not in self.tables and not table.rows:
            return self
        return replace(self, tables={**self.tables, name: table})


def empty_catalogue(label: str) -> KeptCatalogue:
    """Return a catalogue whose tables have their header rows alone."""
    return KeptCatalogue(
        label, {name: empty_table(columns) for name, columns in TABLE_COLUMNS.items()}
    )


def catalogue_of_rows(label: str, rows: Mapping[str, Sequence[Cells]]) -> KeptCatalogue:
    """Return a catalogue that holds nothing but these rows.

    Parameters
    ----------
    label
        What a message calls it.
    rows
        New rows by table, each with a cell for every column.
    """
    tables = {}
    for name, cells in rows.items():
        empty = empty_table(KEPT_COLUMNS[name])
        tables[name] = replace(empty, rows=tuple(KeptRow(row) for row in cells))
    return KeptCatalogue(label, tables)


def read_kept(folder: Path | None) -> KeptCatalogue:
    """Return the catalogue in a folder, which may still lack tubes, papers or lights.

    Parameters
    ----------
    folder
        Holds the tables; None for the demo catalogue.

    Raises
    ------
    InputError
        With every fault of every table.
    """
    place = demo_catalogue_folder() if folder is None else folder
    label = DEMO if folder is None else str(folder)
    with _told_within(label):
        read_unfinished(place, label)
    collector = FaultCollector()
    tables = {}
    for name in KEPT_COLUMNS:
        if name in OPTIONAL_TABLES and not (place / name).exists():
            continue
        largest = LARGEST_LIKELY_TABLE if name == LIKELY_TABLE else LARGEST_TABLE
        text = text_of(place / name, collector, largest=largest)
        if text is not None:
            tables[name] = kept_table(_mark_of(place / name) + text)
    collector.raise_if_any()
    return KeptCatalogue(label, tables)


def looked_through(kept: KeptCatalogue) -> Catalogue:
    """Return what the tables say, as every command would read them.

    Raises
    ------
    InputError
        With every fault of the tables as they would be; nothing was written to the folder.
    """
    faults = [
        Fault(name, _formula_fault(column, cell))
        for name, table in kept.tables.items()
        for row in table.rows
        if not row.written
        for column, cell in row.cells.items()
        if parsed_number(cell) is None and cell_text(cell) != cell
    ]
    if faults:
        raise InputError(faults)
    with (
        TemporaryDirectory(prefix="fewtubes-") as place,
        _told_within(f"{kept.label}, as it would be"),
    ):
        for name, table in kept.tables.items():
            Path(place, name).write_bytes(table.text().encode("utf-8"))
        return read_unfinished(Path(place), kept.label)


def changed_files(before: KeptCatalogue | None, after: KeptCatalogue) -> dict[str, str]:
    """Return the text of every table that is new or differs, by file name."""
    earlier = {} if before is None else before.tables
    return {
        name: table.text()
        for name, table in after.tables.items()
        if name not in earlier or table.text() != earlier[name].text()
    }


def earlier_texts(before: KeptCatalogue | None, files: Collection[str]) -> dict[str, str | None]:
    """Return what tables held when they were read, by file name; None for one that was not there.

    Parameters
    ----------
    before
        The tables as they were read; None if there were none.
    files
        Names of the tables asked about.
    """
    tables = {} if before is None else before.tables
    return {name: tables[name].text() if name in tables else None for name in files}


@contextmanager
def _told_within(label: str) -> Iterator[None]:
    """Tell faults of a table with the catalogue it belongs to, since two are at hand."""
    try:
        yield
    except InputError as error:
        faults = [
            f if f.where == label else replace(f, where=f"{label}, {f.where}") for f in error.faults
        ]
        raise InputError(faults) from error


def _mark_of(path: Path) -> str:
    """Return the byte order mark that a file begins with, "" without one."""
    with path.open("rb") as stream:
        return BYTE_ORDER_MARK if stream.read(3) == BYTE_ORDER_MARK.encode("utf-8") else ""


def _formula_fault(column: str, cell: str) -> str:
    return (
        f"{column} is {shown(cell)}, which a spreadsheet takes for a formula or cannot show; write"
        " it otherwise."
    )
