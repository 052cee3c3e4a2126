"""What is bought where, in words: sellers, sets, deliveries, and what lies idle and why."""

from collections.abc import Iterator

from fewtubes.catalogue.records import Tube
from fewtubes.comparison.reasons import StandIn
from fewtubes.shopping.bought import BoughtPack, BoughtSet, Parcel, Surplus
from fewtubes.shopping.plan import Plan
from fewtubes.shopping.plan_parts import PlannedTube
from fewtubes.shopping.sources import Source
from fewtubes.words.counting import counted
from fewtubes.words.lists import in_a_row, joined
from fewtubes.words.money import amount, money, price_words
from fewtubes.words.printable import printable

__all__ = [
    "NO_SELLER",
    "added_words",
    "bought_at_words",
    "delivery_aside",
    "delivery_words",
    "idle_words",
    "packs_of_set",
    "seller_words",
    "set_words",
    "sold_words",
    "source_words",
    "stand_in_words",
    "tube_price_words",
]

NO_SELLER = "anywhere"
"""Heads what is bought of no seller in particular."""


def seller_words(parcel: Parcel) -> str:
    """Return who sells."""
    return printable(parcel.seller.name) if parcel.seller is not None else NO_SELLER


def set_words(bought: BoughtSet) -> str:
    """Return the name of a set as a list has it."""
    return f"{printable(bought.tube_set.name)} (a set)"


def tube_price_words(planned: PlannedTube, currency: str) -> str:
    """Return what a tube to buy costs singly, and which sets it comes in."""
    sets = [f"in {printable(bought.tube_set.name)}" for bought in planned.sets]
    singly = [money(planned.cost, currency)] if planned.packs or not sets else []
    return in_a_row([*singly, *sets])


def bought_at_words(planned: PlannedTube, plan: Plan) -> str:
    """Return who sells a tube to buy, and what it costs; the latter alone where nobody is told."""
    id_ = planned.tube.id
    sellers = [
        seller_words(parcel)
        for parcel in plan.purchase.parcels
        if parcel.seller is not None
        and (
            any(bought.tube.id == id_ for bought in parcel.packs)
            or any(used.id == id_ for bought in parcel.sets for used in bought.used)
        )
    ]
    price = tube_price_words(planned, plan.scenario.currency)
    if not sellers:
        return price
    return f"{joined(sellers)}{';' if planned.packs else ','} {price}"


def source_words(source: Source) -> str:
    """Return whom a tube is bought of, and in which set."""
    seller = printable(source.seller.name)
    if source.tube_set is None:
        return seller
    return f"{seller}, in {printable(source.tube_set.name)}"


def sold_words(tube: Tube, source: Source | None) -> str:
    """Return a tube's name, with who sells it where there are several sellers."""
    name = printable(tube.name)
    return name if source is None else f"{name} ({source_words(source)})"


def added_words(price: int, currency: str, source: Source | None, *, in_set: bool) -> str:
    """Return what a tube adds to the cost of a plan, and at whom where there are several sellers.

    Parameters
    ----------
    price, currency, in_set
        As of `price_words`.
    source
        Where it is bought; None where sellers are not told apart.
    """
    said = price_words(price, currency, in_set=in_set)
    if source is None:
        return said
    return f"{source_words(source)}; {said}{' more' if price else ''}"


def stand_in_words(stand_in: StandIn, plan: Plan) -> str:
    """Return what a tube in the place of another costs; where sellers are several, what all does.

    What it adds to the tubes kept would tell nothing there: they may be bought elsewhere then.
    """
    currency = plan.scenario.currency
    if stand_in.source is None:
        return price_words(stand_in.cost, currency, in_set=True)
    total, before = money(stand_in.total, currency), money(plan.cost, currency)
    instead = "as before" if stand_in.total == plan.cost else f"instead of {before}"
    return f"{source_words(stand_in.source)}; {total} in all {instead}"


def packs_of_set(bought: BoughtSet, tube: str) -> list[tuple[int, float]]:
    """Return how many packs of how much [ml] of a tube, by id, sets bought hold."""
    return [
        (bought.count * pack.count, pack.ml) for pack in bought.tube_set.packs if pack.tube == tube
    ]


def delivery_words(parcel: Parcel) -> str:
    """Return what a line of the delivery says, e.g. ``delivery (free from 30.00)``."""
    seller = parcel.seller
    if seller is None or seller.free_from is None:
        return "delivery"
    return f"delivery (free from {amount(seller.free_from)})"


def delivery_aside(plan: Plan) -> str:
    """Return what of the sum is for deliveries, to stand behind it; blank if nothing is."""
    if not plan.purchase.deliveries:
        return ""
    paid = money(plan.purchase.deliveries, plan.scenario.currency)
    parcels = sum(bool(parcel.delivery) for parcel in plan.purchase.parcels)
    times = "delivery" if parcels == 1 else f"{counted(parcels, 'delivery/deliveries')}"
    return f", {paid} of it for {times}"


def idle_words(plan: Plan) -> Iterator[str]:
    """Yield what is bought that the palette does not need, and why, a sentence each."""
    for parcel in plan.purchase.parcels:
        for bought in parcel.packs:
            if bought.why is not None:
                yield _surplus(bought, bought.why, parcel, plan)
        for one in parcel.sets:
            if one.idle:
                yield _in_set(one)


def _surplus(bought: BoughtPack, why: Surplus, parcel: Parcel, plan: Plan) -> str:
    """Return why packs are bought that the palette does not need."""
    name = printable(bought.tube.name)
    if bought.idle and any(planned.tube.id == bought.tube.id for planned in plan.bought):
        what = f"{counted(bought.surplus, 'pack')} of {name}, of which enough is bought without,"
    elif bought.idle:
        what = f"{counted(bought.surplus, 'pack')} of {name}, in no mix of this plan,"
    else:
        what = f"{bought.surplus} of the {bought.pack.count} packs of {name}"
    verb = "is" if bought.surplus == 1 else "are"
    what = what[:1].upper() + what[1:]
    return f"{what} {verb} bought because {_because(why, parcel, plan.scenario.currency)}."


def _because(why: Surplus, parcel: Parcel, currency: str) -> str:
    """Return a reason with the sum that matters."""
    seller = parcel.seller
    if seller is not None and why is Surplus.FREE_DELIVERY and seller.free_from is not None:
        saved = money(seller.delivery, currency)
        free = money(seller.free_from, currency)
        return f"the goods then come to {free}, from which the delivery ({saved}) is free"
    if seller is not None and why is Surplus.LEAST_ORDER:
        return f"{seller_words(parcel)} sells nothing below {money(seller.least_order, currency)}"
    return str(why)


def _in_set(one: BoughtSet) -> str:
    """Return what of a set lies idle, and why."""
    by_why: dict[Surplus, list[str]] = {}
    for tube, why in one.idle:
        by_why.setdefault(why, []).append(printable(tube.name))
    told = [
        f"{joined(names)} ({_set_why(why, several=len(names) > 1)})"
        for why, names in by_why.items()
    ]
    name = printable(one.tube_set.name)
    return f"{name[:1].upper()}{name[1:]} also holds {joined(told)}."


def _set_why(why: Surplus, *, several: bool) -> str:
    them = "them" if several else "it"
    return {
        Surplus.OWNED: f"you have {them} already: second {'ones' if several else 'one'}",
        Surplus.REFUSED: f"the wishes keep {them} out of use",
    }.get(why, f"this palette has no use for {them}")
