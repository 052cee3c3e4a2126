"""Beam search: good palettes of every size, built tube by tube.

They prove nothing, but an exact search that starts from good palettes cuts off more branches.

A set of promising palettes is kept; each is tried with each further tube, and the most promising of
the larger ones are kept in turn. The caller says what is promising.
"""

from collections.abc import Callable

import numpy as np
import numpy.typing as npt

from fewtubes.masks import BoolArray
from fewtubes.selection.packed import IntArray
from fewtubes.selection.search_state import Goal, SearchState

__all__ = ["Judge", "grow"]

Judge = Callable[[IntArray, IntArray, IntArray], IntArray]
"""Called with tubes added (palettes, size), values and prices, both (palettes,); returns how far
each falls short of what is hoped for (palettes,): those that fall least short are kept."""

WIDTH = 200
"""Palettes kept of each size; on the demo catalogue twice as many find hardly more."""

PATIENCE = 3
"""Sizes in a row without a greater value after which growing ends."""


def grow(state: SearchState, goal: Goal, judge: Judge) -> None:
    """Show good palettes of ever more tubes to a judge, within the goal's slots and money.

    Parameters
    ----------
    goal
        Its slots, money and barred tubes hold; its value does not matter.
    judge
        Sees every palette tried, and chooses those that are grown further. Under terms the prices
        it is told are guesses (`SearchState.likely_costs`).
    """
    usable = ~state.held & ~state.barred
    if goal.barred is not None:
        usable &= ~goal.barred
    reachable = int(state.packed.weights.sum())
    kept: IntArray = np.zeros((1, 0), dtype=np.int64)
    best, waited = int(state.values(kept)[0]), 0
    judge(kept, state.values(kept), state.likely_costs(kept))
    while len(kept) and kept.shape[1] < goal.slots and waited < PATIENCE and best < reachable:
        added, values, costs = _with_one_more(state, kept, usable, goal.money)
        short = judge(added, values, costs)
        kept = _least_short(added, short)
        waited = 0 if values.max(initial=0) > best else waited + 1
        best = max(best, int(values.max(initial=0)))


def _with_one_more(
    state: SearchState, kept: IntArray, usable: BoolArray, money: int
) -> tuple[IntArray, IntArray, IntArray]:
    """Return each palette with each further tube it can pay, and their values and prices."""
    packed = state.packed
    masks = packed.gains(kept) | packed.cover(kept)[:, None]
    costs = state.likely_costs_with_each(kept)
    allowed = usable & (costs <= money)
    np.put_along_axis(allowed, kept, values=False, axis=1)
    allowed &= ~state.ruled_out_beside(kept)
    rows, tubes = np.nonzero(allowed)
    added = np.concatenate([kept[rows], tubes[:, None]], axis=1)
    return added, packed.value(masks[rows, tubes]), costs[rows, tubes]


def _least_short(added: IntArray, short: IntArray) -> IntArray:
    """Return the palettes, each once, that fall least short."""
    ranked = np.sort(added[np.argsort(short, kind="stable")[: added.shape[1] * WIDTH]], axis=1)
    first: npt.NDArray[np.intp] = np.unique(ranked, axis=0, return_index=True)[1]
    return ranked[np.sort(first)[:WIDTH]]
