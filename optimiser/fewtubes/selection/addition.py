"""The ways to buy what a palette needs, and what addition tells of their cost.

A way of buying is: how many of each set, and at which sellers. What the sets leave to be had of
each tube comes in its cheapest packs at those sellers. The sum is exact if every seller's least
order is met; delivery is paid wherever the goods do not come to the sum that makes it free. Ways
whose sums are not reached by themselves are told, with what they cost at least.
"""

from collections.abc import Iterator
from dataclasses import dataclass, field
from itertools import product
from math import prod

from fewtubes.selection.terms import OUT_OF_REACH, Need, Terms
from fewtubes.selection.tube_packs import Supply, cheapest_cover, packs_of, useful_count

__all__ = ["Added", "AddedWay", "Addition"]

MOST_WAYS = 1 << 14
"""Ways of buying that are looked at one by one."""


@dataclass(frozen=True)
class Added:
    """What addition tells of the cost for some tubes."""

    best: int | None
    """Of purchases that reach what they must by themselves; None if there is none."""
    unmet: tuple["AddedWay", ...]
    """Ways that may be cheaper, or do at all."""
    sets: frozenset[int]
    """Those whose number is settled in each way."""

    @property
    def at_least(self) -> int:
        """What the cheapest purchase costs at least."""
        lower = [way.lower for way in self.unmet]
        return min(lower if self.best is None else [*lower, self.best], default=OUT_OF_REACH)


@dataclass(frozen=True)
class AddedWay:
    """A way of buying whose sums to be reached are not reached by themselves."""

    lower: int
    """What it costs at least."""
    left: tuple[Need, ...]
    """What the sets leave to be had of each tube."""
    sellers: int
    """As bits."""
    paid: int
    """For deliveries."""
    spent: tuple[int, ...]
    """On sets, by seller."""
    targets: tuple[int, ...]
    """What the goods must come to, by seller."""


