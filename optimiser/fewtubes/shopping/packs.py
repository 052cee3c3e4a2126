"""The cheapest packs of a tube that hold the paint needed."""

import heapq
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass

from fewtubes.catalogue.records import Offer, Tube

__all__ = ["Pack", "cheapest_packs"]


@dataclass(frozen=True)
class Pack:
    """So many packs of one offer."""

    offer: Offer
    """Content, price and currency of one pack."""
    count: int
    """How many of it to buy, at least 1."""

    @property
    def each(self) -> int:
        """Price of each, by how many are bought [hundredths of the currency]."""
        more = self.offer.price_of_more
        return self.offer.price if self.count < 2 or more is None else more

    @property
    def cost(self) -> int:
        """Price of all of them [hundredths of the currency]."""
        return self.count * self.each


def cheapest_packs(tube: Tube, *, currency: str, millilitres: float) -> tuple[Pack, ...]:
    """Return the packs to buy, smallest first; at least one, holding at least `millilitres` [ml].

    Of equal prices the one that holds more is taken. Empty if the tube has no offer in the
    currency, or all are sold out; stock and prices of two or more are not looked at otherwise.
    Packs are added in the order of their price (Dijkstra), and a set of packs that holds no more
    than a cheaper one is dropped.
    """
    offers = [offer for offer in tube.offers if offer.currency == currency and offer.stock != 0]
    waiting: list[tuple[int, float, tuple[int, ...]]] = [(0, 0.0, ())]
    most_held = -1.0
    while waiting:
        cost, emptiness, chosen = heapq.heappop(waiting)
        held = -emptiness
        if chosen and held >= millilitres:
            return _packs(offers, chosen)
        if held <= most_held:
            continue
        most_held = held
        for number, offer in enumerate(offers):
            if not chosen or number >= chosen[-1]:
                more = (*chosen, number)
                heapq.heappush(waiting, (cost + offer.price, -(held + offer.ml), more))
    return ()


def _packs(offers: Sequence[Offer], chosen: Sequence[int]) -> tuple[Pack, ...]:
    """Return how many packs of each offer were chosen."""
    counted = Counter(chosen)
    packs = (Pack(offers[number], count) for number, count in counted.items())
    return tuple(sorted(packs, key=lambda pack: pack.offer.ml))
