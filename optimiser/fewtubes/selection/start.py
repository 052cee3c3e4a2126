"""A good palette to begin with, by local search.

It proves nothing, but an exact search that starts from a good palette cuts off more branches.

Palettes are filled at random, then one tube at a time is exchanged for the one that serves best
until no exchange helps.
"""

from dataclasses import replace

import numpy as np

from fewtubes.masks import BoolArray
from fewtubes.selection.buying import Buying
from fewtubes.selection.packed import IntArray
from fewtubes.selection.search_state import Goal, SearchState
from fewtubes.selection.terms import OUT_OF_REACH

__all__ = ["good_palette"]

RESTARTS = 10

RESTARTS_IN_A_WAY, MOST_WAYS_TRIED = 2, 8
"""Under terms: in each of so many ways to buy, those that cost least by themselves."""

MOST_COSTED = 30
"""Tubes of which the true cost is counted each time, some 20 ms, where paint depends on others."""

MOST_AT_FIRST = 12
"""Tubes filled in at random; what is useful beyond is added one by one."""

SEED = 20_240_229
"""Any number does; a fixed one makes every run the same."""


def good_palette(state: SearchState, goal: Goal) -> tuple[int, ...]:
    """Return tubes to add to those held, within the goal's slots and money, ascending.

    Under terms there is nothing within the money if not even the held tubes are; then none.
    """
    if state.buying is not None:
        return _good_in_some_way(state, state.buying, goal)
    return _good(state, goal, RESTARTS)


def _good_in_some_way(state: SearchState, buying: Buying, goal: Goal) -> tuple[int, ...]:
    """Return the best that is found in a few of the ways to buy, at its true cost."""
    found: list[tuple[tuple[int, int, int], tuple[int, ...]]] = []
    ways = buying.ways.within(min(goal.money, OUT_OF_REACH - 1))
    order = np.argsort(buying.ways.fixed[ways], kind="stable")[:MOST_WAYS_TRIED]
    for way in ways[order].tolist():
        view = replace(state, prices=buying.ways.prices[way], buying=None)
        money = goal.money - int(buying.ways.fixed[way])
        if int(view.prices[view.held].sum()) > money:
            continue
        added = _good(view, replace(goal, money=money), RESTARTS_IN_A_WAY)
        while added and buying.cost(added, goal.money) is None:
            rest = [added[:place] + added[place + 1 :] for place in range(len(added))]
            added = min(rest, key=lambda tubes: _rank(view, tubes))
        if not (buying.must_serve and state.has_surplus(added, -_rank(view, added)[0])):
            found.append((_rank(view, added), added))
    if buying.must_serve:
        view = replace(state, buying=None)
        grown = _grown_at_true_cost(state, buying, goal)
        found += [(_rank(view, added), added) for added in grown]
    return min(found, default=((0, 0, 0), ()))[1]


def _grown_at_true_cost(state: SearchState, buying: Buying, goal: Goal) -> list[tuple[int, ...]]:
    """Return palettes to which tubes were added one by one, each the best gain for its price.

    Where paint depends on the palette, prices by addition are so far below what is paid that what
    is filled up by them is mostly too dear. True costs take long to count, so few are.
    """
    added: tuple[int, ...] = ()
    paid = buying.cost(added, goal.money)
    grown: list[tuple[int, ...]] = []
    while paid is not None and len(added) < goal.slots:
        value = int(state.values(np.array([added], dtype=np.int64).reshape(1, -1))[0])
        best: tuple[float, tuple[int, ...], int] | None = None
        for worth, tube in _serving(state, goal, added)[:MOST_COSTED]:
            more = tuple(sorted((*added, tube)))
            if worth <= value or not state.may_go_on:
                break
            cost = None if state.has_surplus(more, worth) else buying.cost(more, goal.money)
            if cost is not None:
                rate = (worth - value) / max(1, cost - paid)
                best = max(best or (0.0, (), 0), (rate, more, cost))
        if best is None:
            break
        added, paid = best[1], best[2]
        grown.append(added)
    return grown


