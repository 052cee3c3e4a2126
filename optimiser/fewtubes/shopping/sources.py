"""Where a tube is bought that comes to others, among several sellers.

It need not be where it is cheapest by itself: what counts is the cheapest purchase of all together.
"""

from collections.abc import Collection, Iterator
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from fewtubes.catalogue.records import Tube
from fewtubes.catalogue.sellers import Seller, TubeSet
from fewtubes.selection.purchase_cost import cheapest_cost
from fewtubes.selection.terms import SetOnSale, Terms
from fewtubes.shopping.terms import OnSale

if TYPE_CHECKING:
    from fewtubes.shopping.question import Question

__all__ = ["Source", "source_beside"]


@dataclass(frozen=True, eq=False)
class Source:
    """Whom a tube is bought of, or in which set."""

    seller: Seller
    tube_set: TubeSet | None = None
    """None where it is bought singly."""


def source_beside(question: "Question", tube: Tube, others: Collection[int]) -> Source | None:
    """Return where a tube is bought in the cheapest purchase of it and others.

    Parameters
    ----------
    question
        What is asked.
    tube
        One that is sold.
    others
        Numbers of tubes, bought and owned; it may be among them.

    Returns
    -------
    None where sellers are not told apart, where the tube is owned, or where no one seller and no
    one set has enough of it at that cost. Of several equally cheap the first in the price list,
    singly before in a set.
    """
    if tube.id in question.scenario.wishes.all_owned:
        return None
    if question.on_sale is None:
        return _cheapest_alone(question, tube)
    number = question.numbers[tube.id]
    palette = tuple(sorted({*others, number} - question.owned))
    sale = question.price_tags.sale_with(question.on_sale, tube)
    cost = cheapest_cost(sale.terms, palette)
    found = (
        source for source, terms in _ways(sale, number) if cheapest_cost(terms, palette) == cost
    )
    return None if cost is None else next(found, None)


def _cheapest_alone(question: "Question", tube: Tube) -> Source | None:
    """Return who sells the packs of a tube where single prices are all that matters."""
    ids = {pack.offer.seller for pack in question.packs[tube.id]}
    seller = question.catalogue.sellers.get(next(iter(ids), "")) if len(ids) == 1 else None
    return None if seller is None else Source(seller)


def _ways(sale: OnSale, tube: int) -> Iterator[tuple[Source, Terms]]:
    """Yield each way of buying a tube, by number, with the terms that leave no other."""
    terms = sale.terms
    others = tuple(pack for pack in terms.packs if pack.tube != tube)
    closed = tuple(_without(box, tube) for box in terms.sets)
    for number, seller in enumerate(sale.sellers):
        packs = tuple(p for p in terms.packs if p.tube == tube and p.seller == number)
        if seller is not None and packs:
            yield Source(seller), replace(terms, packs=(*others, *packs), sets=closed)
    for number, box in enumerate(terms.sets):
        seller = sale.sellers[box.seller]
        if seller is not None and closed[number] is not box:
            sets = (*closed[:number], box, *closed[number + 1 :])
            yield Source(seller, sale.sets[number]), replace(terms, packs=others, sets=sets)


def _without(box: SetOnSale, tube: int) -> SetOnSale:
    """Return a set as if it did not hold a tube."""
    if all(held != tube for held, _, _ in box.holds):
        return box
    return replace(box, holds=tuple(item for item in box.holds if item[0] != tube))
