"""Which column of a spreadsheet is what: named once, in a small file."""

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from enum import StrEnum
from pathlib import Path
from types import MappingProxyType

from fewtubes.catalogue.collector import FaultCollector
from fewtubes.catalogue.files import shown_name
from fewtubes.catalogue.limits import NumberRange, listed
from fewtubes.catalogue.names import composed
from fewtubes.catalogue.offers import MORE_OFFER_COLUMNS
from fewtubes.catalogue.sizes import MOST_ROWS
from fewtubes.scenario.entries import Entries, as_written, is_number
from fewtubes.scenario.toml_file import toml_values

__all__ = [
    "COLUMNS",
    "ENCODINGS",
    "TOP_KEYS",
    "USUAL",
    "Fills",
    "SheetColumns",
    "read_sheet_columns",
]


class Fills(StrEnum):
    """What a spreadsheet is taken for."""

    TUBES = "tubes"
    """Tubes of pigments that are there, with their packs if there are columns for them."""
    PRICES = "prices"
    """Packs and prices of tubes that are there; no paint is touched."""
    FLOWERS = "flowers"


COLUMNS: Mapping[Fills, tuple[str, ...]] = MappingProxyType(
    {
        Fills.TUBES: ("tube", "name", "pigments", "strength", "note", "ml", "price", "currency"),
        Fills.PRICES: (*("tube", "name", "ml", "price", "currency"), *MORE_OFFER_COLUMNS),
        Fills.FLOWERS: ("flower", "swatch", "role", "L", "a", "b", "importance"),
    }
)
"""What a column can be."""

NEEDED: Mapping[Fills, tuple[str, ...]] = MappingProxyType(
    {
        Fills.TUBES: ("pigments",),
        Fills.PRICES: ("ml", "price", "currency"),
        Fills.FLOWERS: ("flower", "swatch", "role", "L", "a", "b"),
    }
)
"""What must be known of every row; tubes and prices need a tube or a name besides."""

OF_A_PACK = ("ml", "price", "currency")

USUAL: Mapping[str, str] = MappingProxyType({"strength": "1", "note": "", "importance": "1"})
"""What is taken where neither a column nor a value for all says it."""

ENCODINGS: Mapping[str, str] = MappingProxyType(
    {
        "utf-8": "utf-8-sig",
        "utf-16": "utf-16",
        "windows-1250": "cp1250",
        "windows-1251": "cp1251",
        "windows-1252": "cp1252",
        "iso-8859-1": "iso8859-1",
        "iso-8859-2": "iso8859-2",
        "iso-8859-15": "iso8859-15",
        "macintosh": "mac_roman",
    }
)
"""How text files are stored, by the names of the IANA register, and what Python calls them."""

SEPARATORS = {",": ",", ";": ";", "tab": "\t", "\t": "\t", "|": "|"}

TOP_KEYS = (
    "fills",
    "decimal",
    "separator",
    "encoding",
    "sheet",
    "heading_row",
    "unknown_tubes",
    "columns",
    "always",
)


@dataclass(frozen=True)
class SheetColumns:
    """How a spreadsheet is read."""

    file: str
    """The small file, as a message calls it."""
    fills: Fills
    headings: Mapping[str, str]
    """The heading in the sheet of each column known here."""
    always: Mapping[str, str]
    """What is the same in all rows, numbers with a point."""
    decimal: str = "."
    separator: str | None = None
    """Of a CSV file; None if it is to be found by the headings."""
    encoding: str | None = None
    """Of a CSV file; None for UTF-8, or UTF-16 with its mark."""
    sheet: str | None = None
    """Of a workbook; None for the first."""
    heading_row: int = 1
    unknown_left: bool = False
    """Whether prices of tubes that are not there are left out; else they are faults."""


def read_sheet_columns(path: Path) -> SheetColumns:
    """Return how a spreadsheet is read, from the small file that says so.

    Raises
    ------
    InputError
        With every fault of it.
    """
    collector = FaultCollector()
    values = toml_values(path, collector)
    collector.raise_if_any()
    top = Entries(shown_name(path), values or {}, collector)
    top.check_keys(TOP_KEYS)
    fills = top.word("fills", {fill.value: fill for fill in Fills})
    if "fills" not in top.values:
        top.note("fills", f"is missing; say what the sheet holds: {listed(list(Fills))}")
    collector.raise_if_any()
    read = SheetColumns(
        file=shown_name(path),
        fills=fills or Fills.TUBES,
        headings=_headings(top.table("columns"), fills or Fills.TUBES),
        always=_always(top.table("always"), fills or Fills.TUBES),
        decimal=top.word("decimal", {".": ".", ",": ","}) or ".",
        separator=top.word("separator", SEPARATORS),
        encoding=top.word("encoding", ENCODINGS),
        sheet=top.text("sheet") if "sheet" in top.values else None,
        heading_row=top.whole("heading_row", NumberRange(1, MOST_ROWS)) or 1,
        unknown_left=top.word("unknown_tubes", {"leave": True, "fault": False}) or False,
    )
    _check(read, top)
    collector.raise_if_any()
    return read


def _headings(table: Entries, fills: Fills) -> dict[str, str]:
    table.check_keys(COLUMNS[fills])
    return {key: table.text(key) for key in table.values if key in COLUMNS[fills]}


def _always(table: Entries, fills: Fills) -> dict[str, str]:
    """Return values for all rows as texts; a number is taken as it is written."""
    table.check_keys(COLUMNS[fills])
    found: dict[str, str] = {}
    for key, value in table.values.items():
        if isinstance(value, str):
            found[key] = composed(" ".join(value.split()))
        elif is_number(value):
            found[key] = f"{Decimal(value):f}"
        else:
            table.note(key, f"is {as_written(value)}; it must be a text or a number")
    return found


def _check(read: SheetColumns, top: Entries) -> None:
    """Note what is said twice, and what is not said although it is needed."""
    for key in sorted(set(read.headings) & set(read.always)):
        top.note(f"always, {key}", "has a column as well; keep one of the two")
    said = {*read.headings, *read.always}
    needed = list(NEEDED[read.fills])
    if read.fills is Fills.TUBES and said & {"ml", "price"}:
        needed += OF_A_PACK
    for key in (key for key in needed if key not in said):
        how = f'{key} = "heading of its column"'
        other = ' or, under [always], currency = "EUR"' if key == "currency" else ""
        top.note("columns", f"say which column is {key}: {how}{other}")
    if read.fills is not Fills.FLOWERS and not said & {"tube", "name"}:
        top.note("columns", "say which column names the tube: tube for its id, name for its name")