def _serving(state: SearchState, goal: Goal, added: tuple[int, ...]) -> list[tuple[int, int]]:
    """Return what each tube that may be added makes of the value, and its number; most first."""
    row = np.array([added], dtype=np.int64).reshape(1, -1)
    free = _affordable(replace(state, buying=None), goal, row)
    values = state.packed.value(state.packed.cover(row)[0] | state.packed.gains(row)[0][free])
    order = np.lexsort((free, -values))
    return list(zip(values[order].tolist(), free[order].tolist(), strict=True))


def _good(state: SearchState, goal: Goal, restarts: int) -> tuple[int, ...]:
    """Return tubes to add where prices add up, ascending."""
    rng = np.random.default_rng(SEED)
    tubes = np.flatnonzero(~state.held & ~state.barred)
    best: tuple[int, ...] = ()
    best_rank = _rank(state, ())
    for _ in range(restarts):
        added = _improved(state, goal, _filled(state, goal, (), rng.permutation(tubes)), rng)
        rank = _rank(state, added)
        if rank < best_rank:
            best, best_rank = added, rank
    return tuple(sorted(best))


def _rank(state: SearchState, added: tuple[int, ...]) -> tuple[int, int, int]:
    """Return value (largest first), number and cost; smaller is better."""
    row = np.array([added], dtype=np.int64).reshape(1, -1)
    return (-int(state.values(row)[0]), len(added), int(state.costs(row)[0]))


def _filled(
    state: SearchState, goal: Goal, added: tuple[int, ...], order: IntArray
) -> tuple[int, ...]:
    """Add tubes in this order as long as slots and money last."""
    money = goal.money - int(state.costs(np.array([added], dtype=np.int64).reshape(1, -1))[0])
    for tube in order.tolist():
        if len(added) >= min(goal.slots, MOST_AT_FIRST):
            break
        fits = tube not in added and state.prices[tube] <= money
        if fits and (state.excluding is None or not state.excluding[tube, list(added)].any()):
            added = (*added, tube)
            money -= int(state.prices[tube])
    return added


def _improved(
    state: SearchState, goal: Goal, added: tuple[int, ...], rng: np.random.Generator
) -> tuple[int, ...]:
    """Exchange or drop single tubes until that no longer helps."""
    rank = _rank(state, added)
    improving = True
    while improving:
        improving = False
        for tube in added:
            rest = tuple(other for other in added if other != tube)
            order = rng.permutation(len(state.prices))
            order = order[~state.held[order] & ~state.barred[order]]
            candidates = [rest, _with_best(state, goal, rest)]
            candidates.append(_filled(state, goal, candidates[1], order))
            ranks = [_rank(state, candidate) for candidate in candidates]
            nearest = min(range(len(candidates)), key=ranks.__getitem__)
            if ranks[nearest] < rank:
                added, rank, improving = candidates[nearest], ranks[nearest], True
                break
    return added


def _with_best(state: SearchState, goal: Goal, added: tuple[int, ...]) -> tuple[int, ...]:
    """Add the one tube that serves best, the cheaper one of equals."""
    row = np.array([added], dtype=np.int64).reshape(1, -1)
    free = _affordable(state, goal, row)
    if not len(free):
        return added
    cover = state.packed.cover(row)[0]
    values = state.packed.value(cover | state.packed.gains(row)[0][free])
    return (*added, int(free[np.lexsort((state.prices[free], -values))[0]]))


def _affordable(state: SearchState, goal: Goal, row: IntArray) -> IntArray:
    """Return the tubes that can be added to one palette, shape (1, depth)."""
    if row.shape[1] >= goal.slots:
        return np.zeros(0, dtype=np.int64)
    free: BoolArray = (
        ~state.held & ~state.barred & (state.prices <= goal.money - int(state.costs(row)[0]))
    )
    free[row[0]] = False
    free &= ~state.ruled_out_beside(row)[0]
    return np.flatnonzero(free)
