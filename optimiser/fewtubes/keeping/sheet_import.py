"""A plain spreadsheet brought into a catalogue: as tubes, as prices alone, or as flowers."""

from collections.abc import Iterator, Mapping, Sequence
from decimal import Decimal
from pathlib import Path

from fewtubes.catalogue.collector import FaultCollector
from fewtubes.catalogue.limits import (
    IMPORTANCE,
    LIGHTNESS,
    MILLILITRES,
    OPPONENT,
    PRICE,
    STRENGTH,
    shown,
)
from fewtubes.catalogue.money import code_fault, exact_amount
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
from fewtubes.words.counting import counted

__all__ = ["sheet_imported"]


SIGNS = {"€": "EUR", "£": "GBP"}
"""Signs that stand for one currency in nearly every price list; $ and ¥ are those of several, but
never of these."""

SHARED_SIGNS = ("$", "¥")

PackKey = tuple[str, Decimal | str, str]
"""Tube, content [ml] and currency, of which a price list has one price."""


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
        theirs, told = _prices(read, columns, TubeFinder(ours), collector)
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


def _readers(
    sheet: Sheet, columns: SheetColumns, collector: FaultCollector
) -> Iterator[SheetReader]:
    for row in sheet.rows:
        yield SheetReader(row, columns, collector)


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
        for row in _readers(sheet, columns, collector)
    ]


def _prices(
    sheet: Sheet, columns: SheetColumns, finder: TubeFinder, collector: FaultCollector
) -> tuple[KeptCatalogue, tuple[str, ...]]:
    """Return the packs of tubes that are there, and how many rows were left out."""
    packs: dict[PackKey, tuple[Cells, str]] = {}
    left = 0
    for row in _readers(sheet, columns, collector):
        word = _tube_word(row)
        tube = finder.known(word) if word else None
        if word and tube is None and columns.unknown_left:
            left += 1
            continue
        if word and tube is None:
            near = collector.suggestion(word, [*finder.names, *finder.names.values()])
            row.note(
                "tube" if row.text("tube") else "name",
                f"is {shown(word)}, which is no tube of the catalogue; correct it, or say"
                f' unknown_tubes = "leave" in {columns.file} to leave such rows out.{near}',
            )
        pack = _pack(row)
        cells = {"tube": tube or "", "ml": pack.ml, "price": pack.price, "currency": pack.currency}
        _note_repeat(row, packs, cells)
    kept = catalogue_of_rows(sheet.file, {"offers.csv": [cells for cells, _ in packs.values()]})
    rows = counted(left, "row")
    return kept, (f"{rows} of tubes that the catalogue has not: left out.",) if left else ()


def _note_repeat(row: SheetReader, packs: dict[PackKey, tuple[Cells, str]], cells: Cells) -> None:
    """Keep a pack; note one that another row has with another price."""
    key = (cells["tube"], exact_amount(cells["ml"]) or cells["ml"], cells["currency"])
    first, where = packs.setdefault(key, (cells, row.row.where))
    if cells["tube"] and first["price"] != cells["price"]:
        row.note("price", f"is {cells['price']}, but {first['price']} in {where}; keep one of them")


def _tubes(
    sheet: Sheet, columns: SheetColumns, finder: TubeFinder, collector: FaultCollector
) -> list[OwnTube]:
    """Return the tubes; rows of one tube are its packs."""
    found: dict[str, list[tuple[OwnTube, SheetReader]]] = {}
    for row in _readers(sheet, columns, collector):
        tube = _tube(row, finder)
        if tube is not None:
            found.setdefault(tube.id, []).append((tube, row))
    return [_as_one(rows) for rows in found.values()]


def _tube(row: SheetReader, finder: TubeFinder) -> OwnTube | None:
    word = _tube_word(row)
    if not word:
        return None
    name = row.words("name") or word
    wants_pack = bool({"ml", "price"} & {*row.columns.headings, *row.columns.always})
    return OwnTube(
        where=row.row.where,
        id=row.identifier("tube") or finder.id_for(name),
        name=name,
        pigments=row.pigments("pigments"),
        packs=(_pack(row),) if wants_pack and (row.text("ml") or row.text("price")) else (),
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
            cells = {"tube": tube.id, "ml": pack.ml, "price": pack.price, "currency": pack.currency}
            _note_repeat(row, packs, cells)
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


def _pack(row: SheetReader) -> Pack:
    currency = row.text("currency").upper()
    fault = code_fault(currency)
    if fault:
        row.note("currency", fault)
    price = row.text("price")
    unlike = any(sign in price and currency != code for sign, code in SIGNS.items())
    shared = any(sign in price for sign in SHARED_SIGNS) and currency in SIGNS.values()
    if (unlike or shared) and not fault:
        row.note("price", f"is {shown(price)}, but its currency is {currency}; correct one of them")
    return Pack(row.number("ml", MILLILITRES), row.amount("price", PRICE), currency)


def _tube_word(row: SheetReader) -> str:
    """Return the id of a tube, or else its name; note a row that has neither."""
    word = row.text("tube") or row.text("name")
    if not word:
        row.note("tube" if "tube" in row.columns.headings else "name", "is blank; fill it in")
    return word


def _needed(row: SheetReader, key: str) -> str:
    text = row.words(key)
    if not text:
        row.note(key, "is blank; fill it in")
    return text
