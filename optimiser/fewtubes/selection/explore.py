"""Exact branch and bound over palettes.

A branch holds some tubes and rules out some. It is cut when the bound says that what is sought
lies not in it; otherwise it is split over a small blocker of a sample not yet covered: the first
tube of the blocker that is bought is its first, its second … or none is, and the sample is lost.
Where at most three more tubes can be bought, all are tried. Many branches are worked on at once,
and several goals may share them: a batch costs much the same whether it holds one branch or many.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from functools import partial

import numpy as np
import numpy.typing as npt

from fewtubes.masks import BoolArray
from fewtubes.selection.bound import Bounds, Branches, bound_branches
from fewtubes.selection.branches import OpenNodes, charged_branches, open_nodes
from fewtubes.selection.finish import LAST_TUBES, finish, visit_all
from fewtubes.selection.in_ways import TrueVisits, goals_in_ways
from fewtubes.selection.packed import IntArray
from fewtubes.selection.paint_bound import PaintedBranches, weight_scale
from fewtubes.selection.search_state import Goal, Nodes, SearchState, Sought, Visitor
from fewtubes.threads import one_thread_per_product

__all__ = ["Exploration", "GoalVisitor", "explore", "explore_all"]

GoalVisitor = Callable[[int, tuple[int, ...], int, int], None]
"""Called with the number of the goal, and then as a `Visitor`."""

BATCH = 64
"""Branches worked on at once."""

STEPS_AT_ROOT = 25
STEPS_BELOW = 5
"""Steps towards the best bound; below the root the parent's charges are a good start."""


@dataclass(frozen=True)
class Exploration:
    """How a search ended."""

    complete: bool
    """Whether every branch was looked at or cut; False if a limit of the state came first."""
    bound: int
    """Upper bound on the value in branches not looked at; 0 if complete."""


def explore(state: SearchState, goal: Goal, visit: Visitor) -> Exploration:
    """Visit palettes that meet the goal until none can be left.

    Every palette that meets the goal as it stands when its branch is reached is visited, except
    those that hold a tube without which they would cover as much.
    """

    def visit_for(_goal: int, added: tuple[int, ...], value: int, cost: int) -> None:
        visit(added, value, cost)

    return explore_all(state, [goal], visit_for)[0]


def explore_all(
    state: SearchState, goals: Sequence[Goal], visit: GoalVisitor
) -> tuple[Exploration, ...]:
    """Do for several goals at once what `explore` does for one; return how each ended."""
    sought: Sequence[Sought] = goals
    own, unseen = np.arange(len(goals)), dict[int, int]()
    if state.buying is not None:
        in_ways = goals_in_ways(state.buying, goals)
        visit = visits = TrueVisits(state, state.buying, in_ways, visit)
        unseen = visits.unseen
        sought, own = in_ways, np.array([one.number for one in in_ways], dtype=np.int64)
    with one_thread_per_product():
        waiting = _explore(state, sought, visit)
    left = [(own[nodes.goals], nodes.bound) for nodes in waiting]
    return tuple(_ended(number, left, unseen.get(number, -1)) for number in range(len(goals)))


def _ended(number: int, left: list[tuple[IntArray, IntArray]], unseen: int) -> Exploration:
    """Return how one goal ended, from the goals and bounds of the branches left.

    Of palettes found but not looked at any more, `unseen` is the greatest value; below 0: none.
    """
    bounds = [int(bound[goals == number].max(initial=-1)) for goals, bound in left]
    worst = max([unseen, *bounds])
    return Exploration(complete=worst < 0, bound=max(0, worst))


def _roots(state: SearchState, goals: Sequence[Sought]) -> Nodes:
    """Return one branch for each goal, nothing added yet but what it begins with."""
    count, begun = len(goals), len(goals[0].begun) if goals else 0
    barred = np.repeat(state.barred[None], count, axis=0)
    for row, goal in enumerate(goals):
        if goal.barred is not None:
            barred[row] |= goal.barred
    return Nodes(
        goals=np.arange(count),
        added=np.array([goal.begun for goal in goals], dtype=np.int64).reshape(count, begun),
        excluded=barred,
        columns=np.zeros(0, dtype=np.intp),
        charges=np.zeros((count, 0), dtype=np.float32),
        bound=np.full(count, int(state.packed.weights.sum())),
    )


def _explore(state: SearchState, goals: Sequence[Sought], visit: GoalVisitor) -> list[Nodes]:
    """Look at branches until none is left or the state's limits are reached; return those left."""
    roots = _roots(state, goals)
    waiting = [roots] if goals else []
    _visit_each(state, goals, visit, roots.goals, roots.added)
    paint_known = state.least_paint is not None
    while waiting and state.may_go_on:
        if not paint_known and state.least_paint is not None:
            # From the root on branches are fewer now, and what is found need not be found again.
            paint_known, waiting = True, [roots]
        nodes = waiting.pop()
        if len(nodes) > BATCH:
            waiting.append(nodes[BATCH:])
            nodes = nodes[:BATCH]
        nodes = nodes[nodes.bound >= _values(goals)[nodes.goals]]
        if len(nodes):
            state.nodes += len(nodes)
            waiting.extend(_children(state, goals, visit, nodes))
    return waiting


def _values(goals: Sequence[Sought]) -> IntArray:
    """Return the value each goal seeks by now, shape (goals,)."""
    return np.array([goal.value for goal in goals], dtype=np.int64)


def _visit_each(
    state: SearchState,
    goals: Sequence[Sought],
    visit: GoalVisitor,
    which: IntArray,
    added: IntArray,
) -> None:
    """Visit those of the palettes, (branches, depth), that meet the goal they are looked at for."""
    values = state.values(added)
    for number in np.unique(which).tolist():
        rows = which == number
        visit_all(
            state, goals[number], partial(visit, number), added=added[rows], values=values[rows]
        )


