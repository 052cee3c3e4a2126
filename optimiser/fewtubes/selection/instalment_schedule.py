"""When to buy what under sellers' terms, so that each tube is there by the time it is wanted.

Each time's purchase is one of its own: of the tubes that are new at that time it brings all that is
needed, with its own deliveries, least orders and sets, from the stock that is left. A tube may be
bought sooner than it is wanted, since a delivery that is paid for anyway, or a set, may bring it
for less.

Notes
-----
By time, and by the tubes that are there then, only what was spent by then matters for what is to
come, apart from stocks; so the least of it is kept, and of equals the schedule that ranks first.
Stocks are left out of account between times at first, which only makes schedules cheaper or
possible. Where the cheapest purchases together take more of a thing than there is, in every
schedule within the stock one of these times takes at least one less of it than it does here: each
such limit is tried, the schedule that ranks first first. A limit never lets a schedule rank better,
so the first that is within the stock is the best.
"""

import heapq
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from itertools import count
from math import inf
from time import monotonic

import numpy as np

from fewtubes.selection.instalment_stocks import (
    Limited,
    Thing,
    over_stock,
    taken_by,
    with_less,
)
from fewtubes.selection.purchase import cheapest_purchase
from fewtubes.selection.purchase_cost import cost_within
from fewtubes.selection.terms import OUT_OF_REACH, Purchase, Terms
from fewtubes.selection.ways import Ways, ways_of

__all__ = ["Key", "Schedule", "Schedules", "TooManySchedulesError"]

MOST_LIMITS = 500
"""Limits on what one time takes of a stock that are tried; with more it is given up."""

MOST_PARTED = 20_000
"""Choices of tubes to have by one time that are followed; with more there are too many ways to part
them among the times."""

Tubes = tuple[int, ...]

Limits = frozenset[tuple[int, Thing, int]]
"""Time, thing, and the most that is bought of it then."""

Key = tuple[int, tuple[int, ...], tuple[Tubes, ...]]
"""Spent in all; spent by each time; bought by each time."""


class TooManySchedulesError(Exception):
    """There are too many ways to part tubes, or stocks, among the times, or too little time."""


@dataclass(frozen=True)
class Schedule:
    """What is bought when."""

    path: tuple[Tubes, ...]
    """Tubes bought up to each time, ascending."""
    costs: tuple[int, ...]
    """Spent up to each time [hundredths of the currency]."""
    purchases: tuple[Purchase, ...]
    """Of each time."""


