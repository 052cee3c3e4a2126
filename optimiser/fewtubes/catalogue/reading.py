"""A catalogue is read from its folder of tables, whole or not at all.

Every fault of every table is found before the reading is given up, so that one run tells all that
has to be put right. What is wrong in one table is not said again of another that refers to it.
"""

from collections.abc import Collection, Mapping
from dataclasses import replace
from os import PathLike
from pathlib import Path
from types import MappingProxyType

from fewtubes.catalogue.collector import FaultCollector
from fewtubes.catalogue.files import folder_fault
from fewtubes.catalogue.flowers import FLOWER_COLUMNS, read_flowers
from fewtubes.catalogue.lights import LIGHT_COLUMNS, read_lights
from fewtubes.catalogue.likely import LIKELY_COLUMNS, LIKELY_SIZE
from fewtubes.catalogue.location import demo_catalogue_folder
from fewtubes.catalogue.offers import OFFER_COLUMNS
from fewtubes.catalogue.papers import PAPER_COLUMNS, read_papers
from fewtubes.catalogue.pigments import PIGMENT_COLUMNS, SPECTRUM_COLUMNS, read_pigments
from fewtubes.catalogue.price_list import (
    OFFERS_TABLE,
    SELLING_COLUMNS,
    SELLING_MORE,
    prices_of,
    selling_tables,
)
from fewtubes.catalogue.records import Catalogue
from fewtubes.catalogue.tables import ReadTable, read_table
from fewtubes.catalogue.tubes import (
    TUBE_COLUMNS,
    TUBE_MORE,
    TUBE_PIGMENT_COLUMNS,
    read_tubes,
    tube_ids,
)
from fewtubes.errors import Fault, InputError

__all__ = [
    "LIKELY_TABLE",
    "MAY_BE_EMPTY",
    "MORE_COLUMNS",
    "OPTIONAL_TABLES",
    "TABLE_COLUMNS",
    "read_catalogue",
    "read_unfinished",
]

TABLE_COLUMNS: Mapping[str, tuple[str, ...]] = MappingProxyType(
    {
        "pigments.csv": PIGMENT_COLUMNS,
        "spectra.csv": SPECTRUM_COLUMNS,
        "tubes.csv": TUBE_COLUMNS,
        "tube_pigments.csv": TUBE_PIGMENT_COLUMNS,
        OFFERS_TABLE: OFFER_COLUMNS,
        "flowers.csv": FLOWER_COLUMNS,
        "papers.csv": PAPER_COLUMNS,
        "lights.csv": LIGHT_COLUMNS,
    }
)
"""The tables that every catalogue has, and their columns."""

MORE_COLUMNS: Mapping[str, tuple[str, ...]] = MappingProxyType(
    {"tubes.csv": TUBE_MORE, **SELLING_MORE}
)
"""Columns that a table may have besides."""

LIKELY_TABLE = "likely_spectra.csv"
"""A table that a catalogue may do without: no pigment of it was fitted then."""

OPTIONAL_TABLES: Mapping[str, tuple[str, ...]] = MappingProxyType(
    {LIKELY_TABLE: LIKELY_COLUMNS, **SELLING_COLUMNS}
)
"""The tables that a catalogue may do without, and their columns."""

MAY_BE_EMPTY = frozenset({"flowers.csv", OFFERS_TABLE, *OPTIONAL_TABLES})
"""A scenario can do with colours of its own, and with tubes that are owned; all else is needed."""

HOLDS = {"tubes.csv": "tubes", "papers.csv": "papers", "lights.csv": "lights"}
"""What a catalogue that was only begun may still lack, by the table that tells."""

OF_TUBES = frozenset({"pigments.csv", "spectra.csv", "tubes.csv", "tube_pigments.csv"})
"""Tables without a row where there is no tube yet."""


