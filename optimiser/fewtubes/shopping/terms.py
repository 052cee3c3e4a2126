"""What is on sale for a question, and whether more than single prices matter.

Packs and sets of the catalogue become the whole numbers of `fewtubes.selection.terms.Terms`; what
stands behind each number is kept beside them (`OnSale`). Left out is what is sold in another
currency, packs of tubes that the wishes refuse, and sets that hold a hazard to be avoided. Packs of
tubes that are owned, or of which there is too little, are of no use, but to reach a least order or
free delivery they are goods like others.
"""

from collections.abc import Callable, Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from fewtubes.catalogue.records import Catalogue, Offer, Tube
from fewtubes.catalogue.sellers import Seller, TubeSet
from fewtubes.scenario.records import Scenario
from fewtubes.selection.terms import Need, PackOnSale, SellerTerms, SetOnSale, Terms
from fewtubes.shopping.needs import thousandths

__all__ = [
    "NeedsOf",
    "OnSale",
    "on_sale",
    "sets_to_be_had",
    "terms_for",
    "terms_without",
    "too_little",
    "without_charges",
]

NeedsOf = Callable[[tuple[int, ...]], tuple[Need, ...]]
"""What is needed of each tube bought with these, by number; see `Terms.needs_of`."""


@dataclass(frozen=True, eq=False)
class OnSale:
    """Terms, and what stands behind their numbers."""

    terms: Terms
    sellers: tuple[Seller | None, ...]
    """By number; None for packs and sets of no seller, which are bought without any charge."""
    offers: tuple[Offer, ...]
    """Of each pack, by number."""
    sets: tuple[TubeSet, ...]
    """By number."""


def terms_for(
    catalogue: Catalogue,
    scenario: Scenario,
    *,
    refused: Collection[str],
    unwanted: Collection[str],
    needs: Sequence[Need],
    needs_of: NeedsOf | None = None,
) -> OnSale | None:
    """Return what is on sale; None where each tube has a price of its own and no more matters.

    Parameters
    ----------
    catalogue, scenario
        Packs, sets and sellers; the currency and the wishes.
    refused
        Ids of the tubes that are not used.
    unwanted
        Those of them that are not bought even to reach a least order: what the wishes refuse.
    needs
        For each tube the least that is needed of it.
    needs_of
        What is needed of each tube beside others; None where `needs` is all.
    """
    idle = {*refused, *scenario.wishes.all_owned}
    usual = thousandths(scenario.wishes.millilitres)
    found = on_sale(catalogue, scenario, left_out=idle, needs=needs, needs_of=needs_of)
    if not _matter(found.terms, Need(usual)):
        return None
    return on_sale(
        catalogue, scenario, left_out=unwanted, idle=idle, needs=needs, needs_of=needs_of
    )


def on_sale(
    catalogue: Catalogue,
    scenario: Scenario,
    *,
    left_out: Collection[str],
    idle: Collection[str] = (),
    needs: Sequence[Need],
    needs_of: NeedsOf | None = None,
) -> OnSale:
    """Return what is on sale, whether or not more than single prices matter.

    Parameters
    ----------
    catalogue, scenario, needs, needs_of
        As of `terms_for`.
    left_out
        Ids of tubes that are not bought: no pack of them is on sale.
    idle
        Ids of further tubes that are of no use: their packs are on sale, but there is no set of
        such alone, and other sets hold nothing of them.
    """
    currency, useless = scenario.currency, {*left_out, *idle}
    numbers = {id_: number for number, id_ in enumerate(catalogue.tubes)}
    packs = [
        (numbers[tube.id], offer)
        for tube in catalogue.tubes.values()
        if tube.id not in left_out
        for offer in tube.offers
        if offer.currency == currency and offer.stock != 0
    ]
    sets = [
        tube_set
        for tube_set in sets_to_be_had(catalogue, scenario)
        if not useless.issuperset(tube_set.tubes)
    ]
    ids = [offer.seller for _, offer in packs] + [tube_set.seller for tube_set in sets]
    sellers = {id_: number for number, id_ in enumerate(_in_order(catalogue, ids))}
    named = tuple(catalogue.sellers.get(id_) for id_ in sellers)
    return OnSale(
        terms=Terms(
            sellers=tuple(map(_seller_terms, named)),
            packs=tuple(_pack(number, offer, sellers) for number, offer in packs),
            sets=tuple(_set(one, numbers, sellers, useless) for one in sets),
            needs=tuple(needs),
            needs_of=needs_of,
        ),
        sellers=named,
        offers=tuple(offer for _, offer in packs),
        sets=tuple(sets),
    )