@dataclass(eq=False)
class Schedules:
    """Terms and money, and the schedules looked for so far."""

    terms: Terms
    money: tuple[int, ...]
    """What may have been spent up to each time [hundredths of the currency], ascending."""
    deadline: float = inf
    """Value of `time.monotonic` from which stocks are no more parted among times."""
    keys: dict[tuple[Tubes, ...], Key | None] = field(default_factory=dict)
    costs: dict[tuple[Limited, Tubes], int] = field(default_factory=dict)
    """What purchases cost at a time with its limits, as far as that is counted."""
    bounds: dict[Tubes, int] = field(default_factory=dict)
    """What they cost at least."""
    limited: dict[Limited, Terms] = field(default_factory=dict)
    ways: Ways = field(init=False)

    def __post_init__(self) -> None:
        self.ways = ways_of(self.terms, frozenset())

    def waiting(self, tubes: Tubes) -> Schedule:
        """Return the schedule that buys everything at the last time; the money must be enough."""
        purchase, nothing = cheapest_purchase(self.terms, tubes), cheapest_purchase(self.terms, ())
        assert purchase is not None  # noqa: S101  # the money is enough for them
        assert nothing is not None  # noqa: S101  # as every purchase of nothing
        sooner = len(self.money) - 1
        return Schedule(
            (*[()] * sooner, tubes), (*[0] * sooner, purchase.cost), (*[nothing] * sooner, purchase)
        )

    def outlook(self, wanted: tuple[Tubes, ...]) -> Key | None:
        """Return the figures of the best schedule if stocks were full at each time.

        No schedule ranks before it; None if there is none, and then there is none at all.

        Parameters
        ----------
        wanted
            Tubes wanted from each time on, ascending, each holding those before; for the first
            times only, if there are fewer of them.

        Raises
        ------
        TooManySchedulesError
            If there are too many ways to part them.
        """
        if wanted not in self.keys:
            self.keys[wanted] = self._key(wanted, frozenset())
        return self.keys[wanted]

    def best(self, wanted: tuple[Tubes, ...]) -> Schedule | None:
        """Return the schedule that ranks first; None if there is none.

        The rank is spent in all, then by each time, the first first, then the tubes' numbers.

        Raises
        ------
        TooManySchedulesError
            If there are too many ways to part tubes or stocks.
        """
        first = self.outlook(wanted)
        if first is None:
            return None
        serial = count()
        none: Limits = frozenset()
        waiting = [(first, next(serial), none)]
        tried = {none}
        while waiting:
            key, _, limits = heapq.heappop(waiting)
            purchases = self._purchases(key, limits)
            over = over_stock(self.terms, purchases)
            if over is None:
                return Schedule(key[2], key[1], purchases)
            for time, taken in enumerate(taken_by(purchase)[over] for purchase in purchases):
                less = limits | {(time, over, taken - 1)}
                if not taken or less in tried:
                    continue
                tried.add(less)
                if len(tried) > MOST_LIMITS or monotonic() > self.deadline:
                    raise TooManySchedulesError
                found = self._key(wanted, less)
                if found is not None:
                    heapq.heappush(waiting, (found, next(serial), less))
        return None

    def _key(self, wanted: tuple[Tubes, ...], limits: Limits) -> Key | None:
        """Return the figures of the best schedule within limits of each time by itself.

        What purchases cost is counted only where it matters: the best schedule by bounds on the
        costs is the best of all once what it buys costs just that.
        """
        mine = [_of_time(limits, time) for time in range(len(wanted))]
        while True:
            key = self._best_by_bounds(wanted, mine)
            if key is None:
                return None
            asked = {
                (limit, new)
                for limit, new in zip(mine, _new(key[2]), strict=True)
                if new and (limit, new) not in self.costs
            }
            if not asked:
                return key
            for limit, new in asked:
                cost = cost_within(self._terms(limit), new, self.money[-1])
                self.costs[limit, new] = OUT_OF_REACH if cost is None else cost

    def _best_by_bounds(self, wanted: tuple[Tubes, ...], limits: Sequence[Limited]) -> Key | None:
        """Return the figures of the best schedule where costs not counted yet are bounds."""
        every = wanted[-1]
        there: dict[Tubes, Key] = {(): (0, (), ())}
        for time, (now, limit) in enumerate(zip(wanted, limits, strict=True)):
            longer: dict[Tubes, Key] = {}
            for held, (spent, paid, path) in there.items():
                must = tuple(tube for tube in now if tube not in held)
                later = tuple(tube for tube in every if tube not in held and tube not in now)
                left = self.money[time] - spent
                for new, cost in self._within(must, later, left, limit):
                    then = tuple(sorted((*held, *new)))
                    key = spent + cost, (*paid, spent + cost), (*path, then)
                    if then not in longer or key < longer[then]:
                        longer[then] = key
                if len(longer) > MOST_PARTED:
                    raise TooManySchedulesError
            there = longer
        return there.get(every)

    def _within(
        self, must: Tubes, later: Tubes, money: int, limit: Limited
    ) -> Iterator[tuple[Tubes, int]]:
        """Yield tubes with each choice of others, and what they cost, where that is within money.

        With more tubes nothing costs less, so once it is too much no more are added.
        """
        waiting = [(must, 0)]
        while waiting:
            new, place = waiting.pop()
            cost = self.at_least(new, limit)
            if cost > money:
                continue
            yield new, cost
            waiting += [
                (tuple(sorted((*new, tube))), number)
                for number, tube in enumerate(later[place:], start=place + 1)
            ]

    def at_least(self, new: Tubes, limit: Limited = frozenset()) -> int:
        """Return what the purchase of tubes costs, if that is counted, or else at least."""
        if not new:
            return 0
        known = self.costs.get((limit, new))
        if known is None and (known := self.bounds.get(new)) is None:
            sums = self.ways.fixed + self.ways.prices[:, list(new)].sum(axis=1)
            known = self.bounds[new] = int(np.maximum(sums, self.ways.floors).min())
        return known

    def _terms(self, limit: Limited) -> Terms:
        """Return the terms of a time with its limits."""
        if not limit:
            return self.terms
        if limit not in self.limited:
            self.limited[limit] = with_less(self.terms, limit)
        return self.limited[limit]

    def _purchases(self, key: Key, limits: Limits) -> tuple[Purchase, ...]:
        """Return the cheapest purchase of each time of a schedule."""
        found = []
        for time, new in enumerate(_new(key[2])):
            purchase = cheapest_purchase(self._terms(_of_time(limits, time)), new)
            assert purchase is not None  # noqa: S101  # its cost was counted
            found.append(purchase)
        return tuple(found)


def _of_time(limits: Limits, time: int) -> Limited:
    return frozenset((thing, most) for when, thing, most in limits if when == time)


def _new(path: tuple[Tubes, ...]) -> Iterator[Tubes]:
    """Yield the tubes that are new at each time."""
    held: Tubes = ()
    for then in path:
        yield tuple(tube for tube in then if tube not in held)
        held = then
