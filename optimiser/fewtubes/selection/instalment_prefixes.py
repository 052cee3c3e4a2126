"""Beginnings of orders of buying: how they go on, and what they can still come to.

An order of buying is made time by time. What is held up to some time is its beginning. Two things
keep their number small without a loss. Among beginnings that hold the same tubes only the best goes
on. And a tube is bought only when it is of use at once: bought later, where it is, it leaves all
values as they are and money in the purse; where it never is, it is not bought at all.
"""

from collections.abc import Hashable, Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from itertools import groupby

import numpy as np

from fewtubes.masks import BoolArray
from fewtubes.selection.explore import GoalVisitor, explore_all
from fewtubes.selection.instalments import BuyingOrder, InstalmentInstance
from fewtubes.selection.packed import IntArray
from fewtubes.selection.search_state import Goal, SearchState

__all__ = ["Found", "Prefix", "Prefixes", "StoppedError"]

MOST_PREFIXES = 200_000
"""Beginnings of one length that are followed; some 200 MB. With more the search gives up."""

GOALS_AT_ONCE = 256
"""Beginnings that one exploration goes on from."""

MANY_WAYS = 64
"""Ways to buy from which on fewer are taken at once, since each is sought in each way."""

ROWS_AT_ONCE = 20_000
"""Palettes whose values are looked up at once; some tens of MB."""

Found = tuple[tuple[int, ...], int, int]
"""Tubes, value and price of a palette."""


class StoppedError(Exception):
    """A limit of time or number came before the end."""


@dataclass(frozen=True)
class Prefix:
    """The beginning of an order of buying."""

    path: tuple[tuple[int, ...], ...] = ()
    """Tubes held from each time on, ascending."""
    values: tuple[int, ...] = ()
    costs: tuple[int, ...] = ()
    weighted: int = 0
    """Sum of the values times their importances."""

    @property
    def tubes(self) -> tuple[int, ...]:
        """The tubes held by now."""
        return self.path[-1] if self.path else ()

    @property
    def rank(self) -> tuple[int, tuple[int, ...], tuple[int, ...], tuple[tuple[int, ...], ...]]:
        """Smaller is better among beginnings that hold the same tubes; see `BuyingOrder.rank`."""
        return -self.weighted, tuple(-value for value in self.values), self.costs, self.path

    def then(self, found: Found, importance: int) -> "Prefix":
        """Return the beginning longer by one time."""
        tubes, value, cost = found
        return Prefix(
            (*self.path, tubes),
            (*self.values, value),
            (*self.costs, cost),
            self.weighted + importance * value,
        )


