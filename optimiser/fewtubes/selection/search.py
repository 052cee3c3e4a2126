"""The choice by exact search: lexicographic, with a certificate.

The order is that of `Palette.rank`: covered weight, then fewest tubes, then fewest that fade, then
cost, then lightfastness. Each figure is settled with a proof before the next, by one and the same
search (`fewtubes.selection.explore`) under ever tighter demands.
"""

import time
from dataclasses import dataclass, field, replace

import numpy as np

from fewtubes.defaults import PROOF_SECONDS
from fewtubes.masks import BoolArray
from fewtubes.selection.buying import Buying
from fewtubes.selection.certificate import Certificate, Choice, Method, Status
from fewtubes.selection.explore import explore
from fewtubes.selection.instance import ChoiceInstance, Palette
from fewtubes.selection.packed import PackedSets
from fewtubes.selection.search_state import Goal, SearchState
from fewtubes.selection.start import good_palette
from fewtubes.selection.terms import OUT_OF_REACH
from fewtubes.selection.ways import ways_of

__all__ = ["MOST_TIES", "best_value", "search", "start_search"]

MOST_TIES = 50
"""Equal palettes that are kept; more are counted as an incomplete list."""


def start_search(instance: ChoiceInstance, *, seconds: float) -> SearchState:
    """Make an instance ready for a search that stops after a number of seconds."""
    held: BoolArray = np.zeros(instance.tube_count, dtype=np.bool_)
    held[list(instance.owned | instance.must_have)] = True
    fading: BoolArray = np.zeros(instance.tube_count, dtype=np.bool_)
    fading[list(instance.fading - instance.owned)] = True
    excluding: BoolArray = np.zeros((instance.tube_count,) * 2, dtype=np.bool_)
    for one, other in instance.not_together:
        excluding[one, other] = excluding[other, one] = True
    barred: BoolArray = np.zeros(instance.tube_count, dtype=np.bool_)
    barred[list(instance.ruled_out)] = True
    barred |= excluding[list(instance.must_have)].any(axis=0) & ~held
    if instance.terms is not None:  # what cannot be had at all is no matter of money
        barred |= np.array(instance.prices) >= OUT_OF_REACH
    return SearchState(
        packed=PackedSets.of(instance),
        prices=np.array(instance.prices, dtype=np.int64),
        held=held,
        deadline=time.monotonic() + seconds,
        barred=barred,
        fading=fading,
        excluding=excluding if excluding.any() else None,
        buying=_buying(instance, held),
    )


def _buying(instance: ChoiceInstance, held: BoolArray) -> Buying | None:
    """Return what the search must know of terms, if there are any."""
    if instance.terms is None:
        return None
    must_have = instance.must_have
    return Buying.of(
        ways_of(instance.terms, instance.owned),
        held,
        lambda added, money: instance.cost_within(must_have.union(added), money),
        must_serve=instance.must_serve,
        least_paint=instance.terms.least_paint,
    )


def search(
    instance: ChoiceInstance,
    *,
    seconds: float = PROOF_SECONDS,
    least_ranked: int = 0,
    state: SearchState | None = None,
) -> Choice:
    """Find the best palettes of an instance and prove them best.

    Parameters
    ----------
    instance
        The instance.
    seconds
        Time after which the search stops with what it has.
    least_ranked
        Value from which palettes are ranked by what goes after it. Below, the one palette given has
        the greatest value, and the certificate is about that alone.
    state
        The instance made ready, if it is; what the search learns of it stays there.

    Returns
    -------
    All palettes that tie for best; with status STOPPED the best found and the gap.
    """
    state = state or start_search(instance, seconds=seconds)
    state.deadline = time.monotonic() + seconds
    return _Search(instance, state).run(least_ranked)


def best_value(instance: ChoiceInstance, *, seconds: float = PROOF_SECONDS) -> Certificate:
    """Find the greatest value alone and prove it; faster than `search`, which also ranks ties."""
    return _Search(instance, start_search(instance, seconds=seconds)).value_only()


