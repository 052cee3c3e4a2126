"""The best order of buying by exact search, with a certificate.

At each time no palette covers more than the best for its money alone. An order of buying falls
short of that at each time by something or nothing; its loss is the weighted sum of these. All
beginnings that lose no more than so much are followed to the end (`instalment_prefixes`). If no
order comes of it there is none that loses so little, which is a bound, and somewhat more is
allowed, up to what the best order known loses.
"""

import time
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from itertools import combinations

import numpy as np

from fewtubes.defaults import PROOF_SECONDS
from fewtubes.masks import BoolArray
from fewtubes.selection.certificate import Certificate, Choice, Method, Status
from fewtubes.selection.instalment_prefixes import Prefix, Prefixes, StoppedError
from fewtubes.selection.instalment_ranking import first_ranked
from fewtubes.selection.instalment_terms_search import TermedPrefixes
from fewtubes.selection.instalments import BuyingOrder, InstalmentChoice, InstalmentInstance
from fewtubes.selection.search import search, start_search
from fewtubes.selection.search_state import Goal, SearchState

__all__ = ["search_instalments"]

ALONE_SHARE = 0.7
"""Of the time, for what each time could come to alone; what it does not take is for the rest."""

MOST_TOGETHER = 3
"""Tubes that are tried together where an order is made up in haste: no mix takes more."""

STEPS = 8
"""Loss is allowed in so many equal steps, up to that of the best order known. What was learnt at
one step serves the next, so that steps which come to nothing cost little."""


def search_instalments(
    problem: InstalmentInstance, *, seconds: float = PROOF_SECONDS
) -> InstalmentChoice:
    """Find the best order of buying and prove it best.

    Parameters
    ----------
    problem
        The instance.
    seconds
        Time after which the search stops with what it has.

    Returns
    -------
    The order that ranks first; with status STOPPED the best found and the gap.
    """
    return _Search(problem, time.monotonic() + seconds).run()


@dataclass(eq=False)
class _Search:
    """One run of the search, and what is known so far."""

    problem: InstalmentInstance
    deadline: float
    best: BuyingOrder | None = None
    bound: int = 0
    """What no order of buying exceeds."""
    stopped: bool = False
    nodes: int = 0
    began: float = field(default_factory=time.monotonic)

    def run(self) -> InstalmentChoice:
        """Look at each time alone, then at all together."""
        choices = [self._alone(at) for at in range(self.problem.times)]
        alone = tuple(choice.certificate for choice in choices)
        last = choices[-1]
        self.bound = self.problem.weighted([certificate.bound for certificate in alone])
        self.stopped = any(certificate.status is Status.STOPPED for certificate in alone)
        if last.palettes:
            bounds = tuple(certificate.bound for certificate in alone)
            state = _start_state(self.problem, deadline=self.deadline)
            if self.problem.instance.terms is None:
                self._find(Prefixes(self.problem, state, bounds), last.palettes[0].bought)
            else:
                termed = TermedPrefixes(self.problem, state, bounds)
                self._find_under_terms(termed, last.palettes[0].bought)
            self.nodes += state.nodes
        elif not self.stopped:
            self.bound = 0
        return InstalmentChoice(self.best, self._certificate(), alone)

    def _alone(self, at: int) -> Choice:
        """Return a palette of the greatest value for the money of one time."""
        instance = self.problem.alone(at)
        left = max(0.0, self.deadline - time.monotonic())
        left *= ALONE_SHARE / (self.problem.times - at)
        choice = search(instance, seconds=left, least_ranked=sum(instance.weights) + 1)
        self.nodes += choice.certificate.nodes
        return choice

    def _find(self, prefixes: Prefixes, last: tuple[int, ...]) -> None:
        """Find the best order of buying; `last` is the best to be held in the end alone."""
        self.stopped = True
        try:
            self._offer(prefixes, [*[()] * (self.problem.times - 1), last])
            self._offer(prefixes, list(_in_haste(prefixes, last)))
            tubes: BoolArray = np.ones(self.problem.instance.tube_count, dtype=np.bool_)
            tubes[list(last)] = False
            self._offer(prefixes, list(_one_by_one(prefixes, tubes)))
            self._offer(prefixes, list(_one_by_one(prefixes, None)))
            self._widen(prefixes)
            self.stopped = False
        except StoppedError:
            return

    def _find_under_terms(self, prefixes: TermedPrefixes, last: tuple[int, ...]) -> None:
        """Find the best order, first as if each time found all stocks full.

        If the best of these is within stock it is the best of all; else all are looked at again,
        each held against the stocks.
        """
        self.best = prefixes.waiting(last, told=False)
        self._find(prefixes, last)
        sold = self._sold(prefixes, self.best)
        if sold is not None and sold.rank == self.best.rank:
            self.best = sold
            return
        waiting = prefixes.waiting(last, told=True)
        self.best = waiting if sold is None or waiting.rank < sold.rank else sold
        if not self.stopped:
            prefixes.within_stock = True
            self._find(prefixes, last)

    def _sold(self, prefixes: TermedPrefixes, order: BuyingOrder) -> BuyingOrder | None:
        """Return the best order with these tubes there at each time, within stock, if found."""
        try:
            return prefixes.sold([palette.bought for palette in order.palettes])
        except StoppedError:
            return None

    def _offer(self, prefixes: Prefixes, palettes: Sequence[tuple[int, ...]]) -> None:
        """Take an order of buying if it meets the demands and is better than the best known."""
        order = prefixes.order(palettes)
        if order is None:
            return
        if self.problem.allows(order) and (self.best is None or order.rank < self.best.rank):
            self.best = order

    def _widen(self, prefixes: Prefixes) -> None:
        """Allow more and more loss until an order of buying comes of it, the best."""
        assert self.best is not None  # noqa: S101  # what is best in the end alone is one
        most, loss = self.bound, self.bound - self.best.value
        ended: list[Prefix] = []
        for step in range(1, STEPS + 1):
            target = most - loss * step // STEPS
            ended = _ended(prefixes, target)
            if ended and isinstance(prefixes, TermedPrefixes):
                prefixes.finish(ended, target, self.best, take=self._take)
                if self.best.value >= target:
                    self.bound = self.best.value
                    return
            elif ended:
                break
            self.bound = target - 1
        last = self.problem.times - 1
        worth = [self.problem.importances[last] * prefixes.may_reach(p.tubes, last) for p in ended]
        values = [prefix.weighted + more for prefix, more in zip(ended, worth, strict=True)]
        self.bound = max(values)
        equals = [p for p, value in zip(ended, values, strict=True) if value == self.bound]
        for path in first_ranked(prefixes, equals):
            self._offer(prefixes, path)

    def _take(self, order: BuyingOrder) -> None:
        self.best = order

    def _certificate(self) -> Certificate:
        """Return what is known by now."""
        status = Status.PROVEN if self.best else Status.INFEASIBLE
        return Certificate(
            status=Status.STOPPED if self.stopped else status,
            method=Method.SEARCH,
            value=self.best.value if self.best else 0,
            bound=self.bound,
            nodes=self.nodes,
            seconds=time.monotonic() - self.began,
        )


