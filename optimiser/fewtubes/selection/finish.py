"""The last one or two tubes of a branch: all ways are tried."""

import numpy as np

from fewtubes.masks import BoolArray, MaskArray
from fewtubes.selection.packed import IntArray
from fewtubes.selection.search_state import Goal, SearchState, Visitor

__all__ = ["LAST_TUBES", "finish"]

LAST_TUBES = 2
"""As many free slots are filled by trial; trying pairs is cheaper than bounding them."""


def finish(
    state: SearchState,
    goal: Goal,
    visit: Visitor,
    *,
    added: IntArray,
    cover: MaskArray,
    free: BoolArray,
    slots: int,
) -> None:
    """Visit each palette of a branch with one or two more tubes that meets the goal.

    Parameters
    ----------
    added
        Tubes added to the held ones, shape (depth,).
    cover
        What the branch covers, shape (words,).
    free
        Tubes that may be added, shape (n,).
    slots
        1 or 2.
    """
    packed = state.packed
    palette = state.palettes(added[None])
    spent = int(state.costs(added[None])[0])
    tubes = np.flatnonzero(free)
    gains = packed.gains(palette)[0][tubes]
    _visit(goal, visit, added, tubes[:, None], packed.value(cover | gains), spent, state.prices)
    if slots < LAST_TUBES:
        return
    a, b = np.triu_indices(len(tubes), 1)
    affordable = state.prices[tubes[a]] + state.prices[tubes[b]] <= goal.money - spent
    a, b = a[affordable], b[affordable]
    first, second = tubes[a], tubes[b]
    masks = cover | gains[a] | gains[b] | packed.pairs[first, second]
    for tube in palette[0]:
        masks |= packed.triples[tube][first, second]
    pairs = np.stack([first, second], axis=1)
    _visit(goal, visit, added, pairs, packed.value(masks), spent, state.prices)


def _visit(
    goal: Goal,
    visit: Visitor,
    added: IntArray,
    more: IntArray,
    values: IntArray,
    spent: int,
    prices: IntArray,
) -> None:
    """Visit those additions, shape (additions, tubes), that meet the goal."""
    for row in np.flatnonzero(values >= goal.value):
        tubes = tuple(sorted([*added.tolist(), *more[row].tolist()]))
        cost = spent + int(prices[more[row]].sum())
        if goal.admits(int(values[row]), len(tubes), cost):
            visit(tubes, int(values[row]), cost)
