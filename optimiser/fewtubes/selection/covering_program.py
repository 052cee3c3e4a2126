"""The fewest sets that cover all items, as an integer program, proven."""

from time import perf_counter
from typing import Any

import numpy as np

from fewtubes.selection.covering import (
    NOT_COVERED,
    CostArray,
    Cover,
    CoverInstance,
    best_covers,
    equal_covers,
    greedy_cover,
    sure_bound,
    undominated,
)
from fewtubes.selection.solver import Outcome, run_solver

__all__ = ["MOST_EQUALS", "fewest_cover"]

GAP = 0.5
"""Half of the least by which two covers can differ."""

ROUNDING = 0.25
"""What the solver's tolerances may make of a bound at most; with `GAP` still less than 1."""

MOST_NODES = 20
"""Branches of one program, at most. A painter's puddles mostly take none or one (measured), and
what is decided by branches is the same on a busy machine; time is the last resort."""

MOST_EQUALS = 8
"""Covers that rank equal and are listed; more are a matter of taste."""


def fewest_cover(instance: CoverInstance, *, seconds: float, cheapest: bool = True) -> Cover:
    """Return the fewest sets that cover all items, and of equally few those that cost least.

    Parameters
    ----------
    instance
        Sets and items.
    seconds
        Time allowed [s], the last resort: what a program of many branches may take is limited by
        these (`MOST_NODES`), so that the same sets are found however busy the machine is.
    cheapest
        Whether costs matter; else any of the fewest will do, which is found sooner.

    Notes
    -----
    Numbers: c_p,t cost of item t in set p, f_t its cost without any, all whole. Variables::

        u_p    ∈ {0, 1}   taken_p
        z_p,t  ∈ [0, 1]   held_t__by_p     item t counts as held by set p, or by none (p = free)

    min M Σ u_p + Σ c_p,t z_p,t + Σ f_t z_free,t, where M exceeds whatever costs can differ by, so
    that fewer sets go before any cost. Where few choices of sets are possible all are tried
    instead, which is sooner done than the program is built. Subject to::

        Σ_p z_p,t + z_free,t = 1     each t       item_t
        z_p,t ≤ u_p                  each p, t    item_t__needs_set_p

    With u whole the cheapest z is whole too and need not be declared so. Where costs do not matter
    Σ_{p holds t} u_p ≥ 1 stands for both. What HiGHS finds is counted anew in whole numbers.
    """
    deadline = perf_counter() + seconds
    costs = np.where(instance.costs < NOT_COVERED, instance.costs if cheapest else 0, NOT_COVERED)
    free = np.where(instance.needed, NOT_COVERED, instance.free if cheapest else 0)
    places = undominated(costs if cheapest else costs[:, instance.needed])
    reduced = CoverInstance(costs[places], free)
    if not reduced.needed.any():
        return Cover((), 0, cheapest=True, equals=((),))
    start = greedy_cover(reduced)
    tried = best_covers(reduced) if seconds > 0 else None
    if not cheapest and len(start) == sure_bound(reduced):
        equals, bound, proven = [start], len(start), True
    elif tried is not None:
        equals, bound, proven = tried[: MOST_EQUALS if cheapest else 1], len(tried[0]), True
    else:
        run = _Run(reduced, cheapest=cheapest)
        best, bound, proven = run.best(start, deadline)
        equals = run.equals(best, deadline) if cheapest and proven else [best]
    sets = [tuple(places[p] for p in found) for found in equals]
    return Cover(sets[0], bound, proven, tuple(sets))