def _children(
    state: SearchState, goals: Sequence[Sought], visit: GoalVisitor, nodes: Nodes
) -> list[Nodes]:
    """Finish, cut or split branches; return the parts, those to look at first last."""
    opened = open_nodes(state, goals, nodes)
    painted = _painted(state, goals, opened)
    if painted is not None:
        opened, painted = opened[painted.payable], painted[painted.payable]
    few = opened.slots <= LAST_TUBES
    for row in np.flatnonzero(few & (opened.slots > 0)).tolist():
        number = int(opened.nodes.goals[row])
        finish(
            state,
            goals[number],
            partial(visit, number),
            added=opened.nodes.added[row],
            cover=opened.cover[row],
            free=opened.free[row],
            slots=int(opened.slots[row]),
        )
    if few.all():
        return []
    opened = opened[~few]
    branches, columns = charged_branches(state, opened)
    target = _values(goals)[opened.nodes.goals]
    bounds = _bounded(
        state,
        branches,
        None if painted is None else painted[~few],
        columns,
        target,
        steps=STEPS_BELOW if nodes.added.shape[1] else STEPS_AT_ROOT,
    )
    split = _Split(state, opened.nodes, branches, bounds, columns)
    without, with_tube = split.parts(target)
    if with_tube:
        _visit_each(state, goals, visit, with_tube[0].goals, with_tube[0].added)
    return without + with_tube


def _painted(
    state: SearchState, goals: Sequence[Sought], opened: OpenNodes
) -> PaintedBranches | None:
    """Return what paint lets branches be; None where that is not known."""
    paint = state.least_paint
    if paint is None:
        return None
    return PaintedBranches.of(
        paint,
        allowed=opened.palette | opened.free,
        covered=state.packed.bits(opened.cover),
        money=np.array([goal.money for goal in goals], dtype=np.int64)[opened.nodes.goals],
    )


def _bounded(
    state: SearchState,
    branches: Branches,
    painted: PaintedBranches | None,
    columns: npt.NDArray[np.intp],
    target: IntArray,
    *,
    steps: int,
) -> Bounds:
    """Return the bounds of branches, under the weights that paint leaves where it is known."""
    rows, samples = state.pool.rows[columns], state.pool.samples[columns]
    if painted is None:
        return bound_branches(branches, rows, samples, target, steps=steps)
    scale = weight_scale(int(state.packed.weights.sum()))
    under = painted.reweighed(branches, scale=scale, share=1.0)
    bounds = bound_branches(under, rows, samples, target * scale, steps=steps)
    return replace(bounds, value=bounds.value // scale)


@dataclass(frozen=True, eq=False)
class _Split:
    """Branches that are bounded and now to be split."""

    state: SearchState
    nodes: Nodes
    branches: Branches
    bounds: Bounds
    columns: npt.NDArray[np.intp]

    def parts(self, target: IntArray) -> tuple[list[Nodes], list[Nodes]]:
        """Return the parts of all branches that may hold what is sought.

        Parameters
        ----------
        target
            The value sought in each branch, shape (branches,).

        Returns
        -------
        The parts that lose a sample, and those that buy a tube; each list holds one or none.
        """
        too_dear = self.bounds.required & (self.branches.prices > self.branches.money[:, None])
        hopeful = (self.bounds.value >= target) & ~too_dear.any(axis=1)
        with_tube: list[tuple[int, int, BoolArray]] = []
        without: list[tuple[int, BoolArray]] = []
        for row in np.flatnonzero(hopeful).tolist():
            free = self.branches.free[row] & ~self.bounds.refused[row]
            excluded = ~free
            for tube in self._tubes(row, free):
                with_tube.append((row, tube, excluded))
                excluded = excluded.copy()
                excluded[tube] = True
            if not self.bounds.required[row].any() and self.branches.alive[row].any():
                without.append((row, excluded))
        losing: list[Nodes] = []
        buying: list[Nodes] = []
        if without:
            rows = np.array([row for row, _ in without])
            losing.append(self._nodes(rows, self.nodes.added[rows], [mask for _, mask in without]))
        if with_tube:
            rows = np.array([row for row, _, _ in with_tube])
            tubes = np.array([tube for _, tube, _ in with_tube])
            added = np.concatenate([self.nodes.added[rows], tubes[:, None]], axis=1)
            buying.append(self._nodes(rows, added, [mask for _, _, mask in with_tube]))
        return losing, buying

    def _nodes(
        self, rows: npt.NDArray[np.intp], added: IntArray, excluded: list[BoolArray]
    ) -> Nodes:
        """Return parts of the branches in `rows`."""
        return Nodes(
            self.nodes.goals[rows],
            added,
            np.array(excluded),
            self.columns,
            self.bounds.charges[rows],
            self.bounds.value[rows],
        )

    def _tubes(self, row: int, free: BoolArray) -> list[int]:
        """Return the tubes to split over: a required one alone, or those of a small blocker."""
        required = np.flatnonzero(self.bounds.required[row])
        if len(required):
            return [int(required[0])]
        alive = np.flatnonzero(self.branches.alive[row])
        if not len(alive):
            return []
        rows = self.state.pool.rows[self.columns[alive]] * free
        weights = self.branches.weights[row][self.state.pool.samples[self.columns[alive]]]
        smallest = np.lexsort((-weights, rows.sum(axis=1)))[0]
        tubes = np.flatnonzero(rows[smallest])
        gains = self.bounds.charges[row] @ self.state.pool.rows[self.columns][:, tubes]
        return [int(tube) for tube in tubes[np.argsort(-gains, kind="stable")]]
