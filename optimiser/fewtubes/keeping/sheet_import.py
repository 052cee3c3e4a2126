"""A plain spreadsheet brought into a catalogue: as tubes, as prices alone, or as flowers."""

from collections.abc import Mapping, Sequence
from pathlib import Path

from fewtubes.catalogue.collector import FaultCollector
from fewtubes.catalogue.limits import (
    IMPORTANCE,
    LIGHTNESS,
    OPPONENT,
    STRENGTH,
)
from fewtubes.catalogue.records import Role
from fewtubes.errors import InputError
from fewtubes.keeping.beginning import opened
from fewtubes.keeping.borrowed import borrowed_told
from fewtubes.keeping.kept_catalogue import KeptCatalogue, catalogue_of_rows
from fewtubes.keeping.kept_table import Cells
from fewtubes.keeping.merging import Winner, merged, merged_prices
from fewtubes.keeping.outcome import Outcome, outcome
from fewtubes.keeping.own_tubes import OwnTube, Pack, TubeFinder, tubes_of_profiles
from fewtubes.keeping.profiles import Profiles
from fewtubes.keeping.sheet_cells import Sheet, read_sheet
from fewtubes.keeping.sheet_columns import Fills, SheetColumns, read_sheet_columns
from fewtubes.keeping.sheet_figures import SheetReader
from fewtubes.keeping.sheet_packs import (
    PackKey,
    note_repeat,
    pack_of_row,
    priced_packs,
    readers,
    tube_word,
)

__all__ = ["sheet_imported"]


def sheet_imported(
    folder: Path,
    sheet: Path,
    names: Path,
    *,
    profiles_of: KeptCatalogue | None = None,
    keep: Winner | None = None,
) -> Outcome:
    """Return what a catalogue becomes with a spreadsheet brought in.

    Parameters
    ----------
    folder
        Of the catalogue.
    sheet, names
        The spreadsheet, and the small file that names its columns.
    profiles_of
        Where pigment profiles are taken from that the catalogue lacks.
    keep
        Whose stands where the two differ; None makes a difference a fault, but a new price is what
        a price list is brought in for.

    Raises
    ------
    InputError
        With every fault of the first of these that has any: the small file, the catalogue, the
        spreadsheet, what both together would be.
    """
    columns = read_sheet_columns(names)
    ours = opened(folder)
    read = read_sheet(sheet, columns)
    collector = FaultCollector()
    told: tuple[str, ...] = ()
    borrowed: tuple[str, ...] = ()
    if columns.fills is Fills.FLOWERS:
        theirs = catalogue_of_rows(read.file, {"flowers.csv": _flowers(read, columns, collector)})
    elif columns.fills is Fills.PRICES:
        theirs, told = priced_packs(read, columns, ours, collector)
    else:
        tubes = _tubes(read, columns, TubeFinder(ours), collector)
        sources = [ours] if profiles_of is None else [ours, profiles_of]
        theirs, borrowed = tubes_of_profiles(read.file, tubes, Profiles(sources), collector)
    _raise_each_once(collector)
    if columns.fills is Fills.PRICES:
        return outcome(folder, ours, merged_prices(ours, theirs, keep or Winner.THEIRS), told=told)
    done = merged(ours, theirs, keep)
    return outcome(folder, ours, done, told=borrowed_told(profiles_of, borrowed))


def _raise_each_once(collector: FaultCollector) -> None:
    """Raise the faults, one that many rows share once."""
    try:
        collector.raise_if_any()
    except InputError as error:
        raise InputError(list(dict.fromkeys(error.faults))) from None


def _flowers(sheet: Sheet, columns: SheetColumns, collector: FaultCollector) -> list[Cells]:
    roles = [role.value for role in Role]
    return [
        {
            "flower": _needed(row, "flower"),
            "swatch": _needed(row, "swatch"),
            "role": row.word("role", roles),
            "L": row.number("L", LIGHTNESS),
            "a": row.number("a", OPPONENT),
            "b": row.number("b", OPPONENT),
            "importance": row.number("importance", IMPORTANCE),
        }
        for row in readers(sheet, columns, collector)
    ]


def _tubes(
    sheet: Sheet, columns: SheetColumns, finder: TubeFinder, collector: FaultCollector
) -> list[OwnTube]:
    """Return the tubes; rows of one tube are its packs."""
    found: dict[str, list[tuple[OwnTube, SheetReader]]] = {}
    for row in readers(sheet, columns, collector):
        tube = _tube(row, finder)
        if tube is not None:
            found.setdefault(tube.id, []).append((tube, row))
    return [_as_one(rows) for rows in found.values()]


def _tube(row: SheetReader, finder: TubeFinder) -> OwnTube | None:
    word = tube_word(row)
    if not word:
        return None
    name = row.words("name") or word
    wants_pack = bool({"ml", "price"} & {*row.columns.headings, *row.columns.always})
    return OwnTube(
        where=row.row.where,
        id=row.identifier("tube") or finder.id_for(name),
        name=name,
        pigments=row.pigments("pigments"),
        packs=(pack_of_row(row),) if wants_pack and (row.text("ml") or row.text("price")) else (),
        strength=row.number("strength", STRENGTH),
        note=row.words("note"),
    )


def _as_one(rows: Sequence[tuple[OwnTube, SheetReader]]) -> OwnTube:
    """Return a tube with the packs of all its rows; note rows that tell other things of it."""
    first, at = rows[0]
    packs: dict[PackKey, tuple[Cells, str]] = {}
    for tube, row in rows:
        for key, here, there in (
            ("name", first.name, tube.name),
            ("pigments", first.pigments, tube.pigments),
            ("strength", first.strength, tube.strength),
            ("note", first.note, tube.note),
        ):
            if here != there and (key != "note" or there):
                what = f"is not that of the same tube in {at.row.where}; write both the same way"
                row.note(key, what)
        for pack in tube.packs:
            note_repeat(row, packs, pack.cells(tube.id))
    return OwnTube(
        where=first.where,
        id=first.id,
        name=first.name,
        pigments=first.pigments,
        packs=tuple(_pack_of(cells) for cells, _ in packs.values()),
        strength=first.strength,
        note=first.note,
    )


def _pack_of(cells: Mapping[str, str]) -> Pack:
    return Pack(cells["ml"], cells["price"], cells["currency"])


def _needed(row: SheetReader, key: str) -> str:
    text = row.words(key)
    if not text:
        row.note(key, "is blank; fill it in")
    return text
