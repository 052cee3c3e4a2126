"""Beginnings of orders of buying under sellers' terms, and the orders that come of them.

A beginning says what is wanted from each time on: tubes of which each new one covers something at
once. When they are bought is another matter (`instalment_schedule`). Three things make it exact.

All purchases up to a time cost no less than one purchase of all that is wanted by then
(`fewtubes.selection.instalments.parts_well`), so a search for palettes within the money up to that
time leaves out no beginning, and what is found is held against the best schedule afterwards.

Of any order of buying, take at each time so few of the tubes there that they, with those taken
before, cover as much: that is such a beginning, its schedule is no dearer, and it ends with no more
tubes. So the order that ranks first is found with the beginning that is made of it.

Beginnings with the same tubes are not the same here: one may have paid for more deliveries. So all
of them go on.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field, replace

from fewtubes.errors import DefectError
from fewtubes.selection.buying import Buying
from fewtubes.selection.instalment_prefixes import Prefix, Prefixes, StoppedError
from fewtubes.selection.instalment_schedule import Key, Schedule, Schedules, TooManySchedulesError
from fewtubes.selection.instalments import BuyingOrder

__all__ = ["TermedPrefixes"]

HEAD = 6
"""Figures of a rank before those of each time; see `BuyingOrder.rank`."""

Path = tuple[tuple[int, ...], ...]


@dataclass(eq=False)
class TermedPrefixes(Prefixes):
    """Beginnings under terms."""

    schedules: Schedules = field(init=False)
    within_stock: bool = False
    """Whether orders are held against stocks that several times take from; mostly it is enough to
    do so in the end, for the one that ranks first if they are not."""
    costly: Buying = field(init=False)
    """What the search must know of terms, with true costs of palettes bought at once."""

    def __post_init__(self) -> None:
        terms, buying = self.problem.instance.terms, self.state.buying
        if terms is None or buying is None:
            raise ValueError("beginnings of this kind are for instances with terms")
        self.schedules = Schedules(terms, self.problem.money, self.state.deadline)
        self.costly = buying
        # What is found is held against schedules, which tell more than the cost of all at once.
        self.state.buying = replace(buying, cost=self._at_least)

    def _at_least(self, tubes: tuple[int, ...], money: int) -> int | None:
        cost = self.schedules.at_least(tubes)
        return cost if cost <= money else None

    def _settle(self, prefixes: Sequence[Prefix], at: int, target: int) -> None:
        """Find what beginnings can come to at one time, by what all costs at once."""
        loose = self.state.buying
        self.state.buying = self.costly
        try:
            super()._settle(prefixes, at, target)
        finally:
            self.state.buying = loose

    def same(self, prefix: Prefix) -> Path:
        """Return what two beginnings must have in common for the better one alone to go on."""
        return prefix.path

    def can_follow(self, path: Path, tubes: tuple[int, ...], cost: int) -> bool:
        """Whether tubes can be had by the time after a beginning, and a good end come of it."""
        del cost  # of all at once; the schedule tells more
        known = self.problem.instance
        whole = known.must_have.union(tubes)
        if len(whole) > known.most_tubes:
            return False
        if len(whole) > len(tubes) and known.cost_within(whole, known.budget) is None:
            return False
        return self._outlook((*path, tubes)) is not None

    def affordable(self, path: Path, tubes: tuple[int, ...]) -> bool:
        """Whether tubes can be had by the time after a beginning."""
        return self._outlook((*path, tubes)) is not None

    def waiting(self, tubes: tuple[int, ...], *, told: bool) -> BuyingOrder:
        """Return the order in which everything is bought at the last time.

        Parameters
        ----------
        tubes
            Those that are bought; the money must be enough.
        told
            Whether what is bought is to be told; that takes longer than what it costs.
        """
        if told:
            return self.problem.bought_as(self.schedules.waiting(tubes))
        sooner = self.problem.times - 1
        cost = self.problem.instance.cost(tubes)
        return self.problem.bought_as(Schedule((*[()] * sooner, tubes), (*[0] * sooner, cost), ()))

    def order(self, path: Sequence[tuple[int, ...]]) -> BuyingOrder | None:
        """Return the best order in which tubes are there when they are wanted.

        Unless it is to be within stock, what is bought at each time is not told.
        """
        if self.within_stock:
            return self.sold(path)
        outlook = self._outlook(tuple(path))
        if outlook is None:
            return None
        _, costs, bought = outlook
        return self.problem.bought_as(Schedule(bought, costs, ()))

    def sold(self, path: Sequence[tuple[int, ...]]) -> BuyingOrder | None:
        """Return the best order in which tubes are there when they are wanted, within stock."""
        try:
            schedule = self.schedules.best(tuple(path))
        except TooManySchedulesError as error:
            raise StoppedError from error
        if schedule is None:
            return None
        order = self.problem.bought_as(schedule)
        if not self.problem.sells(order):
            raise DefectError(f"an order of buying is not sold as it says: {order}")
        return order

    def finish(
        self,
        ended: Sequence[Prefix],
        target: int,
        best: BuyingOrder,
        *,
        take: Callable[[BuyingOrder], None],
    ) -> None:
        """Find the order that ranks first of all that come of beginnings and are worth enough.

        Parameters
        ----------
        ended
            All beginnings up to the last time but one that may come to the target.
        target
            Weighted value.
        best
            The best order known.
        take
            Is called with each that is better than all before it.
        """
        last = self.problem.times - 1
        least_value = self.problem.instance.least_value
        needed = [max(self.needed(prefix, last, target), least_value) for prefix in ended]
        goals = self._goals([self.begun(prefix.tubes, last) for prefix in ended], last, needed)

        def visit(number: int, tubes: tuple[int, ...], value: int, _cost: int) -> None:
            nonlocal best
            worth = ended[number].weighted + self.problem.importances[last] * value
            path = (*ended[number].path, tubes)
            outlook = self._outlook(path)
            if outlook is None or self._head(worth, tubes, outlook[0]) > best.rank[:HEAD]:
                return
            order = self.order(path)
            if order is None or order.rank >= best.rank:
                return
            if not self.problem.allows(order):
                raise DefectError(f"an order of buying is not as it was asked for: {order}")
            take(best := order)
            for prefix, goal in zip(ended, goals, strict=True):
                goal.value = max(goal.value, self.needed(prefix, last, best.value))

        self.explore(goals, visit)

    def _outlook(self, path: Path) -> Key | None:
        try:
            return self.schedules.outlook(path)
        except TooManySchedulesError as error:
            raise StoppedError from error

    def _head(self, worth: int, tubes: tuple[int, ...], cost: int) -> tuple[int, ...]:
        """Return the beginning of the rank of an order, as `BuyingOrder.rank` has it."""
        known = self.problem.instance
        fades = [known.fades[tube] for tube in tubes]
        fading = len(known.fading.intersection(tubes))
        return (-worth, len(tubes), fading, cost, max(fades, default=0), sum(fades))
