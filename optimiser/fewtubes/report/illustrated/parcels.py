"""The shopping list of the illustrated report by seller: packs, sets, goods, delivery, the sum."""

from collections.abc import Sequence
from dataclasses import dataclass

from markupsafe import Markup

from fewtubes.catalogue.records import Tube
from fewtubes.report.illustrated.basis import Basis
from fewtubes.report.illustrated.markup import fill
from fewtubes.report.sentences.palette import nothing_words
from fewtubes.report.sentences.purchase import (
    idle_words,
    packs_of_set,
    seller_words,
    set_words,
)
from fewtubes.report.sentences.sold_out import sold_out_words
from fewtubes.shopping.bought import BoughtPack, Parcel
from fewtubes.shopping.list_lines import LineKind, ListLine, lines_of
from fewtubes.shopping.plan import Plan
from fewtubes.words.counting import counted
from fewtubes.words.lightfastness import LIGHTFASTNESS_WORDS
from fewtubes.words.lists import joined
from fewtubes.words.money import amount, money
from fewtubes.words.printable import printable
from fewtubes.words.tubes import codes_words
from fewtubes.words.unparted import unparted

__all__ = ["packs_in_all", "parcels_table"]


NO_DAB = Markup()
"""Of a set, which has as many colours as tubes."""


@dataclass(frozen=True)
class _Line:
    """A line of a seller's list, as in `parcels.html`."""

    name: str
    dab: Markup = NO_DAB
    codes: str = ""
    grade: str = ""
    lasts: str = ""
    packs: str = ""
    price: str = ""
    in_set: bool = False
    """Whether it lies in the set above it."""
    spare: str = ""
    """That, and how much of it, the palette does not need; blank if it does."""
    sold_out: str = ""
    """What to take if it is sold out; blank if that was not looked for."""


@dataclass(frozen=True)
class _Parcel:
    """What is bought of one seller."""

    seller: str
    lines: Sequence[_Line]
    goods: str
    """Price of packs and sets; blank where it is the sum as well."""
    delivery: str
    """What the delivery is, in words; blank where none is charged for."""
    charge: str
    together: str


def parcels_table(basis: Basis) -> Markup:
    """Return the table of what to buy, a part for each seller."""
    plan = basis.plan
    return fill(
        "parcels.html",
        nothing="" if plan.bought else nothing_words(plan),
        currency=plan.scenario.currency,
        parcels=[_parcel(basis, parcel) for parcel in plan.purchase.parcels],
        packs=packs_in_all(plan),
        total=amount(plan.cost),
        idle=[*idle_words(plan)],
    )


def packs_in_all(plan: Plan) -> str:
    """Return how many packs are bought, and how many sets besides."""
    if not plan.purchase.by_seller:
        return counted(sum(pack.count for tube in plan.bought for pack in tube.packs), "pack")
    parcels = plan.purchase.parcels
    packs = sum(one.pack.count for parcel in parcels for one in parcel.packs)
    sets = sum(one.count for parcel in parcels for one in parcel.sets)
    told = [counted(packs, "pack")] if packs or not sets else []
    return joined([*told, *([counted(sets, "set")] if sets else [])])


def _parcel(basis: Basis, parcel: Parcel) -> _Parcel:
    lines = [line for line in lines_of(basis.plan, parcel) if line.kind is not LineKind.DELIVERY]
    return _Parcel(
        seller=seller_words(parcel),
        lines=[_line(basis, line) for line in lines],
        goods=amount(parcel.goods) if parcel.delivery else "",
        delivery=_delivery(parcel, basis.plan.scenario.currency),
        charge=amount(parcel.delivery),
        together=amount(parcel.cost),
    )


def _delivery(parcel: Parcel, currency: str) -> str:
    """Return what is charged for the delivery and why, or why nothing is; blank where none is."""
    seller = parcel.seller
    if seller is None or not (parcel.delivery or parcel.delivered_free):
        return ""
    said = "Delivery"
    if seller.free_from is not None:
        said = f"{said}, free from {money(seller.free_from, currency)}"
    if parcel.delivered_free:
        saved = money(seller.delivery, currency)
        return f"{said}: the goods come to {money(parcel.goods, currency)}, so {saved} is saved"
    if seller.free_from is not None:
        return f"{said}: {money(seller.free_from - parcel.goods, currency)} short of it"
    return said


def _line(basis: Basis, line: ListLine) -> _Line:
    """Return the line of a pack, a set or a tube in a set."""
    price = "" if line.price is None else amount(line.price)
    bought = line.set_bought
    if line.tube is None:
        sets = "" if bought is None else counted(bought.count, "set")
        name = "" if bought is None else set_words(bought)
        return _Line(name[:1].upper() + name[1:], packs=sets, price=price)
    tube, in_set = line.tube, line.kind is LineKind.IN_SET
    packs = ""
    if line.pack is not None:
        packs = _packs([(line.pack.pack.count, line.pack.pack.offer.ml)])
    elif bought is not None:
        packs = _packs(packs_of_set(bought, tube.id))
    return _Line(
        name=printable(tube.name),
        dab=basis.dabs([tube]),
        codes=codes_words(tube),
        grade=tube.lightfastness.name,
        lasts=LIGHTFASTNESS_WORDS[tube.lightfastness],
        packs=packs,
        price=price,
        in_set=in_set,
        spare=_spare(line.pack, idle=line.planned is None),
        sold_out="" if in_set or line.planned is None else _sold_out(basis, tube),
    )


def _spare(pack: BoughtPack | None, *, idle: bool) -> str:
    """Return how much of a line the palette does not need; blank if it needs all of it."""
    if idle:
        return "not needed"
    return f"{pack.surplus} of them not needed" if pack is not None and pack.surplus else ""


def _packs(packs: Sequence[tuple[int, float]]) -> str:
    """Return packs in words, e.g. ``1 × 5 ml``, each kept on one line."""
    return joined([unparted(f"{count} × {ml:g} ml") for count, ml in packs])


def _sold_out(basis: Basis, tube: Tube) -> str:
    found = (item for item in basis.sold_out if item.tube.id == tube.id)
    return next((sold_out_words(item, basis.plan) for item in found), "")
