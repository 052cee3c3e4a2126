"""What one time's purchase buys where, line by line: packs, sets and their tubes, deliveries."""

from collections.abc import Iterator
from dataclasses import dataclass

from fewtubes.catalogue.records import Tube
from fewtubes.comparison.instalment_findings import Instalment
from fewtubes.report.sentences.purchase import (
    delivery_words,
    packs_of_set,
    seller_words,
    set_words,
)
from fewtubes.shopping.bought import BoughtPack, Parcel
from fewtubes.shopping.list_lines import LineKind
from fewtubes.words.printable import printable
from fewtubes.words.tubes import packs_words

__all__ = ["PurchaseLine", "purchase_lines", "seller_lines"]


@dataclass(frozen=True, eq=False)
class PurchaseLine:
    """One line; prices of all lines together are what leaves the purse."""

    kind: LineKind
    seller: str
    """Who sells it, in words."""
    name: str
    """Of the tube or the set; what the delivery is."""
    price: int | None = None
    """Price [hundredths of the currency]; None of a tube in a set, which has none of its own."""
    packs: str = ""
    """How many packs, in words; blank of sets and deliveries."""
    tube: Tube | None = None
    """Of a pack, or in a set."""
    count: int = 0
    """How many of a set."""
    spare: str = ""
    """Why it, or how much of it and why, is not needed; blank if it is."""


def purchase_lines(time: Instalment) -> Iterator[PurchaseLine]:
    """Yield the lines of all sellers; none where prices of single tubes are all that is paid."""
    for parcel in () if time.purchase is None else time.purchase.parcels:
        yield from seller_lines(parcel)


def seller_lines(parcel: Parcel) -> Iterator[PurchaseLine]:
    """Yield what is bought of one seller, and the delivery where there is a charge for any."""
    seller = seller_words(parcel)
    for bought in parcel.packs:
        yield PurchaseLine(
            LineKind.PACK,
            seller,
            printable(bought.tube.name),
            bought.pack.cost,
            packs_words([(bought.pack.count, bought.pack.offer.ml)]),
            bought.tube,
            spare=_spare(bought),
        )
    for one in parcel.sets:
        yield PurchaseLine(LineKind.SET, seller, set_words(one), one.cost, count=one.count)
        idle = dict(one.idle)
        for tube in (*one.used, *idle):
            yield PurchaseLine(
                LineKind.IN_SET,
                seller,
                printable(tube.name),
                packs=packs_words(packs_of_set(one, tube.id)),
                tube=tube,
                spare=f"not needed: {idle[tube]}" if tube in idle else "",
            )
    if parcel.delivery or parcel.delivered_free:
        yield PurchaseLine(LineKind.DELIVERY, seller, delivery_words(parcel), parcel.delivery)


def _spare(bought: BoughtPack) -> str:
    """Return why packs are bought that are not needed; blank if all are."""
    if bought.why is None:
        return ""
    many = "" if bought.idle else f"{bought.surplus} of them "
    return f"{many}not needed: {bought.why}"
