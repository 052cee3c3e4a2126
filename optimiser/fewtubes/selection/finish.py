"""The last one or two tubes of a branch: all ways are tried."""

import numpy as np

from fewtubes.masks import BoolArray, MaskArray
from fewtubes.selection.packed import IntArray
from fewtubes.selection.search_state import Goal, SearchState, Visitor

__all__ = ["LAST_TUBES", "finish", "visit_all"]

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
    singles = _with(added, tubes[:, None])
    visit_all(state, goal, visit, added=singles, values=packed.value(cover | gains))
    if slots < LAST_TUBES:
        return
    a, b = np.triu_indices(len(tubes), 1)
    affordable = state.prices[tubes[a]] + state.prices[tubes[b]] <= goal.money - spent
    a, b = a[affordable], b[affordable]
    first, second = tubes[a], tubes[b]
    masks = cover | gains[a] | gains[b] | packed.pairs[first, second]
    for tube in palette[0]:
        masks |= packed.triples[tube][first, second]
    pairs = _with(added, np.stack([first, second], axis=1))
    visit_all(state, goal, visit, added=pairs, values=packed.value(masks))


def visit_all(
    state: SearchState, goal: Goal, visit: Visitor, *, added: IntArray, values: IntArray
) -> None:
    """Visit those palettes that meet the goal.

    Parameters
    ----------
    added
        Tubes added to the held ones, shape (palettes, depth).
    values
        Covered weight of each, shape (palettes,).
    """
    sought = np.flatnonzero(values >= goal.value)
    for row, cost in zip(sought, state.costs(added[sought]), strict=True):
        if goal.admits(int(values[row]), added.shape[1], int(cost)):
            visit(tuple(sorted(added[row].tolist())), int(values[row]), int(cost))


def _with(added: IntArray, more: IntArray) -> IntArray:
    """Return one branch's tubes, (depth,), joined with each addition, (additions, tubes)."""
    return np.concatenate([np.repeat(added[None], len(more), axis=0), more], axis=1)
