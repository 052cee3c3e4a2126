"""What the cheapest purchase for a palette costs, by addition wherever that is exact.

A way of buying is: how many of each set, and at which sellers. What the sets leave to be had of
each tube comes in its cheapest packs at those sellers. The sum is exact if every seller's least
order is met; delivery is paid wherever the goods do not come to the sum that makes it free. Only if
a purchase that is made to reach such sums could be cheaper than the best found, that is looked for
(`fewtubes.selection.topping_up`). Where there are too many ways, an integer program counts the cost
instead (`fewtubes.selection.purchase_program`).
"""

from collections.abc import Iterator
from dataclasses import dataclass, field
from itertools import product
from math import prod

from fewtubes.selection.purchase_program import solved_cost
from fewtubes.selection.terms import OUT_OF_REACH, Need, Terms
from fewtubes.selection.topping_up import TooManyError, cheapest_topped_up
from fewtubes.selection.tube_packs import Supply, cheapest_cover, packs_of, useful_count

__all__ = ["cheapest_cost", "cost_within"]

MOST_WAYS = 1 << 14
"""Ways of buying that are looked at one by one."""

Costs = dict[tuple[int, ...], int | None]


def cheapest_cost(terms: Terms, bought: tuple[int, ...]) -> int | None:
    """Return what the cheapest purchase for tubes costs, deliveries included; it is remembered.

    Parameters
    ----------
    terms
        What is on sale.
    bought
        Tubes, ascending.

    Returns
    -------
    Hundredths of the currency; None if what is needed cannot be had.
    """
    return _till(terms).cost(bought) if bought else 0


def cost_within(terms: Terms, bought: tuple[int, ...], money: int) -> int | None:
    """Return what `cheapest_cost` does if it is no more than some money, else None.

    That it is more is mostly seen at once.
    """
    if not bought:
        return 0 if money >= 0 else None
    return _till(terms).cost_within(bought, money)


def _till(terms: Terms) -> "_Till":
    """Return the terms made ready; made once."""
    known = terms.worked_out.get("till")
    if isinstance(known, _Till):
        return known
    till = _Till(terms)
    terms.worked_out["till"] = till
    return till


@dataclass(frozen=True)
class _Begun:
    """What addition tells of the cost for some tubes."""

    best: int | None
    """Of purchases that reach what they must by themselves; None if there is none."""
    unmet: tuple["_Way", ...]
    """Ways that may be cheaper, or do at all."""
    sets: frozenset[int]
    """Those whose number is settled in each way."""

    @property
    def at_least(self) -> int:
        """What the cheapest purchase costs at least."""
        lower = [way.lower for way in self.unmet]
        return min(lower if self.best is None else [*lower, self.best], default=OUT_OF_REACH)


@dataclass(frozen=True)
class _Way:
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


@dataclass(eq=False)
class _Till:
    """Terms made ready, and the costs counted so far."""

    terms: Terms
    costs: Costs = field(default_factory=dict)
    begun: dict[tuple[int, ...], _Begun | None] = field(default_factory=dict)
    """Costs begun to be counted; None where there are too many ways."""
    beyond: dict[tuple[int, ...], int] = field(default_factory=dict)
    """What tubes cost at least, as far as counting them in vain has told."""
    packs: tuple[tuple[Supply, ...], ...] = field(init=False)
    covers: dict[tuple[int, int, Need], tuple[int, tuple[tuple[int, int], ...]] | None] = field(
        default_factory=dict
    )

    def __post_init__(self) -> None:
        self.packs = packs_of(self.terms)

    def cost(self, bought: tuple[int, ...]) -> int | None:
        """Return the cost for tubes."""
        if bought not in self.costs:
            self.costs[bought] = self._counted(bought)
        return self.costs[bought]

    def cost_within(self, bought: tuple[int, ...], money: int) -> int | None:
        """Return the cost if it is no more than some money."""
        if bought in self.costs:
            cost = self.costs[bought]
            return None if cost is None or cost > money else cost
        if max(self.at_least(bought), self.beyond.get(bought, 0)) > money:
            return None
        cost = self._counted(bought, money)
        if cost is None or cost > money:
            self.beyond[bought] = money + 1
            return None
        self.costs[bought] = cost
        return cost

    def at_least(self, bought: tuple[int, ...]) -> int:
        """Return what tubes cost at least, as far as addition tells."""
        if bought in self.costs:
            cost = self.costs[bought]
            return OUT_OF_REACH if cost is None else cost
        if bought not in self.begun:
            self.begun[bought] = self._begin(bought)
        begun = self.begun[bought]
        return 0 if begun is None else begun.at_least

    def _counted(self, bought: tuple[int, ...], money: int | None = None) -> int | None:
        """Return the cost, or where it is more than some money, anything more or None."""
        if bought not in self.begun:
            self.begun[bought] = self._begin(bought)
        begun = self.begun[bought]
        try:
            if begun is not None:
                return self._topped_up(bought, begun, money)
        except TooManyError:
            pass
        return solved_cost(self.terms, bought, self.terms.needed(bought))

    def _begin(self, bought: tuple[int, ...]) -> _Begun | None:
        needs = self.terms.needed(bought)
        sets = self._helpful(bought, needs)
        if prod(most + 1 for _, most in sets) << len(self.terms.sellers) > MOST_WAYS:
            return None
        best: int | None = None
        unmet: list[_Way] = []
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
        return _Begun(best, tuple(kept), frozenset(number for number, _ in sets))

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

    def _cover(
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
    ) -> Iterator[tuple[int | None, _Way | None]]:
        """Yield the cost of each choice of sellers, and ways that might cost less or do at all.

        Those of the sets, `at_least`, are among the sellers.
        """
        for sellers in range(1 << len(spent)):
            if sellers & at_least != at_least:
                continue
            goods = list(spent)
            for tube, need in zip(bought, left, strict=True):
                cover = self._cover(tube, need, sellers)
                if cover is None:
                    break
                for seller, money in cover[1]:
                    goods[seller] += money
            else:
                yield from self._posted(left, spent, sellers, goods)

    def _posted(
        self, left: tuple[Need, ...], spent: tuple[int, ...], sellers: int, goods: list[int]
    ) -> Iterator[tuple[int | None, _Way | None]]:
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
            yield None, _Way(lower, left, sellers, paid, spent, tuple(targets))

    def _topped_up(self, bought: tuple[int, ...], begun: _Begun, money: int | None) -> int | None:
        """Return the least cost, with ways tried that are made to reach the sums they need."""
        best = begun.best
        if money is not None and (best is None or best > money):
            best = money + 1  # what is no cheaper is not looked for
        for way in sorted(begun.unmet, key=lambda way: way.lower):
            if best is not None and way.lower >= best:
                break
            found = cheapest_topped_up(
                self.terms,
                [
                    (need, [s for s in self.packs[tube] if way.sellers >> s.seller & 1])
                    for tube, need in zip(bought, way.left, strict=True)
                ],
                spent=way.spent,
                targets=way.targets,
                least=[
                    self._least(tube, need, way)
                    for tube, need in zip(bought, way.left, strict=True)
                ],
                most=None if best is None else best - 1 - way.paid,
                beside=(frozenset(bought), begun.sets),
            )
            if found is not None:
                best = found + way.paid
        return best

    def _least(self, tube: int, need: Need, way: _Way) -> int:
        cover = self._cover(tube, need, way.sellers)
        assert cover is not None  # noqa: S101  # the way is one of those that supply it
        return cover[0]