@dataclass(eq=False)
class Prefixes:
    """An instance with what is known of beginnings by now."""

    problem: InstalmentInstance
    state: SearchState
    """Made ready without what must be had, since that is demanded in the end alone."""
    alone: tuple[int, ...]
    """What no palette exceeds at each time."""
    reach: dict[tuple[tuple[int, ...], int], int] = field(default_factory=dict)
    """By tubes held and time, what no palette that holds them exceeds then."""
    settled: set[tuple[tuple[int, ...], int]] = field(default_factory=set)
    """For which of these there is a palette that has just that value."""

    @property
    def goals_at_once(self) -> int:
        """Beginnings that one exploration goes on from; fewer where each is sought in many ways."""
        ways = 1 if self.state.buying is None else len(self.state.buying.ways.fixed)
        return max(1, GOALS_AT_ONCE * MANY_WAYS // max(MANY_WAYS, ways))

    def may_reach(self, tubes: tuple[int, ...], at: int) -> int:
        """Return what no palette with these tubes exceeds at a time."""
        return self.reach.get((tubes, at), self.alone[at])

    def hopeful(self, prefix: Prefix, target: int) -> bool:
        """Whether a beginning may come to this weighted value."""
        return self._rest(prefix, target) <= 0

    def needed(self, prefix: Prefix, at: int, target: int) -> int:
        """Return the least value at a time with which a beginning may come to the target."""
        importance = self.problem.importances[at]
        short = self._rest(prefix, target) + importance * self.may_reach(prefix.tubes, at)
        return -(-short // importance)

    def _rest(self, prefix: Prefix, target: int) -> int:
        """Return what a beginning falls short of the target by if all to come is at its most."""
        to_come = range(len(prefix.path), self.problem.times)
        most = sum(self.problem.importances[r] * self.may_reach(prefix.tubes, r) for r in to_come)
        return target - prefix.weighted - most

    def weighed(self, prefixes: Iterable[Prefix], target: int) -> list[Prefix]:
        """Return the beginnings that may come to the target, each time to come looked at by itself.

        What each can come to at a time is found exactly where it could be enough.
        """
        kept = [prefix for prefix in prefixes if self.hopeful(prefix, target)]
        if not kept:
            return []
        for at in range(len(kept[0].path), self.problem.times):
            self._settle(kept, at, target)
            kept = [prefix for prefix in kept if self.hopeful(prefix, target)]
        last = self.problem.times - 1
        return [prefix for prefix in kept if (prefix.tubes, last) in self.settled]

    def _settle(self, prefixes: Sequence[Prefix], at: int, target: int) -> None:
        """Find what beginnings can come to at one time, or that it is not enough."""
        asked = [
            (prefix.tubes, self.needed(prefix, at, target))
            for prefix in prefixes
            if (prefix.tubes, at) not in self.settled
        ]
        begun = [self.begun(tubes, at) for tubes, _ in asked]
        least_value = self.problem.instance.least_value if at == self.problem.times - 1 else 0
        goals = self._goals(begun, at, [max(least, least_value) for _, least in asked])
        seen: set[int] = set()

        def visit(number: int, _tubes: tuple[int, ...], value: int, _cost: int) -> None:
            goals[number].value = value + 1
            seen.add(number)

        self.explore(goals, visit)
        for number, ((tubes, _), goal) in enumerate(zip(asked, goals, strict=True)):
            if number in seen:
                self.settled.add((tubes, at))
            if number in seen or goal.value > least_value:
                self.reach[tubes, at] = min(self.may_reach(tubes, at), goal.value - 1)

    def extended(self, prefixes: Sequence[Prefix], target: int) -> list[Prefix]:
        """Return all beginnings longer by one time that may come to the target."""
        if not prefixes:
            return []
        at = len(prefixes[0].path)
        needed = [self.needed(prefix, at, target) for prefix in prefixes]
        goals = self._goals([prefix.tubes for prefix in prefixes], at, needed)
        found: list[dict[tuple[int, ...], Found]] = [{} for _ in goals]
        count = 0

        def visit(number: int, tubes: tuple[int, ...], value: int, cost: int) -> None:
            nonlocal count
            if tubes not in found[number] and self.can_follow(prefixes[number].path, tubes, cost):
                found[number][tubes] = (tubes, value, cost)
                count += 1
                if count > MOST_PREFIXES:
                    raise StoppedError

        self.explore(goals, visit)
        longer: dict[Hashable, Prefix] = {}
        for prefix, palettes in zip(prefixes, found, strict=True):
            for palette in self._of_use(prefix.tubes, palettes):
                self._inherit(prefix.tubes, palette[0], at)
                offered = prefix.then(palette, self.problem.importances[at])
                known = longer.get(self.same(offered))
                if known is None or offered.rank < known.rank:
                    longer[self.same(offered)] = offered
        return [prefix for prefix in longer.values() if self.hopeful(prefix, target)]

    def _goals(self, begun: Sequence[tuple[int, ...]], at: int, least: Sequence[int]) -> list[Goal]:
        """Return what is sought at a time: at least so much, and no less than is held already."""
        most_tubes, money = self.problem.instance.most_tubes, self.problem.money[at]
        return [
            Goal(max(value, held), most_tubes, money, begun=tubes)
            for tubes, value, held in zip(begun, least, self.values(begun), strict=True)
        ]

    def _inherit(self, sooner: tuple[int, ...], later: tuple[int, ...], at: int) -> None:
        """Note that more tubes held can come to no more."""
        for r in range(at + 1, self.problem.times):
            if (sooner, r) in self.reach:
                self.reach[later, r] = min(self.may_reach(later, r), self.may_reach(sooner, r))

    def same(self, prefix: Prefix) -> Hashable:
        """Return what two beginnings must have in common for the better one alone to go on."""
        return prefix.tubes

    def order(self, path: Sequence[tuple[int, ...]]) -> BuyingOrder | None:
        """Return the order of buying in which tubes are held from each time on, if there is one."""
        return self.problem.order(path)

    def can_follow(
        self, path: tuple[tuple[int, ...], ...], tubes: tuple[int, ...], cost: int
    ) -> bool:
        """Whether tubes, which cost so much, may be held at the time after a beginning."""
        del path  # where prices add up, what was bought when is no matter
        known = self.problem.instance
        missing = known.must_have.difference(tubes)
        dearer = cost + sum(known.prices[i] for i in missing)
        return len(tubes) + len(missing) <= known.most_tubes and dearer <= known.budget

    def affordable(self, path: tuple[tuple[int, ...], ...], tubes: tuple[int, ...]) -> bool:
        """Whether there is money for tubes at the time after a beginning."""
        prices = self.problem.instance.prices
        return sum(prices[tube] for tube in tubes) <= self.problem.money[len(path)]

    def _of_use(
        self, begun: tuple[int, ...], palettes: Mapping[tuple[int, ...], Found]
    ) -> list[Found]:
        """Return the palettes of which each tube newly bought covers something."""
        kept = []
        for _, alike in groupby(sorted(palettes.values(), key=lambda p: len(p[0])), _size):
            group = list(alike)
            for start in range(0, len(group), ROWS_AT_ONCE):
                part = group[start : start + ROWS_AT_ONCE]
                useful = self._each_of_use(begun, part)
                kept += [palette for palette, use in zip(part, useful, strict=True) if use]
        return kept

    def _each_of_use(self, begun: tuple[int, ...], palettes: Sequence[Found]) -> list[bool]:
        """Return for palettes of one size whether each tube newly bought covers something."""
        tubes = np.array([palette[0] for palette in palettes], dtype=np.int64)
        worth = np.array([palette[1] for palette in palettes], dtype=np.int64)
        useful: BoolArray = np.ones(len(palettes), dtype=np.bool_)
        for column in range(tubes.shape[1]):
            new = ~np.isin(tubes[:, column], begun)
            rest = np.delete(tubes, column, axis=1)
            useful[new] &= self.state.values(rest[new]) < worth[new]
        return [bool(use) for use in useful]

    def begun(self, tubes: tuple[int, ...], at: int) -> tuple[int, ...]:
        """Return the tubes held at a time by whoever holds these: in the end what must be had."""
        if at < self.problem.times - 1:
            return tubes
        return tuple(sorted(self.problem.instance.must_have.union(tubes)))

    def values(self, palettes: Sequence[tuple[int, ...]]) -> list[int]:
        """Return the value of each palette."""
        worth = [0] * len(palettes)
        for _, rows in _by_size(palettes):
            array: IntArray = np.array([palettes[row] for row in rows], dtype=np.int64)
            found = self.state.values(array.reshape(len(rows), -1)).tolist()
            for row, value in zip(rows, found, strict=True):
                worth[row] = value
        return worth

    def explore(self, goals: Sequence[Goal], visit: GoalVisitor) -> None:
        """Explore goals that may begin with different numbers of tubes.

        Raises
        ------
        StoppedError
            If time runs out.
        """
        for _, rows in _by_size([goal.begun for goal in goals]):
            for start in range(0, len(rows), self.goals_at_once):
                part = rows[start : start + self.goals_at_once]

                def visit_for(
                    number: int, tubes: tuple[int, ...], value: int, cost: int,
                    part: Sequence[int] = part,
                ) -> None:  # fmt: skip
                    visit(part[number], tubes, value, cost)

                ends = explore_all(self.state, [goals[row] for row in part], visit_for)
                if not all(end.complete for end in ends):
                    raise StoppedError


def _size(palette: Found) -> int:
    return len(palette[0])


def _by_size(palettes: Sequence[tuple[int, ...]]) -> list[tuple[int, list[int]]]:
    """Return the rows of palettes by their number of tubes."""
    rows: dict[int, list[int]] = {}
    for row, tubes in enumerate(palettes):
        rows.setdefault(len(tubes), []).append(row)
    return sorted(rows.items())