def _start_state(problem: InstalmentInstance, *, deadline: float) -> SearchState:
    """Make an instance ready for its beginnings to be followed until `time.monotonic` says so."""
    free = problem.without_demands(problem.money[-1])
    state = start_search(free, seconds=deadline - time.monotonic())
    if state.excluding is not None:  # nothing that must be had may be ruled out
        state.barred |= state.excluding[list(problem.instance.must_have)].any(axis=0)
    return state


def _ended(prefixes: Prefixes, target: int) -> list[Prefix]:
    """Return all beginnings up to the last time but one that come to the target in the end."""
    followed = [Prefix()]
    for _ in range(prefixes.problem.times - 1):
        followed = prefixes.extended(prefixes.weighed(followed, target), target)
    return prefixes.weighed(followed, target)


def _in_haste(prefixes: Prefixes, last: tuple[int, ...]) -> Iterator[tuple[int, ...]]:
    """Yield what is held at each time if what serves most at once is bought of the last tubes.

    It takes next to no time, so that there is something to tell when time has run out.
    """
    problem, path = prefixes.problem, list[tuple[int, ...]]()
    held: tuple[int, ...] = ()
    for _ in range(problem.times - 1):
        while True:
            rest = [i for i in last if i not in held]
            more = [
                tuple(sorted((*held, *tubes)))
                for size in range(1, MOST_TOGETHER + 1)
                for tubes in combinations(rest, size)
                if prefixes.affordable(tuple(path), tuple(sorted((*held, *tubes))))
            ]
            now, *worth = prefixes.values([held, *more])
            if max(worth, default=now) == now:
                break
            held = more[worth.index(max(worth))]
        path.append(held)
        yield held
    yield last


def _one_by_one(prefixes: Prefixes, barred: BoolArray | None) -> Iterator[tuple[int, ...]]:
    """Yield what is held at each time if each looks no farther than itself.

    Parameters
    ----------
    prefixes
        The instance.
    barred
        Tubes not to be bought, shape (n,); None for none.
    """
    problem = prefixes.problem
    path: tuple[tuple[int, ...], ...] = ()
    for _ in range(problem.times):
        path = (*path, _most_now(prefixes, path, barred))
        yield path[-1]


def _most_now(
    prefixes: Prefixes, path: tuple[tuple[int, ...], ...], barred: BoolArray | None
) -> tuple[int, ...]:
    """Return the palette that covers most at the time after a beginning, and holds its tubes."""
    at = len(path)
    best = prefixes.begun(path[-1] if path else (), at)
    goal = Goal(
        prefixes.values([best])[0] + 1,
        prefixes.problem.instance.most_tubes,
        prefixes.problem.money[at],
        barred=barred,
        begun=best,
    )

    def visit(_number: int, found: tuple[int, ...], value: int, cost: int) -> None:
        nonlocal best
        if prefixes.can_follow(path, found, cost):
            best, goal.value = found, value + 1

    prefixes.explore([goal], visit)
    return best
