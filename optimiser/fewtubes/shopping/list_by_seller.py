"""The shopping list by seller as a table: packs, sets with what they hold, deliveries.

Its prices add up to what leaves the purse: a tube in a set has none of its own.
"""

from collections.abc import Iterator
from decimal import Decimal

from fewtubes.shopping.list_columns import TRAITS
from fewtubes.shopping.list_lines import LineKind, ListLine, list_lines
from fewtubes.shopping.plan import Plan
from fewtubes.tables.cells import Cell
from fewtubes.tables.table import Column, Kind, Table
from fewtubes.words.decimals import file_share
from fewtubes.words.money import amount

__all__ = ["list_by_seller"]

LIST_BY_SELLER = (
    Column("row", Kind.TEXT, "what the row is: pack, set, in the set (without a price), delivery"),
    Column("seller", Kind.TEXT, "name of the seller; empty if there is none in particular"),
    Column("tube", Kind.TEXT, "id of a tube to buy; empty of a set or a delivery", behind=True),
    Column("set", Kind.TEXT, "id of the set; empty of all else", behind=True),
    Column("name", Kind.TEXT, "name of the tube or of the set"),
    Column("pigments", Kind.TEXT, "Colour Index names of its pigments, parted by blanks"),
    Column("ml", Kind.FIGURE, "content of a pack [ml]"),
    Column("packs", Kind.WHOLE, "packs of that size, or sets, to buy; of a tube in sets all packs"),
    Column("price_each", Kind.MONEY, "price of one pack or set, in the currency"),
    Column("price", Kind.MONEY, "price of all of the row, in the currency"),
    Column("currency", Kind.TEXT, "ISO 4217 code"),
    Column(
        "seller_total",
        Kind.MONEY,
        "price of all that is bought of the seller, delivery included; repeated in every row",
    ),
    Column("needed", Kind.YES_NO, "whether the tube is one of the palette; empty of all else"),
    Column("why", Kind.TEXT, "why it is bought, or there, though it is not all needed; or empty"),
    *TRAITS,
)


def list_by_seller(plan: Plan) -> Table:
    """Return what to buy, by seller: a row for each line of the list."""
    return Table(
        LIST_BY_SELLER, tuple(row for line in list_lines(plan) for row in _rows(plan, line))
    )


def _rows(plan: Plan, line: ListLine) -> Iterator[tuple[Cell, ...]]:
    """Yield the rows of a line: one, or of a tube in a set one for each of its pack sizes."""
    for ml, packs, each in _packs(line):
        yield (
            str(line.kind),
            line.parcel.seller.name if line.parcel.seller else None,
            line.tube.id if line.tube else None,
            line.set_bought.tube_set.id if line.set_bought else None,
            _name(line),
            " ".join(dict.fromkeys(line.tube.codes)) if line.tube else None,
            ml,
            packs,
            each,
            None if line.price is None else Decimal(amount(line.price)),
            plan.scenario.currency,
            Decimal(amount(line.parcel.cost)),
            None if line.tube is None else line.planned is not None,
            str(line.why) if line.why else None,
            *_traits(line),
        )


def _packs(line: ListLine) -> Iterator[tuple[float | None, int | None, Decimal | None]]:
    """Yield content [ml], number and price of each of what is bought."""
    if line.pack is not None:
        pack = line.pack.pack
        yield float(pack.offer.ml), pack.count, Decimal(amount(pack.each))
    elif line.set_bought is None:
        yield None, None, None
    elif line.kind is LineKind.SET or line.tube is None:
        yield None, line.set_bought.count, Decimal(amount(line.set_bought.tube_set.price))
    else:
        for pack_held in line.set_bought.tube_set.packs:
            if pack_held.tube == line.tube.id:
                yield float(pack_held.ml), line.set_bought.count * pack_held.count, None


def _name(line: ListLine) -> str:
    if line.tube is not None:
        return line.tube.name
    return "delivery" if line.set_bought is None else line.set_bought.tube_set.name


def _traits(line: ListLine) -> tuple[Cell, ...]:
    """Return lightfastness, transparency, hazards, mixes and what only it brings."""
    if line.tube is None:
        return (None,) * 5
    planned = line.planned
    return (
        line.tube.lightfastness.name,
        planned.transparency.word if planned else None,
        " ".join(line.tube.hazards),
        planned.recipes if planned else None,
        file_share(planned.only_it_brings) if planned else None,
    )
