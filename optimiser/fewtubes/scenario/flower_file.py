"""Flowers of the painter's own, kept in a table beside the catalogue's.

The table has the columns of the catalogue's ``flowers.csv``; in place of ``L``, ``a`` and ``b`` a
row may give ``hex``, and what ``importance`` leaves blank is what is usual for the role.
"""

from collections import Counter
from collections.abc import Mapping
from dataclasses import replace
from os import PathLike
from pathlib import Path

from fewtubes.catalogue.collector import FaultCollector
from fewtubes.catalogue.files import HeldFile, source_of
from fewtubes.catalogue.flowers import ROLES, flowers_of, lab_of
from fewtubes.catalogue.limits import IMPORTANCE, shown
from fewtubes.catalogue.names import alike_key
from fewtubes.catalogue.records import Catalogue, Flower, Swatch
from fewtubes.catalogue.rows import Row
from fewtubes.catalogue.sizes import MOST_SWATCHES
from fewtubes.catalogue.tables import ReadTable, read_table
from fewtubes.colour.colour_cells import LAB_COLUMNS, one_way, screen_colour
from fewtubes.colour.display import hex_to_lab
from fewtubes.scenario.own_flowers import usual_importance
from fewtubes.scenario.toml_file import toml_values
from fewtubes.tables.written_names import read_name

__all__ = [
    "FLOWER_FILE_COLUMNS",
    "flowers_in",
    "named_flowers",
    "with_flowers",
]

NEEDED_COLUMNS = ("flower", "swatch", "role")

FLOWER_FILE_COLUMNS = (*NEEDED_COLUMNS, "hex", *LAB_COLUMNS, "importance")
"""All columns that a table of one's own flowers may have; the first three it must have."""

NAMES = ("flower", "swatch")
"""Columns of names, which are read as they were before they were written."""

WAYS = {"hex": ("hex",), "L, a, b": LAB_COLUMNS}

UNREAD = (0.0, 0.0, 0.0)
"""In the place of a colour with a fault; it never leaves."""


def with_flowers(catalogue: Catalogue, path: str | PathLike[str] | HeldFile | None) -> Catalogue:
    r"""Return the catalogue with the flowers of a table besides; None adds none.

    Parameters
    ----------
    catalogue
        Whose flowers stay.
    path
        The CSV file: a row a colour, with the columns ``flower``, ``swatch`` and ``role``, the
        colour as ``hex`` or as ``L``, ``a``, ``b``, and ``importance`` if wanted.

    Raises
    ------
    InputError
        With every fault found; a flower may not bear the name of one of the catalogue that has
        other colours.

    Examples
    --------
    >>> import tempfile, pathlib
    >>> from fewtubes import read_catalogue, with_flowers
    >>> path = pathlib.Path(tempfile.mkdtemp()) / "my-flowers.csv"
    >>> text = "flower,swatch,role,hex\nmy iris,fall,petal,#8a63b8\nmy iris,leaf,leaf,#5a8a4a\n"
    >>> _ = path.write_text(text, encoding="utf-8")
    >>> catalogue = with_flowers(read_catalogue(), path)
    >>> [swatch.name for swatch in catalogue.flowers["my iris"].swatches]
    ['fall', 'leaf']
    """
    if path is None:
        return catalogue
    collector = FaultCollector()
    own = flowers_in(path, catalogue.flowers, collector)
    collector.raise_if_any()
    return replace(catalogue, flowers={**catalogue.flowers, **own})


def flowers_in(
    path: str | PathLike[str] | HeldFile,
    held: Mapping[str, Flower],
    collector: FaultCollector,
    *,
    may_be_empty: bool = False,
) -> dict[str, Flower]:
    """Return the flowers of a table by name, in the order of their first rows.

    Parameters
    ----------
    path
        As of `with_flowers`.
    held
        The catalogue's flowers, by name.
    collector
        Takes the faults.
    may_be_empty
        Whether a header without rows will do.
    """
    table = read_table(
        source_of(path),
        NEEDED_COLUMNS,
        collector,
        optional=FLOWER_FILE_COLUMNS[len(NEEDED_COLUMNS) :],
        may_be_empty=may_be_empty,
    )
    table = replace(table, rows=tuple(map(_with_names, table.rows)))
    own = flowers_of(table, _swatch)
    _note_too_many(table, collector)
    _note_held(table, own, held)
    return own


def named_flowers(scenario: Path) -> Path | None:
    """Return the table of flowers that a scenario's file names; None if none, or on a fault.

    What is wrong with the file is told when it is read.
    """
    values = toml_values(scenario, FaultCollector()) or {}
    name = values.get("flowers")
    return scenario.parent / name if isinstance(name, str) and name.strip() else None


def _with_names(row: Row) -> Row:
    """Return a row with its names as they were before they were made safe for spreadsheets."""
    return replace(row, cells={**row.cells, **{key: read_name(row.cells[key]) for key in NAMES}})


def _swatch(row: Row) -> Swatch:
    role = row.word("role", ROLES)
    said = bool(row.cells.get("importance"))
    return Swatch(
        name=row.text("swatch"),
        role=role,
        lab=_lab(row),
        importance=row.fraction("importance", IMPORTANCE) if said else usual_importance(role),
    )


def _lab(row: Row) -> tuple[float, float, float]:
    way = one_way(row, WAYS, fill_in="either hex or the three of L, a, b")
    if way == "L, a, b":
        return lab_of(row)
    text = None if way is None else screen_colour(row)
    if text is None:
        return UNREAD
    L, a, b = hex_to_lab(text).tolist()
    return L, a, b


def _note_too_many(table: ReadTable, collector: FaultCollector) -> None:
    """Note flowers of more colours than one may have."""
    for name, count in Counter(row.cells["flower"] for row in table.rows).items():
        if count > MOST_SWATCHES:
            what = f"has {count:,} colours; at most {MOST_SWATCHES:,} are allowed, so leave some"
            collector.note(table.file, f"the flower {shown(name)} {what} out.")


def _note_held(table: ReadTable, own: Mapping[str, Flower], held: Mapping[str, Flower]) -> None:
    """Note, at its first row, every flower that the catalogue holds with other colours."""
    called = {alike_key(name): name for name in held} if own else {}
    first = {row.cells["flower"]: row for row in reversed(table.rows)}
    for name, flower in own.items():
        met = called.get(alike_key(name))
        if name and met is not None and flower != held[met]:
            alike = "" if name == met else f", as {shown(met)}"
            what = f"there is a flower {shown(name)} already{alike}"
            first[name].note(f"{what}; give yours another name")
