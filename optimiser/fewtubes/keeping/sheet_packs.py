"""Packs and prices as the rows of a spreadsheet have them."""

from collections.abc import Iterator
from decimal import Decimal

from fewtubes.catalogue.collector import FaultCollector
from fewtubes.catalogue.limits import MILLILITRES, PRICE, shown
from fewtubes.catalogue.money import code_fault, exact_amount
from fewtubes.catalogue.offers import STOCK
from fewtubes.keeping.kept_catalogue import KeptCatalogue, catalogue_of_rows
from fewtubes.keeping.kept_table import Cells
from fewtubes.keeping.own_tubes import Pack, TubeFinder
from fewtubes.keeping.pack_sellers import PackSellers
from fewtubes.keeping.sheet_cells import Sheet
from fewtubes.keeping.sheet_columns import SheetColumns
from fewtubes.keeping.sheet_figures import SheetReader
from fewtubes.words.counting import counted

__all__ = ["PackKey", "note_repeat", "pack_of_row", "priced_packs", "readers", "tube_word"]

SIGNS = {"€": "EUR", "£": "GBP"}
"""Signs that stand for one currency in nearly every price list; $ and ¥ are those of several, but
never of these."""

SHARED_SIGNS = ("$", "¥")

PackKey = tuple[str, Decimal | str, str, str]
"""Tube, content [ml], currency and seller, of which a price list has one price."""


def readers(
    sheet: Sheet, columns: SheetColumns, collector: FaultCollector
) -> Iterator[SheetReader]:
    """Yield what reads the cells of each row."""
    for row in sheet.rows:
        yield SheetReader(row, columns, collector)


def priced_packs(
    sheet: Sheet, columns: SheetColumns, ours: KeptCatalogue, collector: FaultCollector
) -> tuple[KeptCatalogue, tuple[str, ...]]:
    """Return the packs of tubes that are there, and how many rows were left out.

    Parameters
    ----------
    sheet, columns
        The spreadsheet, and what its columns are.
    ours
        The catalogue whose tubes and sellers it names.
    collector
        Takes the faults.
    """
    finder, sellers = TubeFinder(ours), PackSellers(ours)
    packs: dict[PackKey, tuple[Cells, str]] = {}
    left = 0
    for row in readers(sheet, columns, collector):
        word = tube_word(row)
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
        pack = pack_of_row(row)
        cells = {**pack.cells(tube or ""), **_more_of(row, sellers, collector)}
        note_repeat(row, packs, cells)
    kept = catalogue_of_rows(sheet.file, {"offers.csv": [cells for cells, _ in packs.values()]})
    rows = counted(left, "row")
    return kept, (f"{rows} of tubes that the catalogue has not: left out.",) if left else ()


def _more_of(row: SheetReader, sellers: PackSellers, collector: FaultCollector) -> dict[str, str]:
    """Return the cells of a pack that need not be there, as far as the sheet has columns for them.

    A column that is there and says nothing says that there is nothing of the kind.
    """
    said = {*row.columns.headings, *row.columns.always}
    more: dict[str, str] = {}
    if "seller" in said:
        word = row.text("seller")
        seller = sellers.known(word) if word else ""
        if seller is None:
            row.note("seller", sellers.unknown_words(word, collector))
        more["seller"] = seller or ""
    if "stock" in said:
        more["stock"] = row.number("stock", STOCK) if row.text("stock") else ""
    if "price_two_or_more" in said:
        there = row.text("price_two_or_more")
        more["price_two_or_more"] = row.amount("price_two_or_more", PRICE) if there else ""
    return more


def note_repeat(row: SheetReader, packs: dict[PackKey, tuple[Cells, str]], cells: Cells) -> None:
    """Keep a pack; note one of which another row says something else, such as another price."""
    content, seller = exact_amount(cells["ml"]) or cells["ml"], cells.get("seller", "")
    pack = (cells["tube"], content, cells["currency"], seller)
    first, where = packs.setdefault(pack, (cells, row.row.where))
    for key in ("price", "stock", "price_two_or_more"):
        here, there = cells.get(key, ""), first.get(key, "")
        if cells["tube"] and here != there:
            what = f"is {here or 'blank'}, but {there or 'blank'} in {where}; keep one of them"
            row.note(key, what)


def pack_of_row(row: SheetReader) -> Pack:
    """Return the pack of a row, its faults noted."""
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


def tube_word(row: SheetReader) -> str:
    """Return the id of a tube, or else its name; note a row that has neither."""
    word = row.text("tube") or row.text("name")
    if not word and not (row.is_formula("tube") or row.is_formula("name")):
        row.note("tube" if "tube" in row.columns.headings else "name", "is blank; fill it in")
    return word
