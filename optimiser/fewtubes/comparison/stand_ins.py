"""What a tube of the palette is worth: the best without it, and the best single replacement."""

import time
from dataclasses import dataclass

import numpy as np

from fewtubes.comparison.covered_weight import CoveredWeight
from fewtubes.selection.certificate import Certificate, Method, Status
from fewtubes.selection.explore import explore
from fewtubes.selection.instance import ChoiceInstance
from fewtubes.selection.packed import IntArray
from fewtubes.selection.search_state import Goal, SearchState
from fewtubes.selection.start import good_palette

__all__ = ["Swap", "best_swap", "best_without"]


@dataclass(frozen=True)
class Swap:
    """A tube taken in the place of another."""

    tube: int
    value: int
    """Covered weight of the palette after the exchange."""


def best_swap(
    instance: ChoiceInstance, values: CoveredWeight, bought: tuple[int, ...], tube: int
) -> Swap | None:
    """Return the single tube that replaces a bought one with least loss.

    Of equals the cheapest is taken, then the first in the catalogue. It must be allowed and fit
    into the money that the exchange leaves; None if no such tube brings anything.

    Parameters
    ----------
    instance, values
        The choice, and what sets of tubes cover in it.
    bought
        Tubes bought.
    tube
        The one to be replaced.
    """
    rest = instance.owned.union(bought) - {tube}
    kept = frozenset(bought) - {tube}
    prices = np.array(instance.prices, dtype=np.int64)
    # With terms these prices are less than what is paid, if they differ from it at all.
    free = prices <= instance.budget - int(prices[[*kept]].sum())
    free[[*rest, tube, *instance.ruled_out]] = False
    free[[*_one_paint_with(instance, kept)]] = False
    others = np.flatnonzero(free)
    worth = values.with_each(rest, others)
    useful = worth > values.value(rest)
    if not useful.any():
        return None
    others, worth = others[useful], worth[useful]
    if instance.terms is not None:
        return _best_paid(instance, kept, others, worth)
    best = np.lexsort((others, prices[others], -worth))[0]
    return Swap(int(others[best]), int(worth[best]))


def _best_paid(
    instance: ChoiceInstance, kept: frozenset[int], others: IntArray, worth: IntArray
) -> Swap | None:
    """Return the best of other tubes that the money pays beside those kept, under sellers' terms.

    Parameters
    ----------
    instance, kept
        The choice, and the tubes that stay.
    others, worth
        Numbers of the others and the value with each, shapes (others,).
    """
    for value in np.unique(worth)[::-1].tolist():
        costs = {n: instance.cost(kept | {n}) for n in others[worth == value].tolist()}
        paid = [
            (cost, n)
            for n, cost in costs.items()
            if cost <= instance.budget and not instance.idle_in(kept | {n})
        ]
        if paid:
            return Swap(min(paid)[1], value)
    return None


def _one_paint_with(instance: ChoiceInstance, bought: frozenset[int]) -> set[int]:
    """Return the tubes that are not bought beside some that are, since they are one paint."""
    pairs = instance.not_together
    return {b for a, b in pairs if a in bought} | {a for a, b in pairs if b in bought}


def best_without(
    instance: ChoiceInstance, state: SearchState, tube: int, *, seconds: float
) -> Certificate:
    """Find the greatest value if a tube were not on sale, and prove it.

    A least value is not asked for; all else holds.

    Parameters
    ----------
    instance, state
        The choice, and the same made ready for search; what the search learns stays in it.
    tube
        The tube that is not to be had; neither an owned nor a must-have one.
    seconds
        Time after which the search stops with what it has.
    """
    began, nodes = time.monotonic(), state.nodes
    was_barred = bool(state.barred[tube])
    state.barred[tube], state.deadline = True, began + seconds
    try:
        value, bound = _greatest(state, instance)
    finally:
        state.barred[tube] = was_barred
    return Certificate(
        status=Status.PROVEN if value == bound else Status.STOPPED,
        method=Method.SEARCH,
        value=value,
        bound=bound,
        nodes=state.nodes - nodes,
        seconds=time.monotonic() - began,
    )


def _greatest(state: SearchState, instance: ChoiceInstance) -> tuple[int, int]:
    """Return the greatest value found and a proven bound on it."""
    goal = Goal(0, instance.most_tubes - len(instance.must_have), instance.budget)
    start = np.array([good_palette(state, goal)], dtype=np.int64)
    best = 0
    if _can_be_had(state, tuple(start[0].tolist()), goal):
        best = int(state.values(start)[0])
        goal.value = best + 1

    def visit(_added: tuple[int, ...], value: int, _cost: int) -> None:
        nonlocal best
        best = value
        goal.value = value + 1

    end = explore(state, goal, visit)
    return best, best if end.complete else max(best, end.bound)


def _can_be_had(state: SearchState, added: tuple[int, ...], goal: Goal) -> bool:
    """Whether tubes added are within the money; under terms not even the held ones may be."""
    return state.buying is None or state.buying.cost(added, goal.money) is not None
