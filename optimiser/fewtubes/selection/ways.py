"""The ways to buy under some terms, each with prices that add up: what lets a search be fast.

A way says from which sellers something is bought, which of them deliver free, and how many there
are of each set. What a palette costs in a way is at least what the way costs by itself, that is
sets and deliveries, and its tubes' cheapest packs for what the sets leave to be had. Every purchase
is bought in some way, so no palette costs less than in the best of them.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from itertools import product
from math import prod

import numpy as np

from fewtubes.selection.packed import IntArray
from fewtubes.selection.terms import OUT_OF_REACH, Need, SellerTerms, Terms
from fewtubes.selection.tube_packs import (
    Supply,
    cheapest_cover,
    packs_of,
    set_shares,
    useful_count,
)

__all__ = ["Ways", "ways_of"]

MOST_WAYS = 3000
"""With more, what is in sets counts as packs at a share of the price, which is no dearer; with
still more, no palette is charged for more than one delivery."""

UsedAs = tuple[int, bool]
"""A seller that something is bought from, and whether the delivery is free."""


@dataclass(frozen=True, eq=False)
class Ways:
    """Ways of buying (first axis) and what tubes cost in them.

    Parameters
    ----------
    fixed
        What a way costs by itself [hundredths of the currency], shape (ways,).
    prices
        What each tube costs in a way; `OUT_OF_REACH` if it is not to be had, shape (ways, n).
    floors
        What a purchase in a way comes to at least, shape (ways,).
    sure_from
        Cost from which that is what a purchase costs, as far as can be told by addition, shape
        (ways,); `OUT_OF_REACH` if it cannot.
    """

    fixed: IntArray
    prices: IntArray
    floors: IntArray
    sure_from: IntArray
    _within: dict[int, IntArray] = field(default_factory=dict)

    def within(self, money: int) -> IntArray:
        """Return the ways that money may be enough for, without those that gain nothing.

        Another way that is no dearer for any palette makes up for one; if it is only so because
        sums that it needs are not asked for here, its palettes are looked at all the same.
        """
        alive = np.flatnonzero(np.maximum(self.floors, self.fixed) <= money)
        count = len(alive)
        if count not in self._within:
            kept: list[int] = []
            dearness = self.prices[alive].sum(axis=1)
            for way in alive[np.lexsort((dearness, self.fixed[alive]))].tolist():
                if not (self.prices[kept] <= self.prices[way]).all(axis=1).any():
                    kept.append(way)
            self._within[count] = np.array(sorted(kept), dtype=np.int64)
        return self._within[count]


def ways_of(terms: Terms, owned: frozenset[int]) -> Ways:
    """Return all ways of buying under some terms, remembered; owned tubes cost nothing in any."""
    known = terms.worked_out.get(("ways", owned))
    if isinstance(known, Ways):
        return known
    sets = _set_counts(terms)
    sellers = _seller_choices(terms)
    if not sellers or prod(most + 1 for most in sets) * len(sellers) > MOST_WAYS:
        ways = _merged(terms, owned, sellers)
    else:
        ways = _tabled(terms, list(_lines(terms, sets, sellers)), packs_of(terms), owned)
    terms.worked_out["ways", owned] = ways
    return ways


def _lines(
    terms: Terms, sets: Sequence[int], sellers: Sequence[tuple[UsedAs, ...]]
) -> Iterator["_Line"]:
    """Yield all ways with up to so many of each set."""
    for counts in product(*(range(most + 1) for most in sets)):
        needs, spent = _beside(terms, counts)
        boxes = {box.seller for box, n in zip(terms.sets, counts, strict=True) if n}
        for used in sellers:
            if boxes <= {seller for seller, _ in used}:
                yield _Line(terms, used, spent, needs)


@dataclass(frozen=True)
class _Line:
    """One way: sellers, what is spent on sets at each, and what is still needed of each tube."""

    terms: Terms
    used: tuple[UsedAs, ...]
    spent: tuple[int, ...]
    needs: tuple[Need, ...]

    @property
    def sellers(self) -> int:
        """The sellers as bits."""
        return sum(1 << seller for seller, _ in self.used)

    @property
    def posted(self) -> int:
        """What is paid for deliveries."""
        return sum(self.terms.sellers[seller].delivery for seller, free in self.used if not free)

    @property
    def targets(self) -> list[tuple[int, int]]:
        """What the goods must come to at each seller."""
        return [(seller, _target(self.terms.sellers[seller], free)) for seller, free in self.used]

    @property
    def floor(self) -> int:
        """What a purchase comes to at least."""
        return self.posted + sum(max(target, self.spent[s]) for s, target in self.targets)

    @property
    def sure_from(self) -> int:
        """The cost that makes sure that every target is reached."""
        targets = [target for _, target in self.targets]
        if not any(targets):
            return 0
        return self.posted + targets[0] if len(targets) == 1 else OUT_OF_REACH


def _target(asked: SellerTerms, free: bool) -> int:
    return max(asked.least_order, (asked.free_from or 0) if free else 0)


def _tabled(
    terms: Terms,
    lines: Sequence[_Line],
    packs: Sequence[Sequence[Supply]],
    owned: frozenset[int],
) -> Ways:
    """Return ways as arrays."""
    known: dict[tuple[int, int, Need], int] = {}
    prices = np.zeros((len(lines), len(terms.needs)), dtype=np.int64)
    for row, line in enumerate(lines):
        sellers = line.sellers
        for tube, need in enumerate(line.needs):
            if tube in owned:
                continue
            key = tube, sellers, need
            if key not in known:
                at_hand = [s for s in packs[tube] if sellers >> s.seller & 1]
                cover = cheapest_cover(at_hand, need)
                known[key] = OUT_OF_REACH if cover is None else cover[0]
            prices[row, tube] = known[key]
    return Ways(
        fixed=np.array([line.posted + sum(line.spent) for line in lines], dtype=np.int64),
        prices=prices,
        floors=np.array([line.floor for line in lines], dtype=np.int64),
        sure_from=np.array([line.sure_from for line in lines], dtype=np.int64),
    )


def _seller_choices(terms: Terms) -> list[tuple[UsedAs, ...]]:
    """Return all choices of sellers; one who asks for nothing beside the goods is in each."""
    choices: list[tuple[UsedAs | None, ...]] = []
    for number, asked in enumerate(terms.sellers):
        here: list[UsedAs | None] = [(number, False)]
        if asked.delivery or asked.least_order:
            here.append(None)
        if asked.delivery and asked.free_from is not None:
            here.append((number, True))
        choices.append(tuple(here))
    if prod(map(len, choices)) > MOST_WAYS:
        return []
    return [tuple(used for used in chosen if used is not None) for chosen in product(*choices)]


def _set_counts(terms: Terms) -> tuple[int, ...]:
    """Return how many of each set may be of use for what is needed."""
    return tuple(
        max(
            (
                useful_count(terms.needs[t], containers=n, amount=amount, stock=box.stock)
                for t, n, amount in box.holds
            ),
            default=0,
        )
        for box in terms.sets
    )


def _beside(terms: Terms, counts: Sequence[int]) -> tuple[tuple[Need, ...], tuple[int, ...]]:
    """Return what is needed beside so many of each set, and what these cost by seller."""
    left = [[need.amount, need.containers] for need in terms.needs]
    spent = [0] * len(terms.sellers)
    for box, count in zip(terms.sets, counts, strict=True):
        spent[box.seller] += count * box.price
        for tube, containers, amount in box.holds:
            left[tube][0] -= count * amount
            left[tube][1] -= count * containers
    return tuple(Need(max(0, amount), max(0, n)) for amount, n in left), tuple(spent)


def _merged(terms: Terms, owned: frozenset[int], sellers: Sequence[tuple[UsedAs, ...]]) -> Ways:
    """Return ways in which what is in sets counts as packs at a share of the set's price."""
    packs = [list(supplies) for supplies in packs_of(terms)]
    for tube, supply in set_shares(terms, packs):
        packs[tube].append(supply)
    nothing = (0,) * len(terms.sellers)
    everywhere = tuple((seller, False) for seller in range(len(terms.sellers)))
    lines = [_Line(terms, used, nothing, terms.needs) for used in sellers or [everywhere]]
    made = _tabled(terms, lines, packs, owned)
    if sellers:
        return made
    # However many sellers there are, one of them is used, at no charge if it comes to that.
    nothing_fixed = np.zeros_like(made.fixed)
    return Ways(nothing_fixed, made.prices, nothing_fixed, made.sure_from)
