"""What a catalogue holds, each thing with all its rows, and where two catalogues disagree."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from enum import StrEnum
from types import MappingProxyType

from fewtubes.catalogue.limits import shown
from fewtubes.catalogue.names import alike_key
from fewtubes.catalogue.reading import LIKELY_TABLE
from fewtubes.keeping.kept_catalogue import KeptCatalogue
from fewtubes.keeping.kept_table import Cells, content

__all__ = [
    "TABLES_OF",
    "Difference",
    "Kind",
    "Namesake",
    "differences",
    "namesakes",
    "rows_of",
    "tubes_with",
]


class Kind(StrEnum):
    """A kind of thing; its name is the column that names it in every table it has rows in."""

    PIGMENT = "pigment"
    TUBE = "tube"
    FLOWER = "flower"
    PAPER = "paper"
    LIGHT = "light"
    SELLER = "seller"
    SET = "set"


TABLES_OF: Mapping[Kind, tuple[str, ...]] = MappingProxyType(
    {
        Kind.PIGMENT: ("pigments.csv", "spectra.csv", LIKELY_TABLE),
        Kind.TUBE: ("tubes.csv", "tube_pigments.csv"),
        Kind.FLOWER: ("flowers.csv",),
        Kind.PAPER: ("papers.csv",),
        Kind.LIGHT: ("lights.csv",),
        Kind.SELLER: ("sellers.csv",),
        Kind.SET: ("sets.csv", "set_packs.csv"),
    }
)
"""The tables that hold a thing, the one that names it first; packs of tubes are apart."""

PLAINLY_TOLD = frozenset({"pigments.csv", "tubes.csv", "sellers.csv", "sets.csv"})
"""Tables with a row a thing, of whose cells it is told which differ."""


@dataclass(frozen=True)
class Difference:
    """One thing that stands in two catalogues with other content."""

    kind: Kind
    id: str
    what: str
    """In what they differ, e.g. ``strength '1' and '0.8'``; ours first."""


@dataclass(frozen=True)
class Namesake:
    """A new thing whose name is taken by another."""

    kind: Kind
    id: str
    name: str
    taken_by: str
    """The id of the other."""


def rows_of(kept: KeptCatalogue, kind: Kind) -> dict[str, dict[str, list[Cells]]]:
    """Return the rows of each thing of a kind by table, things in the order of the first table."""
    tables = {name: kept.table(name).things(kind) for name in TABLES_OF[kind]}
    first = TABLES_OF[kind][0]
    return {
        thing: {name: things.get(thing, []) for name, things in tables.items()}
        for thing in tables[first]
    }


def tubes_with(kept: KeptCatalogue, pigment: str) -> list[str]:
    """Return the tubes that hold a pigment."""
    parts = kept.table("tube_pigments.csv").things(Kind.PIGMENT)
    return [cells["tube"] for cells in parts.get(pigment, [])]


def differences(ours: KeptCatalogue, theirs: KeptCatalogue) -> Iterator[Difference]:
    """Yield what both hold under one id, with other content."""
    for kind in Kind:
        here, there = rows_of(ours, kind), rows_of(theirs, kind)
        for thing in there:
            if thing in here:
                what = _difference(here[thing], there[thing])
                if what:
                    yield Difference(kind, thing, what)


def namesakes(ours: KeptCatalogue, theirs: KeptCatalogue) -> Iterator[Namesake]:
    """Yield what is new but bears a name of something else, which no reader would tell apart."""
    for kind in (Kind.TUBE, Kind.FLOWER, Kind.PAPER, Kind.LIGHT, Kind.SELLER, Kind.SET):
        here = {thing: _name(rows) for thing, rows in rows_of(ours, kind).items()}
        taken = {alike_key(name): thing for thing, name in here.items()}
        for thing, rows in rows_of(theirs, kind).items():
            name = _name(rows)
            if thing not in here and alike_key(name) in taken:
                yield Namesake(kind, thing, name, taken[alike_key(name)])


def _name(rows: Mapping[str, Sequence[Cells]]) -> str:
    """Return the name of a thing; that of a flower is its id."""
    first = next(iter(rows.values()))[0]
    return first.get("name") or first["flower"]


def _difference(here: Mapping[str, Sequence[Cells]], there: Mapping[str, Sequence[Cells]]) -> str:
    """Return in what the rows of a thing differ, "" if in nothing."""
    told = []
    for table, rows in there.items():
        if content(rows) == content(here[table]):
            continue
        if table in PLAINLY_TOLD:
            told += _cells_that_differ(here[table][0], rows[0])
        else:
            told.append(f"rows in {table}")
    return ", ".join(told)


def _cells_that_differ(here: Cells, there: Cells) -> list[str]:
    return [
        f"{column} {shown(here.get(column, ''))} and {shown(there.get(column, ''))}"
        for column in dict.fromkeys((*there, *here))
        if content([{column: there.get(column, "")}]) != content([{column: here.get(column, "")}])
    ]
