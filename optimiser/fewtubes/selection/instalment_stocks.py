"""Stocks that several purchases take from: what they take, if it is too much, and less of it."""

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import replace

from fewtubes.selection.terms import Purchase, Terms

__all__ = ["Limited", "Thing", "over_stock", "taken_by", "with_less", "within_stock"]

Thing = tuple[str, int]
"""A pack or a set, by its number."""

Limited = frozenset[tuple[Thing, int]]
"""Things, and the most that is bought of each at one time."""


def within_stock(terms: Terms, purchases: Sequence[Purchase]) -> bool:
    """Return whether purchases together take no more of anything than there is."""
    return over_stock(terms, purchases) is None


def taken_by(purchase: Purchase) -> Counter[Thing]:
    """Return how many of each thing a purchase takes."""
    packs = {("pack", number): taken for number, taken in purchase.packs}
    return Counter(packs | {("set", number): taken for number, taken in purchase.sets})


def over_stock(terms: Terms, purchases: Sequence[Purchase]) -> Thing | None:
    """Return the first thing of which purchases together take more than there is."""
    taken: Counter[Thing] = Counter()
    for purchase in purchases:
        taken.update(taken_by(purchase))
    for (kind, number), sum_ in sorted(taken.items()):
        stock = terms.packs[number].stock if kind == "pack" else terms.sets[number].stock
        if stock is not None and sum_ > stock:
            return kind, number
    return None


def with_less(terms: Terms, limits: Limited) -> Terms:
    """Return terms with less in stock."""
    most: Mapping[Thing, int] = _least_of(limits)
    return replace(
        terms,
        packs=tuple(
            replace(pack, stock=most[key]) if (key := ("pack", number)) in most else pack
            for number, pack in enumerate(terms.packs)
        ),
        sets=tuple(
            replace(box, stock=most[key]) if (key := ("set", number)) in most else box
            for number, box in enumerate(terms.sets)
        ),
    )


def _least_of(limits: Limited) -> dict[Thing, int]:
    """Return the least limit of each thing."""
    least: dict[Thing, int] = {}
    for thing, most in limits:
        least[thing] = min(most, least.get(thing, most))
    return least