@dataclass(frozen=True, eq=False)
class Addition:
    """Terms made ready for adding up what palettes cost."""

    terms: Terms
    packs: tuple[tuple[Supply, ...], ...]
    """Of each tube."""
    covers: dict[tuple[int, int, Need], tuple[int, tuple[tuple[int, int], ...]] | None] = field(
        default_factory=dict
    )
    """Cheapest packs by tube, sellers and need."""

    @classmethod
    def of(cls, terms: Terms) -> "Addition":
        """Return it for terms."""
        return cls(terms, packs_of(terms))

    def added(self, bought: tuple[int, ...]) -> Added | None:
        """Return what addition tells of the cost for tubes; None if there are too many ways."""
        needs = self.terms.needed(bought)
        sets = self._helpful(bought, needs)
        if prod(most + 1 for _, most in sets) << len(self.terms.sellers) > MOST_WAYS:
            return None
        best: int | None = None
        unmet: list[AddedWay] = []
        for counts in product(*(range(most + 1) for _, most in sets)):
            taken = {number: n for (number, _), n in zip(sets, counts, strict=True) if n}
            spent = self._spent(taken)
            if best is not None and sum(spent) >= best:
                continue
            left = self._left(bought, needs, taken)
            at_least = sum({1 << self.terms.sets[number].seller for number in taken})
            for cost, way in self._ways(bought, left, spent, at_least):
                if cost is not None and (best is None or cost < best):
                    best = cost
                if way is not None and (best is None or way.lower < best):
                    unmet.append(way)
        kept = (way for way in unmet if best is None or way.lower < best)
        return Added(best, tuple(kept), frozenset(number for number, _ in sets))

    def _helpful(self, bought: tuple[int, ...], needs: tuple[Need, ...]) -> list[tuple[int, int]]:
        """Return the sets that hold tubes of the palette, and how many of each may be of use."""
        need_of = dict(zip(bought, needs, strict=True))
        found = []
        for number, box in enumerate(self.terms.sets):
            most = max(
                (
                    useful_count(need_of[t], containers=containers, amount=amount, stock=box.stock)
                    for t, containers, amount in box.holds
                    if t in need_of
                ),
                default=0,
            )
            if most:
                seller = self.terms.sellers[box.seller]
                free_from = seller.free_from if seller.free_from and seller.delivery else 0
                sum_ = max(free_from, seller.least_order)
                filling = -(-sum_ // box.price) if box.price else 0
                most = max(most, filling if box.stock is None else min(filling, box.stock))
                found.append((number, most))
        return found

    def _spent(self, taken: dict[int, int]) -> tuple[int, ...]:
        """Return what so many of some sets cost, by seller."""
        spent = [0] * len(self.terms.sellers)
        for number, count in taken.items():
            box = self.terms.sets[number]
            spent[box.seller] += count * box.price
        return tuple(spent)

    def _left(
        self, bought: tuple[int, ...], needs: tuple[Need, ...], taken: dict[int, int]
    ) -> tuple[Need, ...]:
        """Return what is still needed of each tube beside some sets."""
        if not taken:
            return needs
        left = {t: [need.amount, need.containers] for t, need in zip(bought, needs, strict=True)}
        for number, count in taken.items():
            for tube, containers, amount in self.terms.sets[number].holds:
                if tube in left:
                    left[tube][0] -= count * amount
                    left[tube][1] -= count * containers
        return tuple(Need(max(0, amount), max(0, n)) for amount, n in left.values())

    def cover(
        self, tube: int, need: Need, sellers: int
    ) -> tuple[int, tuple[tuple[int, int], ...]] | None:
        """Return the cheapest packs of a tube at some sellers, and what is paid to whom."""
        key = tube, sellers, need
        if key not in self.covers:
            self.covers[key] = cheapest_cover(
                [s for s in self.packs[tube] if sellers >> s.seller & 1], need
            )
        return self.covers[key]

    def _ways(
        self,
        bought: tuple[int, ...],
        left: tuple[Need, ...],
        spent: tuple[int, ...],
        at_least: int,
    ) -> Iterator[tuple[int | None, AddedWay | None]]:
        """Yield the cost of each choice of sellers, and ways that might cost less or do at all.

        Those of the sets, `at_least`, are among the sellers.
        """
        for sellers in range(1 << len(spent)):
            if sellers & at_least != at_least:
                continue
            goods = list(spent)
            for tube, need in zip(bought, left, strict=True):
                cover = self.cover(tube, need, sellers)
                if cover is None:
                    break
                for seller, money in cover[1]:
                    goods[seller] += money
            else:
                yield from self._posted(left, spent, sellers, goods)

    def _posted(
        self, left: tuple[Need, ...], spent: tuple[int, ...], sellers: int, goods: list[int]
    ) -> Iterator[tuple[int | None, AddedWay | None]]:
        """Yield the same for one choice of sellers; what `goods` come to at each is cheapest."""
        chosen = [s for s in range(len(spent)) if sellers >> s & 1]
        asked = [self.terms.sellers[s] for s in chosen]
        served = all(goods[s] >= one.least_order for s, one in zip(chosen, asked, strict=True))
        posted = sum(
            one.delivery
            for s, one in zip(chosen, asked, strict=True)
            if one.free_from is None or goods[s] < one.free_from
        )
        yield (sum(goods) + posted if served else None), None
        choices = [(False, True) if one.free_from is not None and one.delivery else (False,)
                   for one in asked]  # fmt: skip
        for free in product(*choices):
            targets = [0] * len(spent)
            for s, one, without_charge in zip(chosen, asked, free, strict=True):
                least = (one.free_from or 0) if without_charge else 0
                targets[s] = max(least, one.least_order)
            if all(have >= target for have, target in zip(goods, targets, strict=True)):
                continue  # reached as it is
            paid = sum(one.delivery for one, no in zip(asked, free, strict=True) if not no)
            reached = sum(max(t, money) for t, money in zip(targets, spent, strict=True))
            lower = paid + max(sum(goods), reached)
            yield None, AddedWay(lower, left, sellers, paid, spent, tuple(targets))
