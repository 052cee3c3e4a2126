"""From the numbers of the cheapest purchase to what is bought where, and what of it is surplus."""

from collections.abc import Callable, Collection, Iterator, Mapping, Sequence
from typing import TYPE_CHECKING

from fewtubes.catalogue.records import Tube
from fewtubes.catalogue.sellers import TubeSet
from fewtubes.errors import DefectError
from fewtubes.selection.purchase import cheapest_purchase
from fewtubes.selection.terms import Purchase, SellerTerms
from fewtubes.shopping.bought import (
    Bought,
    BoughtPack,
    BoughtSet,
    Parcel,
    Surplus,
    by_seller_of,
)
from fewtubes.shopping.packs import Pack
from fewtubes.shopping.terms import OnSale

if TYPE_CHECKING:
    from fewtubes.shopping.question import Question

__all__ = ["bought_for", "bought_of"]


def bought_of(
    on_sale: OnSale,
    purchase: Purchase,
    palette: Sequence[int],
    *,
    tubes: Sequence[Tube],
    idle_why: Callable[[Tube], Surplus],
) -> Bought:
    """Return what a purchase buys where.

    Parameters
    ----------
    on_sale
        What stands behind the numbers of the purchase.
    purchase
        The cheapest for the palette.
    palette
        Numbers of the tubes bought, ascending.
    tubes
        By number.
    idle_why
        Why a tube that lies in a set is not of the palette.
    """
    named = {tube.id: tube for tube in tubes}
    in_palette = {tubes[number].id for number in palette}
    surplus = _surplus(on_sale, purchase, palette)
    parcels = []
    for seller, delivery in sorted(purchase.deliveries):
        packs = [
            (number, count)
            for number, count in purchase.packs
            if on_sale.terms.packs[number].seller == seller
        ]
        sets = [
            _set(on_sale.sets[number], count, in_palette, named=named, idle_why=idle_why)
            for number, count in purchase.sets
            if on_sale.terms.sets[number].seller == seller
        ]
        parcel = Parcel(on_sale.sellers[seller], (), tuple(sets), delivery)
        spent = parcel.goods + sum(on_sale.terms.packs[n].cost(count) for n, count in packs)
        bought = [
            _pack(on_sale, number, count, surplus.get(number, 0), spent=spent, tubes=tubes)
            for number, count in packs
        ]
        parcels.append(Parcel(parcel.seller, tuple(bought), parcel.sets, delivery))
    return Bought(tuple(parcels))


def _pack(
    on_sale: OnSale,
    number: int,
    count: int,
    surplus: int,
    *,
    spent: int,
    tubes: Sequence[Tube],
) -> BoughtPack:
    """Return so many of a pack, with why some are surplus; `spent` is on all goods there."""
    pack = on_sale.terms.packs[number]
    bought = Pack(on_sale.offers[number], count)
    if not surplus:
        return BoughtPack(tubes[pack.tube], bought)
    less = spent - pack.cost(count) + (pack.cost(count - surplus) if count > surplus else 0)
    why = _why(on_sale.terms.sellers[pack.seller], spent, less)
    return BoughtPack(tubes[pack.tube], bought, surplus, why)


def _why(seller: SellerTerms, spent: int, less: int) -> Surplus:
    """Return why goods of a price are bought where some of a lower price would do."""
    if less < seller.least_order <= spent:
        return Surplus.LEAST_ORDER
    free = seller.free_from
    if seller.delivery and free is not None and less < free <= spent:
        return Surplus.FREE_DELIVERY
    return Surplus.CHEAPER


def _set(
    tube_set: TubeSet,
    count: int,
    palette: Collection[str],
    *,
    named: Mapping[str, Tube],
    idle_why: Callable[[Tube], Surplus],
) -> BoughtSet:
    held = [named[id_] for id_ in tube_set.tubes]
    return BoughtSet(
        tube_set=tube_set,
        count=count,
        used=tuple(tube for tube in held if tube.id in palette),
        idle=tuple((tube, idle_why(tube)) for tube in held if tube.id not in palette),
    )


def _surplus(on_sale: OnSale, purchase: Purchase, palette: Sequence[int]) -> Mapping[int, int]:
    """Return how many of each pack, by number, the palette does not need."""
    terms = on_sale.terms
    needed = dict(zip(palette, terms.needed(tuple(palette)), strict=True))
    found: dict[int, int] = {}
    for tube in {terms.packs[number].tube for number, _ in purchase.packs}:
        mine = [(n, count) for n, count in purchase.packs if terms.packs[n].tube == tube]
        if tube not in needed:
            found.update(mine)
            continue
        containers = sum(count for _, count in mine)
        amount = sum(count * terms.packs[n].amount for n, count in mine)
        for more, held in _of_sets(on_sale, purchase, tube):
            containers += more
            amount += held
        need = needed[tube]
        for number, count in sorted(mine, key=lambda one: -terms.packs[one[0]].price):
            spare = terms.packs[number].amount
            while (
                found.get(number, 0) < count
                and containers - 1 >= need.containers
                and amount - spare >= need.amount
            ):
                found[number] = found.get(number, 0) + 1
                containers, amount = containers - 1, amount - spare
    return found


def _of_sets(on_sale: OnSale, purchase: Purchase, tube: int) -> Iterator[tuple[int, int]]:
    """Yield containers and paint of a tube that sets bring."""
    for number, count in purchase.sets:
        for held, containers, amount in on_sale.terms.sets[number].holds:
            if held == tube:
                yield count * containers, count * amount


def bought_for(question: "Question", palette: Sequence[int]) -> Bought:
    """Return what is bought where for a palette.

    Parameters
    ----------
    question
        What is asked.
    palette
        Numbers of the tubes bought, ascending, no owned ones.

    Raises
    ------
    DefectError
        If they cannot be had; no palette of an answer is such.
    """
    on_sale = question.on_sale
    if on_sale is None:
        ids = [question.tubes[number].id for number in palette]
        packs = {id_: question.packs[id_] for id_ in ids}
        return by_seller_of(question.catalogue.sellers, packs, question.catalogue.tubes)
    purchase = cheapest_purchase(on_sale.terms, tuple(palette))
    if purchase is None:
        raise DefectError(f"tubes {palette} cannot be had")
    return bought_of(
        on_sale,
        purchase,
        palette,
        tubes=question.tubes,
        idle_why=lambda tube: _idle_why(question, tube),
    )


def _idle_why(question: "Question", tube: Tube) -> Surplus:
    if tube.id in question.refused:
        return Surplus.REFUSED
    owned = tube.id in question.scenario.wishes.all_owned
    return Surplus.OWNED if owned else Surplus.NO_USE
