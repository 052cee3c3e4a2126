"""The shopping list line by line: packs, sets with what they hold, and deliveries, by seller."""

from collections.abc import Iterator
from dataclasses import dataclass
from enum import StrEnum

from fewtubes.catalogue.records import Tube
from fewtubes.shopping.bought import BoughtPack, BoughtSet, Parcel, Surplus
from fewtubes.shopping.plan import Plan
from fewtubes.shopping.plan_parts import PlannedTube

__all__ = ["LineKind", "ListLine", "lines_of", "list_lines"]


class LineKind(StrEnum):
    """What a line of the list is about."""

    PACK = "pack"
    SET = "set"
    IN_SET = "in the set"
    DELIVERY = "delivery"


@dataclass(frozen=True, eq=False)
class ListLine:
    """One line; prices of all lines together are what leaves the purse."""

    kind: LineKind
    parcel: Parcel
    """What is bought of the same seller."""
    price: int | None
    """Price [hundredths of the currency]; None of a tube in a set, which has none of its own."""
    tube: Tube | None = None
    """Of a pack, or in a set."""
    planned: PlannedTube | None = None
    """The tube in the palette; None if the palette has no use for it."""
    pack: BoughtPack | None = None
    set_bought: BoughtSet | None = None
    """The set, and of a tube in it the set that it lies in."""
    why: Surplus | None = None
    """Why it is bought although the palette does not need it, or not all of it."""


def list_lines(plan: Plan) -> tuple[ListLine, ...]:
    """Return the lines of all sellers, in their order; each delivery behind what it brings."""
    return tuple(line for parcel in plan.purchase.parcels for line in lines_of(plan, parcel))


def lines_of(plan: Plan, parcel: Parcel) -> Iterator[ListLine]:
    """Yield what is bought of one seller, and the delivery where the seller charges for any."""
    in_palette = {planned.tube.id: planned for planned in plan.bought}
    for bought in parcel.packs:
        yield ListLine(
            LineKind.PACK,
            parcel,
            bought.pack.cost,
            tube=bought.tube,
            planned=in_palette.get(bought.tube.id),
            pack=bought,
            why=bought.why,
        )
    for one in parcel.sets:
        yield ListLine(LineKind.SET, parcel, one.cost, set_bought=one)
        held: list[tuple[Tube, Surplus | None]] = [(tube, None) for tube in one.used]
        for tube, why in (*held, *one.idle):
            yield ListLine(
                LineKind.IN_SET,
                parcel,
                None,
                tube=tube,
                planned=in_palette.get(tube.id),
                set_bought=one,
                why=why,
            )
    if parcel.delivery or parcel.delivered_free:
        yield ListLine(LineKind.DELIVERY, parcel, parcel.delivery)
