"""Completes a branch by trying every choice of its last one to three tubes."""

import numpy as np

from fewtubes.masks import BoolArray, MaskArray
from fewtubes.selection.least_paint import UNITS
from fewtubes.selection.packed import IntArray
from fewtubes.selection.search_state import SearchState, Sought, Visitor, admits

__all__ = ["LAST_TUBES", "finish", "visit_all"]

TOGETHER = 1024
"""Palettes of which paint is looked at at once."""

LAST_TUBES = 3
"""As many free slots are filled by trial; trying triples is cheaper than bounding them."""


def finish(
    state: SearchState,
    goal: Sought,
    visit: Visitor,
    *,
    added: IntArray,
    cover: MaskArray,
    free: BoolArray,
    slots: int,
) -> None:
    """Visit each palette of a branch with one to three more tubes that meets the goal.

    Parameters
    ----------
    added
        Tubes added to the held ones, shape (depth,).
    cover
        What the branch covers, shape (words,).
    free
        Tubes that may be added, shape (n,).
    slots
        1, 2 or 3.
    """
    packed, tubes = state.packed, np.flatnonzero(free)
    prices = state.prices_in(goal.way)[tubes]
    money = goal.money - int(state.costs(added[None], np.array([goal.way]))[0])

    def visit_with(more: IntArray, masks: MaskArray) -> None:
        values = packed.value(masks)
        sought = values >= goal.value
        if sought.any():
            joined = _with(added, tubes[more[sought]])
            visit_all(state, goal, visit, added=joined, values=values[sought])

    singles = cover | packed.gains(added[None])[0][tubes]
    visit_with(np.arange(len(tubes))[:, None], singles)
    if slots >= 2:
        pairs = np.stack(np.triu_indices(len(tubes), 1), axis=1)
        pairs = pairs[prices[pairs].sum(axis=1) <= money]
        if state.excluding is not None:
            pairs = pairs[~state.excluding[tubes[pairs[:, 0]], tubes[pairs[:, 1]]]]
        a, b = pairs.T
        masks = singles[a] | singles[b] | packed.pairs[tubes[a], tubes[b]]
        for tube in added:
            masks |= packed.triples[tube][tubes[a], tubes[b]]
        visit_with(pairs, masks)
    if slots >= LAST_TUBES:
        table = np.zeros((len(tubes), len(tubes), cover.shape[0]), dtype=np.uint64)
        table[a, b] = masks
        triples = _third_tubes(pairs, len(tubes))
        triples = triples[prices[triples].sum(axis=1) <= money]
        a, b, c = triples.T
        if state.excluding is not None:
            beside = state.excluding[tubes[a], tubes[c]] | state.excluding[tubes[b], tubes[c]]
            a, b, c = (triples := triples[~beside]).T
        masks = _looked_up(table, a, b)
        masks |= _looked_up(table, a, c)
        masks |= _looked_up(table, b, c)
        masks |= _looked_up(packed.triples, tubes[a], tubes[b], tubes[c])
        visit_with(triples, masks)


def _looked_up(table: MaskArray, *places: IntArray) -> MaskArray:
    """Return table[places], (…, words), by single numbers, in half the time or less."""
    number = places[0]
    for place in places[1:]:
        number = number * len(table) + place
    return table.reshape(-1, table.shape[-1]).take(number, axis=0)


def visit_all(
    state: SearchState, goal: Sought, visit: Visitor, *, added: IntArray, values: IntArray
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
    sought = sought[_may_be_paid(state, goal, added[sought])]
    costs = state.costs(added[sought], np.full(len(sought), goal.way))
    fading = state.fading_in(added[sought])
    for row, cost, fade in zip(sought, costs, fading, strict=True):
        if admits(goal, int(values[row]), added.shape[1], int(cost), int(fade)):
            visit(tuple(sorted(added[row].tolist())), int(values[row]), int(cost))


def _may_be_paid(state: SearchState, goal: Sought, added: IntArray) -> BoolArray:
    """Return for which palettes, (palettes, depth), the money may be enough for their paint."""
    paint = state.least_paint
    possible: BoolArray = np.ones(len(added), dtype=np.bool_)
    if paint is None:
        return possible
    held = np.flatnonzero(state.held)
    money = goal.money * UNITS + paint.tube_count
    for first in range(0, len(added), TOGETHER):
        some = added[first : first + TOGETHER]
        tubes = np.concatenate([some, np.repeat(held[None], len(some), axis=0)], axis=1)
        covered = state.packed.bits(state.packed.cover(some))
        least = paint.of_palettes(np.sort(tubes, axis=1), covered)
        possible[first : first + TOGETHER] = least <= money
    return possible


def _with(added: IntArray, more: IntArray) -> IntArray:
    """Return one branch's tubes, (depth,), joined with each addition, (additions, tubes)."""
    return np.concatenate([np.repeat(added[None], len(more), axis=0), more], axis=1)


def _third_tubes(pairs: IntArray, count: int) -> IntArray:
    """Return pairs, (pairs, 2), each with every later tube below `count`, (triples, 3)."""
    later = count - 1 - pairs[:, 1]
    row = np.repeat(np.arange(len(pairs)), later)
    step = np.arange(len(row)) - np.repeat(np.cumsum(later) - later, later)
    return np.concatenate([pairs[row], (pairs[row, 1] + 1 + step)[:, None]], axis=1)