def sets_to_be_had(catalogue: Catalogue, scenario: Scenario) -> Iterator[TubeSet]:
    """Yield the sets in the currency that are in stock and hold no hazard to be avoided."""
    avoided = set(scenario.wishes.avoid_hazards)
    for tube_set in catalogue.sets.values():
        held = (catalogue.tubes[id_] for id_ in tube_set.tubes)
        if (
            tube_set.currency == scenario.currency
            and tube_set.stock != 0
            and avoided.isdisjoint(hazard for tube in held for hazard in tube.hazards)
        ):
            yield tube_set


def too_little(tube: Tube, sets: Sequence[TubeSet], currency: str, need: Need) -> bool:
    """Return whether all that is in stock of a tube is less than is needed of it.

    Parameters
    ----------
    tube
        With its packs.
    sets
        Those that could be bought.
    currency
        ISO 4217 code.
    need
        The least that is needed.
    """
    held = [
        (offer.stock, 1, thousandths(offer.ml))
        for offer in tube.offers
        if offer.currency == currency
    ]
    held += [
        (tube_set.stock, pack.count, pack.count * thousandths(pack.ml))
        for tube_set in sets
        for pack in tube_set.packs
        if pack.tube == tube.id
    ]
    if any(stock is None for stock, _, _ in held):
        return False
    containers = sum((stock or 0) * count for stock, count, _ in held)
    amount = sum((stock or 0) * paint for stock, _, paint in held)
    return containers < need.containers or amount < need.amount


def without_charges(terms: Terms) -> Terms:
    """Return the terms of sellers that ask for the goods alone: no delivery, no least order."""
    return replace(terms, sellers=(SellerTerms(),) * len(terms.sellers))


def terms_without(terms: Terms, tubes: Collection[int]) -> Terms:
    """Return terms in which some tubes, by number, are not to be had.

    A set that holds one stays as long as it holds any other: that one is of no use then.
    """
    if not tubes:
        return terms
    left_out = set(tubes)
    return replace(
        terms,
        packs=tuple(pack for pack in terms.packs if pack.tube not in left_out),
        sets=tuple(
            replace(box, holds=kept)
            for box in terms.sets
            if (kept := tuple(held for held in box.holds if held[0] not in left_out))
        ),
    )


def _matter(terms: Terms, usual: Need) -> bool:
    """Return whether a palette may cost anything else than the sum of its tubes' cheapest packs."""
    charged = any(seller.delivery or seller.least_order for seller in terms.sellers)
    needed = terms.needs_of is not None or any(need != usual for need in terms.needs)
    return bool(charged or needed or terms.sets or any(_binds(p, usual) for p in terms.packs))


def _binds(pack: PackOnSale, usual: Need) -> bool:
    """Return whether stock, or the price of two or more, may decide what is bought of a pack."""
    scarce = pack.stock is not None and pack.stock * pack.amount < usual.amount
    if pack.price_of_more is None:
        return scarce
    return scarce or pack.amount < usual.amount or 2 * pack.price_of_more <= pack.price


def _in_order(catalogue: Catalogue, ids: Collection[str]) -> list[str]:
    """Return sellers' ids in the order of the catalogue, no seller last."""
    return [id_ for id_ in (*catalogue.sellers, "") if id_ in set(ids)]


def _seller_terms(seller: Seller | None) -> SellerTerms:
    if seller is None:
        return SellerTerms()
    return SellerTerms(seller.delivery, seller.free_from, seller.least_order)


def _pack(tube: int, offer: Offer, sellers: Mapping[str, int]) -> PackOnSale:
    return PackOnSale(
        tube=tube,
        seller=sellers[offer.seller],
        amount=thousandths(offer.ml),
        price=offer.price,
        price_of_more=offer.price_of_more,
        stock=offer.stock,
    )


def _set(
    tube_set: TubeSet,
    numbers: Mapping[str, int],
    sellers: Mapping[str, int],
    useless: Collection[str],
) -> SetOnSale:
    """Return a set as what it brings: of tubes that are of no use it holds nothing."""
    held: dict[int, tuple[int, int]] = {}
    for pack in tube_set.packs:
        if pack.tube in useless:
            continue
        containers, amount = held.get(numbers[pack.tube], (0, 0))
        more = pack.count * thousandths(pack.ml)
        held[numbers[pack.tube]] = (containers + pack.count, amount + more)
    return SetOnSale(
        seller=sellers[tube_set.seller],
        price=tube_set.price,
        holds=tuple((tube, *held[tube]) for tube in sorted(held)),
        stock=tube_set.stock,
    )
