"""The sellers, from `sellers.csv`, and the sets, from `sets.csv` and `set_packs.csv`."""

from collections import defaultdict
from collections.abc import Collection, Mapping

from fewtubes.catalogue.limits import MILLILITRES, PRICE, NumberRange, shown
from fewtubes.catalogue.offers import currency_of, seller_of, stock_of
from fewtubes.catalogue.repeats import Namesakes, Sightings
from fewtubes.catalogue.rows import Row
from fewtubes.catalogue.sellers import Seller, SetPack, TubeSet
from fewtubes.catalogue.tables import ReadTable

__all__ = [
    "MORE_SET_COLUMNS",
    "SELLER_COLUMNS",
    "SET_COLUMNS",
    "SET_PACK_COLUMNS",
    "read_sellers",
    "read_sets",
]

SELLER_COLUMNS = ("seller", "name", "delivery", "free_from", "least_order", "currency", "note")
SET_COLUMNS = ("set", "name", "price", "currency")
SET_PACK_COLUMNS = ("set", "tube", "ml", "count")

MORE_SET_COLUMNS = ("seller", "stock", "note")
"""Columns that the table of sets may have besides; a blank cell counts as none."""

CHARGE = NumberRange(0, 10_000)
"""Charge for a delivery [currency]."""

ORDER = NumberRange(0, 1_000_000)
"""Price of goods from which something holds [currency]; as far as budgets go."""

COUNT = NumberRange(1, 1_000)
"""Packs of a tube in a set."""


def read_sellers(table: ReadTable) -> dict[str, Seller]:
    """Return the sellers by id."""
    seen, names = Sightings(), Namesakes()
    sellers: dict[str, Seller] = {}
    for row in table.rows:
        seller = Seller(
            id=row.identifier("seller"),
            name=row.text("name"),
            delivery=_money(row, "delivery", CHARGE) or 0,
            free_from=_money(row, "free_from", ORDER),
            least_order=_money(row, "least_order", ORDER) or 0,
            currency=currency_of(row),
            note=row.remark("note"),
        )
        _check_order(row, seller)
        if seen.is_new(row, (seller.id,), f"the seller {shown(seller.id)}"):
            names.note_any(row, seller.name, "the seller's name")
            sellers[seller.id] = seller
    return sellers


def read_sets(
    sets: ReadTable,
    set_packs: ReadTable,
    *,
    tubes: Collection[str] | None,
    sellers: Mapping[str, Seller] | None,
) -> dict[str, TubeSet]:
    """Return the sets by id.

    Parameters
    ----------
    sets, set_packs
        The two tables.
    tubes
        Ids of the tubes; None if they could not be read, so that nothing is said about them.
    sellers
        By id; None if they could not be read.
    """
    seen, names = Sightings(), Namesakes()
    known = {row.cells["set"] for row in sets.rows} if sets.readable else None
    packs = _read_packs(set_packs, known, tubes)
    found: dict[str, TubeSet] = {}
    for row in sets.rows:
        row.remark("note") if "note" in row.cells else None
        currency = currency_of(row)
        one = TubeSet(
            id=row.identifier("set"),
            name=row.text("name"),
            seller=seller_of(row, sellers, currency),
            price=row.hundredths("price", PRICE),
            currency=currency,
            packs=tuple(packs.get(row.cells["set"], ())),
            stock=stock_of(row),
        )
        if seen.is_new(row, (one.id,), f"the set {shown(one.id)}"):
            names.note_any(row, one.name, "the set's name")
            found[one.id] = one
            if one.id and not one.packs and set_packs.readable:
                row.note(
                    f"the set {shown(one.id)} has no pack in set_packs.csv; add a row there for"
                    " each tube that it holds"
                )
    return found


def _read_packs(
    table: ReadTable, sets: Collection[str] | None, tubes: Collection[str] | None
) -> dict[str, list[SetPack]]:
    """Return what each set holds, by its id."""
    packs: dict[str, list[SetPack]] = defaultdict(list)
    seen = Sightings()
    for row in table.rows:
        held_by = row.reference("set", sets, "sets.csv")
        tube = row.reference("tube", tubes, "tubes.csv")
        pack = SetPack(tube, row.number("ml", MILLILITRES), _count(row))
        thing = f"the pack of {pack.ml:g} ml of the tube {shown(tube)} in the set {shown(held_by)}"
        if seen.is_new(row, (held_by, tube, pack.ml), thing):
            packs[held_by].append(pack)
    return packs


def _count(row: Row) -> int:
    value = row.number("count", COUNT)
    if value != value:  # noqa: PLR0124  # NaN: told already
        return 1
    if value % 1:
        row.note(f"count is {shown(row.as_written('count'))}; it must be a whole number")
    return int(value)


def _money(row: Row, column: str, allowed: NumberRange) -> int | None:
    """Return an amount of money in hundredths, None where the cell is blank."""
    return row.hundredths(column, allowed) if row.cells[column] else None


def _check_order(row: Row, seller: Seller) -> None:
    """Note delivery that is free below the least order, and so always."""
    free, least = seller.free_from, seller.least_order
    if free is not None and free < least:
        from_, order = shown(row.as_written("free_from")), shown(row.as_written("least_order"))
        row.note(
            f"free_from is {from_}, below least_order, {order}, so that delivery would always be"
            " free; give a greater one, or leave delivery and free_from blank"
        )