def read_catalogue(folder: str | PathLike[str] | None = None) -> Catalogue:
    """Return the catalogue in a folder.

    Parameters
    ----------
    folder
        Holds the tables (CSV); None for the demo catalogue.

    Raises
    ------
    InputError
        With every fault of every table, if there is any.

    Examples
    --------
    >>> from fewtubes import read_catalogue
    >>> catalogue = read_catalogue()
    >>> catalogue.tubes["ultramarine"].codes
    ('PB29',)
    """
    label = "demo catalogue" if folder is None else str(folder)
    collector = FaultCollector()
    place = demo_catalogue_folder() if folder is None else Path(folder)
    tables = _without_gaps(label, _read_tables(place, collector), collector)
    catalogue = _assemble(label, tables)
    collector.raise_if_any()
    return catalogue


def read_unfinished(folder: Path, label: str) -> Catalogue:
    """Return a catalogue that may still lack tubes, papers or lights.

    Parameters
    ----------
    folder
        Holds the tables.
    label
        What it is called.

    Raises
    ------
    InputError
        With every other fault of every table, if there is any.
    """
    collector = FaultCollector()
    catalogue = _assemble(label, _read_tables(folder, collector))
    collector.raise_if_any()
    return catalogue


def _read_tables(folder: Path, collector: FaultCollector) -> dict[str, ReadTable]:
    """Return all tables, empty ones too, or raise at once if there is no such folder."""
    fault = folder_fault(folder, "the tables")
    if fault:
        raise InputError([Fault(str(folder), fault)])
    likely = read_table(
        folder / LIKELY_TABLE,
        LIKELY_COLUMNS,
        collector,
        may_be_empty=True,
        may_be_absent=True,
        size=LIKELY_SIZE,
    )
    needed = {
        name: read_table(
            folder / name,
            columns,
            collector,
            optional=MORE_COLUMNS.get(name, ()),
            may_be_empty=True,
        )
        for name, columns in TABLE_COLUMNS.items()
    }
    return {**needed, LIKELY_TABLE: likely, **selling_tables(folder, collector)}


def _without_gaps(
    label: str, tables: Mapping[str, ReadTable], collector: FaultCollector
) -> dict[str, ReadTable]:
    """Note tables without a row that are needed; one that was only begun is told in one sentence.

    They come back as tables that could not be read, so that nothing more is said of them.
    """
    bare = [
        name
        for name, table in tables.items()
        if table.readable and not table.rows and name not in MAY_BE_EMPTY
    ]
    if set(bare) >= OF_TUBES:
        collector.note(label, _begun(bare))
    else:
        for name in bare:
            collector.note(name, "holds a header but no rows; add at least one.")
    return {
        name: replace(table, readable=False) if name in bare else table
        for name, table in tables.items()
    }


def _begun(bare: Collection[str]) -> str:
    """Return what a catalogue without a tube still lacks, as a sentence."""
    lacks = [what for table, what in HOLDS.items() if table in bare]
    listed = " and no ".join([", no ".join(lacks[:-1]), lacks[-1]]) if lacks[1:] else lacks[0]
    ways = "fit them from swatches, or bring them in with `fewtubes catalogue add`, `merge`"
    return f"is begun but holds no {listed} yet; {ways} or `import`."


def _assemble(label: str, tables: Mapping[str, ReadTable]) -> Catalogue:
    """Return the catalogue of the tables; faults go to the tables' collector."""
    pigments = read_pigments(tables["pigments.csv"], tables["spectra.csv"], tables[LIKELY_TABLE])
    tubes = read_tubes(
        tables["tubes.csv"],
        tables["tube_pigments.csv"],
        pigments if tables["pigments.csv"].readable else None,
    )
    prices = prices_of(tables[OFFERS_TABLE], tables, tube_ids(tables["tubes.csv"]))
    return Catalogue(
        label=label,
        tubes=prices.tubes(tubes),
        flowers=read_flowers(tables["flowers.csv"]),
        papers=read_papers(tables["papers.csv"]),
        lights=read_lights(tables["lights.csv"]),
        pigments=pigments,
        sellers=prices.sellers,
        sets=prices.sets,
    )
