"""Exact branch and bound over palettes.

A branch holds some tubes and rules out some. It is cut when the bound says that what is sought
lies not in it; otherwise it is split over a small blocker of a sample not yet covered: the first
tube of the blocker that is bought is its first, its second … or none is, and the sample is lost.
Where at most two more tubes can be bought, all are tried. Many branches are worked on at once.
"""

import time
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from fewtubes.masks import BoolArray
from fewtubes.selection.bound import Bounds, Branches, bound_branches
from fewtubes.selection.branches import charged_branches, open_nodes
from fewtubes.selection.finish import LAST_TUBES, finish, visit_all
from fewtubes.selection.packed import IntArray
from fewtubes.selection.search_state import Goal, Nodes, SearchState, Visitor
from fewtubes.threads import one_thread_per_product

__all__ = ["Exploration", "explore"]

BATCH = 64
"""Branches worked on at once."""

STEPS_AT_ROOT = 80
STEPS_BELOW = 5
"""Steps towards the best bound; below the root the parent's charges are a good start."""


@dataclass(frozen=True)
class Exploration:
    """How a search ended."""

    complete: bool
    """Whether every branch was looked at or cut; False if the deadline came first."""
    bound: int
    """Upper bound on the value in branches not looked at; 0 if complete."""


def explore(state: SearchState, goal: Goal, visit: Visitor) -> Exploration:
    """Visit palettes that meet the goal until none can be left.

    Every palette that meets the goal as it stands when its branch is reached is visited, except
    those that hold a tube without which they would cover as much.
    """
    with one_thread_per_product():
        return _explore(state, goal, visit)


def _explore(state: SearchState, goal: Goal, visit: Visitor) -> Exploration:
    """Do what `explore` does."""
    waiting = [
        Nodes(
            added=np.zeros((1, 0), dtype=np.int64),
            excluded=state.barred[None].copy(),
            columns=np.zeros(0, dtype=np.intp),
            charges=np.zeros((1, 0), dtype=np.float32),
            bound=np.array([int(state.packed.weights.sum())]),
        )
    ]
    root = waiting[0].added
    visit_all(state, goal, visit, added=root, values=state.values(root))
    while waiting:
        if time.monotonic() > state.deadline:
            return Exploration(
                complete=False, bound=max(int(group.bound.max()) for group in waiting)
            )
        nodes = waiting.pop()
        if len(nodes) > BATCH:
            waiting.append(nodes[BATCH:])
            nodes = nodes[:BATCH]
        nodes = nodes[nodes.bound >= goal.value]
        if len(nodes):
            state.nodes += len(nodes)
            waiting.extend(_children(state, goal, visit, nodes))
    return Exploration(complete=True, bound=0)


def _children(state: SearchState, goal: Goal, visit: Visitor, nodes: Nodes) -> list[Nodes]:
    """Finish, cut or split branches; return the parts, those to look at first last."""
    opened = open_nodes(state, goal, nodes)
    few = opened.slots <= LAST_TUBES
    for row in np.flatnonzero(few & (opened.slots > 0)):
        finish(
            state,
            goal,
            visit,
            added=nodes.added[row],
            cover=opened.cover[row],
            free=opened.free[row],
            slots=int(opened.slots[row]),
        )
    if few.all():
        return []
    opened = opened[~few]
    branches, columns = charged_branches(state, opened)
    bounds = bound_branches(
        branches,
        state.pool.rows[columns],
        state.pool.samples[columns],
        state.prices,
        goal.value,
        steps=STEPS_BELOW if nodes.added.shape[1] else STEPS_AT_ROOT,
    )
    split = _Split(state, opened.nodes, branches, bounds, columns)
    return split.parts(goal, visit)


@dataclass(frozen=True, eq=False)
class _Split:
    """Branches that are bounded and now to be split."""

    state: SearchState
    nodes: Nodes
    branches: Branches
    bounds: Bounds
    columns: npt.NDArray[np.intp]

    def parts(self, goal: Goal, visit: Visitor) -> list[Nodes]:
        """Return the parts of all branches that may hold what is sought."""
        too_dear = self.bounds.required & (self.state.prices > self.branches.money[:, None])
        hopeful = (self.bounds.value >= goal.value) & ~too_dear.any(axis=1)
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
        parts: list[Nodes] = []
        if without:
            rows = np.array([row for row, _ in without])
            parts.append(self._nodes(rows, self.nodes.added[rows], [mask for _, mask in without]))
        if with_tube:
            rows = np.array([row for row, _, _ in with_tube])
            tubes = np.array([tube for _, tube, _ in with_tube])
            added = np.concatenate([self.nodes.added[rows], tubes[:, None]], axis=1)
            visit_all(self.state, goal, visit, added=added, values=self.state.values(added))
            parts.append(self._nodes(rows, added, [mask for _, _, mask in with_tube]))
        return parts

    def _nodes(
        self, rows: npt.NDArray[np.intp], added: IntArray, excluded: list[BoolArray]
    ) -> Nodes:
        """Return parts of the branches in `rows`."""
        return Nodes(
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