class _Run:
    """The program of one instance."""

    def __init__(self, instance: CoverInstance, *, cheapest: bool) -> None:
        import pulp

        self.instance, self.cheapest = instance, cheapest
        held = instance.costs < NOT_COVERED
        self.problem = pulp.LpProblem("fewest_sets", pulp.LpMinimize)
        self.taken = [
            self.problem.add_variable(f"taken_{p}", cat=pulp.LpBinary) for p in range(len(held))
        ]
        self.base, self.range = _base_and_range(instance)
        self.each = self.range + 1
        """M: what a set costs, more than all that items can."""
        terms = [self.each * u for u in self.taken]
        for t in range(held.shape[1]):
            holders = np.flatnonzero(held[:, t]).tolist()
            if cheapest:
                terms += self._item(t, holders)
            elif instance.needed[t]:
                self.problem += pulp.lpSum(self.taken[p] for p in holders) >= 1, f"item_{t}"
        self.problem.setObjective(pulp.lpSum(terms))

    def _item(self, t: int, holders: list[int]) -> list[Any]:
        """Add the variables and constraints of one item; return its terms of the objective."""
        import pulp

        costs = self.instance.costs
        z = {p: self.problem.add_variable(f"held_{t}__by_{p}", 0, 1) for p in holders}
        terms = [int(costs[p, t] - self.base[t]) * z[p] for p in holders]
        for p, held in z.items():
            self.problem += held <= self.taken[p], f"item_{t}__needs_set_{p}"
        every = [*z.values()]
        if not self.instance.needed[t]:
            every.append(self.problem.add_variable(f"held_{t}__free", 0, 1))
            terms.append(int(self.instance.free[t] - self.base[t]) * every[-1])
        self.problem += pulp.lpSum(every) == 1, f"item_{t}"
        return terms

    def value(self, sets: tuple[int, ...]) -> int:
        """Return the objective of a cover, counted in whole numbers."""
        return self.each * len(sets) + self.instance.cost_of(sets) - int(self.base.sum())

    def best(self, start: tuple[int, ...], deadline: float) -> tuple[tuple[int, ...], int, bool]:
        """Return the best cover, how few sets there must be, and whether it is proven best."""
        outcome = self._solve([], deadline)
        found = min((start, *self._read(outcome)), key=self.value)
        reach = outcome.bound - ROUNDING
        proven = self.value(found) < reach + 1
        # value = M × sets + cost with cost ≤ range < M
        least = int(np.ceil((reach - self.range) / self.each)) if np.isfinite(reach) else 0
        fewest = max(least, 1 if start else 0)
        return found, len(found) if proven else min(len(found), fewest), proven

    def equals(self, best: tuple[int, ...], deadline: float) -> list[tuple[int, ...]]:
        """Return covers that rank equal with the best, itself first."""
        tried = equal_covers(self.instance, best)
        if tried is not None:
            return [best, *(sets for sets in tried if sets != best)][:MOST_EQUALS]
        equals = [best]
        while len(equals) < MOST_EQUALS:
            other = self._equal(best, equals, deadline)
            if other is None:
                break
            equals.append(other)
        return equals

    def _equal(
        self, best: tuple[int, ...], known: list[tuple[int, ...]], deadline: float
    ) -> tuple[int, ...] | None:
        """Return another cover that ranks equal with the best, or None if none is found."""
        import pulp

        rows: list[Any] = [pulp.lpSum(self.taken) == len(best)]
        for sets in known:
            if not sets:
                return None
            rows.append(pulp.lpSum(self.taken[p] for p in sets) <= len(sets) - 1)
        for found in self._read(self._solve(rows, deadline)):
            if self.value(found) == self.value(best) and found not in known:
                return found
        return None

    def _solve(self, rows: list[Any], deadline: float) -> Outcome:
        return run_solver(
            self.problem,
            time_limit_s=deadline - perf_counter(),
            absolute_gap=GAP,
            most_nodes=MOST_NODES,
            more_rows=rows,
        )

    def _read(self, outcome: Outcome) -> list[tuple[int, ...]]:
        """Return the cover that was found, or nothing if there is none that stands."""
        if not outcome.values:
            return []
        sets = tuple(p for p, u in enumerate(self.taken) if round(outcome.values[u.name]) == 1)
        return [sets] if self.instance.cost_of(sets) < NOT_COVERED else []


def _base_and_range(instance: CoverInstance) -> tuple[CostArray, int]:
    """Return the least cost of each item, and by how much all costs together can exceed that."""
    every = np.vstack([instance.costs, instance.free])
    base = every.min(axis=0, initial=NOT_COVERED)
    most = np.where(every < NOT_COVERED, every, 0).max(axis=0, initial=0)
    return base, int((most - base).sum())
