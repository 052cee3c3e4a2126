"""A catalogue of one's own is begun: tables with their header rows, and what every one needs."""

from collections.abc import Collection
from dataclasses import replace
from pathlib import Path

from fewtubes.catalogue.price_list import OFFERS_TABLE, SELLING_COLUMNS
from fewtubes.errors import Fault, InputError
from fewtubes.keeping.kept_catalogue import (
    KEPT_COLUMNS,
    KeptCatalogue,
    empty_catalogue,
    read_kept,
)
from fewtubes.words.lists import joined

__all__ = ["BORROWED", "begun_catalogue", "kept_or_begun", "opened", "tables_in"]

BORROWED = ("papers.csv", "lights.csv")
"""Tables of the demo without which nothing can be computed."""

PRICE_LIST = frozenset({OFFERS_TABLE, *SELLING_COLUMNS})
"""Tables of a price list, which is no catalogue."""


def begun_catalogue(folder: Path, borrowed: Collection[str] = BORROWED) -> KeptCatalogue:
    """Return the tables of a catalogue that is to be begun in a folder.

    Parameters
    ----------
    folder
        May be there already, but without any of the tables.
    borrowed
        Tables taken from the demo; the others have a header row alone.

    Raises
    ------
    InputError
        If one of the tables is there.
    """
    there = tables_in(folder)
    if there:
        what = f"holds {joined(there)} already, and nothing is overwritten; name another folder."
        raise InputError([Fault(str(folder), what)])
    demo = read_kept(None)
    empty = empty_catalogue(str(folder))
    return replace(empty, tables={**empty.tables, **{name: demo.tables[name] for name in borrowed}})


def kept_or_begun(folder: Path) -> tuple[KeptCatalogue | None, KeptCatalogue]:
    """Return the catalogue in a folder as it stands, None if there is none yet, and to go on from.

    One that is not there yet is begun with the demo's papers and lights.

    Raises
    ------
    InputError
        With every fault of the tables that are there.
    """
    if not tables_in(folder):
        return None, begun_catalogue(folder)
    kept = read_kept(folder)
    return kept, kept


def opened(folder: Path) -> KeptCatalogue:
    """Return the catalogue in a folder, which may still lack tubes, papers or lights.

    Raises
    ------
    InputError
        If there is none, or with every fault of its tables.
    """
    there = tables_in(folder)
    if not there:
        what = "holds no catalogue; begin one there with `fewtubes catalogue new`, or name another."
        raise InputError([Fault(str(folder), what)])
    if {*there} <= PRICE_LIST:
        what = (
            "is a price list, which has no tubes: edit its tables, or save them from a spreadsheet,"
            " or name a catalogue."
        )
        raise InputError([Fault(str(folder), what)])
    return read_kept(folder)


def tables_in(folder: Path) -> list[str]:
    """Return the tables of a catalogue that a folder holds, or whatever stands in their places.

    Raises
    ------
    InputError
        If the folder is none, or cannot be looked into.
    """
    try:
        there = {path.name for path in folder.iterdir()}
    except FileNotFoundError:
        return []
    except (OSError, ValueError) as error:  # ValueError: a null character in the name
        reason = getattr(error, "strerror", None) or str(error)
        what = f"cannot be looked into ({reason}); name a folder."
        raise InputError([Fault(str(folder), what)]) from error
    return [name for name in KEPT_COLUMNS if name in there]