@dataclass(eq=False)
class _Search:
    """One run of the search, and what is known so far."""

    instance: ChoiceInstance
    state: SearchState
    best: Palette | None = None
    stopped: bool = False
    began: float = field(default_factory=time.monotonic)
    nodes_before: int = field(init=False)

    def __post_init__(self) -> None:
        self.nodes_before = self.state.nodes

    def run(self, least_ranked: int) -> Choice:
        """Settle value, number, tubes that fade, cost and lightfastness in turn."""
        value = self.value_only()
        if self.best is None:
            return Choice((), value.status is Status.INFEASIBLE, value)
        if self.best.value < least_ranked:
            return Choice((self.best,), complete=False, certificate=value)
        if not self.stopped:
            self._fewest_tubes()
        if not self.stopped:
            self._fewest_fading()
        ties, complete = ((self.best,), False) if self.stopped else self._cheapest()
        return Choice(ties, complete and not self.stopped, self._certificate(value.bound))

    def value_only(self) -> Certificate:
        """Settle the value; the certificate is about that alone."""
        slots = self.instance.most_tubes - len(self.instance.must_have)
        held_cost = int(self.state.prices[self.state.held].sum())
        if slots < 0 or held_cost > self.instance.budget:
            return self._certificate(0)
        return self._certificate(self._greatest_value(slots))

    def _palette(self, added: tuple[int, ...]) -> Palette:
        """Return the palette of the must-have tubes and those added."""
        return self.instance.palette(self.instance.must_have.union(added))

    def _greatest_value(self, slots: int) -> int:
        """Find the greatest value; return a proven bound on it."""
        goal = Goal(max(1, self.instance.least_value), slots, self.instance.budget)
        start = self._palette(good_palette(self.state, goal))
        if self.instance.terms is not None and not self._can_be_had(start):
            start = self._palette(())
        if start.value >= self.instance.least_value and self._can_be_had(start):
            self.best = start
            goal.value = start.value + 1

        def visit(added: tuple[int, ...], value: int, _cost: int) -> None:
            self.best = self._palette(added)
            goal.value = value + 1

        end = explore(self.state, goal, visit)
        self.stopped = not end.complete
        found = self.best.value if self.best else 0
        return max(found, end.bound) if self.stopped else found

    def _can_be_had(self, palette: Palette) -> bool:
        """Whether the money is enough for a palette, and every tube serves; a matter of terms."""
        affordable = palette.cost <= self.instance.budget
        return affordable and not self.instance.idle_in(palette.bought)

    def _fewest_tubes(self) -> None:
        """Find the fewest tubes that reach the value found, counting up from none."""
        assert self.best is not None  # noqa: S101  # settled by the caller
        known = len(self.best.bought) - len(self.instance.must_have)
        for slots in range(known):
            goal = Goal(self.best.value, slots, self.instance.budget)

            def visit(added: tuple[int, ...], _value: int, _cost: int, goal: Goal = goal) -> None:
                self.best = self._palette(added)
                goal.slots = -1  # one is enough

            end = explore(self.state, goal, visit)
            if goal.slots < 0:
                return
            if not end.complete:
                self.stopped = True
                return

    def _fewest_fading(self) -> None:
        """Find the fewest fading tubes of as many, by asking for fewer than the best known has."""
        assert self.best is not None  # noqa: S101  # settled by the caller
        if self.best.fading == len(self.instance.fading & self.instance.must_have):
            return
        goal = replace(self._as_good(), money=self.instance.budget, fading=self.best.fading - 1)

        def visit(added: tuple[int, ...], _value: int, _cost: int) -> None:
            self.best = self._palette(added)
            goal.fading = self.best.fading - 1

        self.stopped = not explore(self.state, goal, visit).complete

    def _as_good(self) -> Goal:
        """Return the goal of what is as good as the best known, and as cheap."""
        best = self.best
        assert best is not None  # noqa: S101  # settled by the caller
        slots = len(best.bought) - len(self.instance.must_have)
        return Goal(best.value, slots, best.cost, fading=best.fading)

    def _cheapest(self) -> tuple[tuple[Palette, ...], bool]:
        """Find the cheapest palettes of those figures; return the best lasting of them."""
        assert self.best is not None  # noqa: S101  # settled by the caller
        goal = self._as_good()
        ties: dict[tuple[int, ...], Palette] = {self.best.bought: self.best}
        overflow = False

        def visit(added: tuple[int, ...], _value: int, cost: int) -> None:
            nonlocal overflow
            palette = self._palette(added)
            if palette.rank < min(known.rank for known in ties.values()):
                ties.clear()
                overflow = False
            elif palette.rank > next(iter(ties.values())).rank:
                return
            goal.money = cost
            if len(ties) < MOST_TIES or palette.bought in ties:
                ties[palette.bought] = palette
            else:
                overflow = True

        end = explore(self.state, goal, visit)
        self.stopped = not end.complete
        found = tuple(ties[bought] for bought in sorted(ties))
        self.best = found[0]
        return found, not overflow

    def _certificate(self, bound: int) -> Certificate:
        """Return what is known by now."""
        status = Status.PROVEN if self.best else Status.INFEASIBLE
        return Certificate(
            status=Status.STOPPED if self.stopped else status,
            method=Method.SEARCH,
            value=self.best.value if self.best else 0,
            bound=bound,
            nodes=self.state.nodes - self.nodes_before,
            seconds=time.monotonic() - self.began,
        )
