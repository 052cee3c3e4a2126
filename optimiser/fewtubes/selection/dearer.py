"""What a little more than the budget buys: the next steps of coverage against cost beyond it.

Each step is the cheapest palette that covers more than the one before, and of as cheap ones the one
that covers most. One exact search finds and proves it: what is dearer than the cheapest known is no
longer looked at.
"""

import time
from collections.abc import Iterator
from dataclasses import dataclass, replace

from fewtubes.selection.explore import explore
from fewtubes.selection.instance import ChoiceInstance, Palette
from fewtubes.selection.search_state import Goal, SearchState
from fewtubes.selection.start import good_palette

__all__ = ["MOST_STEPS", "DearerStep", "cheapest_of_all", "dearer_steps"]

MOST_STEPS = 2
"""Steps sought beyond the budget; `compare` tells them all."""

MOST_BRANCHES = 400
"""Branches looked at for all of it, a fifth of a second's work. Counted in branches and not in
time, so that the same question has the same answer on every machine."""

MOST_BRANCHES_FOR_ALL = 2000
"""The same for the cheapest palette of all, which begins with a good one; where nothing could be
bought the choice itself took no time."""


@dataclass(frozen=True)
class DearerStep:
    """A palette that costs more than the budget and covers more than anything within it."""

    palette: Palette
    proven: bool
    """Whether it is proven that nothing cheaper covers more than the step before, and that nothing
    as cheap covers more than this one."""


def dearer_steps(
    state: SearchState, instance: ChoiceInstance, best: Palette, *, reach: int, seconds: float
) -> tuple[DearerStep, ...]:
    """Return the next steps beyond the budget, cheapest first; none if none is found.

    Parameters
    ----------
    state, instance
        The choice, and the same made ready for search; what the search learns stays in it.
    best
        A palette of the greatest value within the budget, proven.
    reach
        How far beyond the budget to look [hundredths of the currency].
    seconds
        Time after which the search stops with what it has [s]; it also does after
        `MOST_BRANCHES`.
    """
    state.deadline = time.monotonic() + seconds
    state.most_nodes = state.nodes + MOST_BRANCHES
    try:
        return tuple(_steps(state, instance, best, reach))
    finally:
        state.most_nodes = None


def cheapest_of_all(
    state: SearchState, instance: ChoiceInstance, best: Palette, *, seconds: float
) -> DearerStep | None:
    """Return the cheapest palette that covers as much as all tubes together, whatever it costs.

    Parameters are those of `dearer_steps`. None is returned where the best covers that already, or
    where no palette of as many tubes as may be bought is found to cover it.
    """
    all_tubes = range(instance.tube_count)
    most = instance.value(all_tubes)
    if best.value == most:
        return None
    state.deadline = time.monotonic() + seconds
    state.most_nodes = state.nodes + MOST_BRANCHES_FOR_ALL
    try:
        # Where paint depends on the palette, all tubes together may cost less than some of them.
        enough = instance.any_money if instance.must_serve else instance.cost(all_tubes)
        enough = min(enough, instance.any_money)
        free = replace(instance, budget=max(instance.budget, enough))
        goal = _goal(free, most)
        start = instance.palette(instance.must_have.union(good_palette(state, goal)))
        known = start if start.value == most else None
        return _cheapest(state, free, goal, known)
    finally:
        state.most_nodes = None


def _steps(
    state: SearchState, instance: ChoiceInstance, best: Palette, reach: int
) -> Iterator[DearerStep]:
    """Yield one step after the other."""
    richer = replace(instance, budget=instance.budget + reach)
    everything = instance.value(range(instance.tube_count))
    for _ in range(MOST_STEPS):
        step = None if best.value == everything else _next_step(state, richer, best)
        if step is None:
            return
        yield step
        if not step.proven:
            return
        best = step.palette


def _next_step(state: SearchState, instance: ChoiceInstance, best: Palette) -> DearerStep | None:
    """Return the cheapest palette within the budget that covers more than another."""
    return _cheapest(state, instance, _goal(instance, best.value + 1), None)


def _goal(instance: ChoiceInstance, value: int) -> Goal:
    return Goal(value, instance.most_tubes - len(instance.must_have), instance.budget)


def _cheapest(
    state: SearchState, instance: ChoiceInstance, goal: Goal, known: Palette | None
) -> DearerStep | None:
    """Return the cheapest palette that meets a goal; one that does may be known beforehand."""
    found = known
    if known is not None:
        goal.money = known.cost

    def visit(added: tuple[int, ...], _value: int, cost: int) -> None:
        nonlocal found
        palette = instance.palette(instance.must_have.union(added))
        if found is None or (cost, palette.rank) < (found.cost, found.rank):
            found = palette
            goal.money = cost

    end = explore(state, goal, visit)
    return None if found is None else DearerStep(found, proven=end.complete)
