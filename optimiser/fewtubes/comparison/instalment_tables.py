"""What is bought bit by bit, as a table."""

from collections.abc import Iterator
from decimal import Decimal

from fewtubes.catalogue.records import Tube
from fewtubes.comparison.instalment_findings import Instalments
from fewtubes.shopping.bought import Parcel, Surplus
from fewtubes.shopping.list_lines import LineKind
from fewtubes.tables.cells import Cell
from fewtubes.tables.table import Column, Kind, Table
from fewtubes.words.counting import counted
from fewtubes.words.decimals import file_share
from fewtubes.words.money import amount
from fewtubes.words.tubes import packs_words

__all__ = ["tubes"]

TUBES = (
    Column("time", Kind.WHOLE, "when to buy it: 1 with the first sum, 2 with the second, …"),
    Column("name", Kind.TEXT, "name of the tube"),
    Column("pigments", Kind.TEXT, "Colour Index names of its pigments, parted by blanks"),
    Column("packs", Kind.TEXT, "packs to buy of it"),
    Column("price", Kind.MONEY, "price of its packs, in the currency"),
    Column("currency", Kind.TEXT, "ISO 4217 code"),
    Column("lightfastness", Kind.TEXT, "ASTM D4303 category, I to V"),
    Column("hazards", Kind.TEXT, "what calls for care, parted by blanks; empty if nothing"),
    Column("spent_so_far", Kind.MONEY, "spent up to and with this time, in the currency"),
    Column("carried_on", Kind.MONEY, "left after this time, in the currency"),
    Column("covered", Kind.SHARE, "share covered from this time on [0–1]"),
    Column(
        "best_at_once",
        Kind.SHARE,
        "what no palette bought at once for all money up to then exceeds [0–1]",
    ),
    Column("tube", Kind.TEXT, "id of the tube", behind=True),
)


BY_SELLER = (
    Column("row", Kind.TEXT, "what the row is: pack, set, in the set (without a price), delivery"),
    Column("seller", Kind.TEXT, "name of the seller; empty if there is none in particular"),
    *TUBES,
    Column("why", Kind.TEXT, "why it is bought, or there, though it is not all needed; or empty"),
)
"""Where purchases are made under sellers' terms."""


def tubes(found: Instalments) -> Table:
    """Return a row for each tube to buy, in the order of buying.

    Under sellers' terms there is a row for each line of each purchase, and further columns.
    """
    if found.under_terms:
        return Table(BY_SELLER, tuple(_lines(found)))
    return Table(TUBES, tuple(_tubes(found)))


def _tubes(found: Instalments) -> Iterator[tuple[Cell, ...]]:
    for number, time in enumerate(found.times, start=1):
        for purchase in time.bought:
            tube = purchase.tube
            yield (
                number,
                tube.name,
                " ".join(dict.fromkeys(tube.codes)),
                packs_words((pack.count, pack.offer.ml) for pack in purchase.packs),
                Decimal(amount(purchase.cost)),
                found.question.scenario.currency,
                tube.lightfastness.name,
                " ".join(hazard.value for hazard in tube.hazards),
                Decimal(amount(time.palette.cost)),
                Decimal(amount(time.carried_on)),
                file_share(time.coverage),
                file_share(time.best),
                tube.id,
            )


def _lines(found: Instalments) -> Iterator[tuple[Cell, ...]]:
    """Yield a row for each pack, set, tube in a set and delivery; prices add up to what is paid."""
    for number, time in enumerate(found.times, start=1):
        for parcel in () if time.purchase is None else time.purchase.parcels:
            for kind, tube, name, packs, price, why in _of_seller(parcel):
                yield (
                    str(kind),
                    None if parcel.seller is None else parcel.seller.name,
                    number,
                    name,
                    None if tube is None else " ".join(dict.fromkeys(tube.codes)),
                    packs,
                    None if price is None else Decimal(amount(price)),
                    found.question.scenario.currency,
                    None if tube is None else tube.lightfastness.name,
                    None if tube is None else " ".join(hazard.value for hazard in tube.hazards),
                    Decimal(amount(time.palette.cost)),
                    Decimal(amount(time.carried_on)),
                    file_share(time.coverage),
                    file_share(time.best),
                    None if tube is None else tube.id,
                    None if why is None else str(why),
                )


def _of_seller(
    parcel: Parcel,
) -> Iterator[tuple[LineKind, Tube | None, str, str | None, int | None, Surplus | None]]:
    """Yield kind, tube, name, packs in words, price [hundredths] and why of what one sells."""
    for bought in parcel.packs:
        pack = bought.pack
        packs = packs_words([(pack.count, pack.offer.ml)])
        yield LineKind.PACK, bought.tube, bought.tube.name, packs, pack.cost, bought.why
    for one in parcel.sets:
        yield LineKind.SET, None, one.tube_set.name, counted(one.count, "set"), one.cost, None
        used: list[tuple[Tube, Surplus | None]] = [(tube, None) for tube in one.used]
        for tube, why in (*used, *one.idle):
            held = [item for item in one.tube_set.packs if item.tube == tube.id]
            packs = packs_words((one.count * item.count, item.ml) for item in held)
            yield LineKind.IN_SET, tube, tube.name, packs, None, why
    if parcel.delivery or parcel.delivered_free:
        yield LineKind.DELIVERY, None, "delivery", None, parcel.delivery, None
