"""Exact branch and bound over palettes.

A branch holds some tubes and rules out some. It is cut when the bound says that what is sought
lies not in it; otherwise it is split over a small blocker of a sample not yet covered: the first
tube of the blocker that is bought is its first, its second … or none is, and the sample is lost.
Many branches are worked on at once.
"""

import time
from collections.abc import Callable
from dataclasses import dataclass, field

import numpy as np
import numpy.typing as npt

from fewtubes.masks import BoolArray
from fewtubes.selection.blockers import BlockerPool
from fewtubes.selection.bound import Bounds, Branches, Rows, bound_branches
from fewtubes.selection.packed import IntArray, PackedSets

__all__ = ["Goal", "Search", "explore"]

BATCH = 96
"""Branches worked on at once."""


@dataclass
class Goal:
    """What is sought: palettes of at least this value within slots and money.

    The visitor may tighten it while the search runs.
    """

    value: int
    slots: int
    """Most tubes bought."""
    money: int
    """Largest total price."""


@dataclass
class Search:
    """What searches over one instance share, and their running count."""

    packed: PackedSets
    prices: IntArray
    """Price of each tube, shape (n,); 0 for owned ones."""
    held: BoolArray
    """Tubes in every palette: owned and must-have ones, shape (n,)."""
    deadline: float
    """Value of `time.monotonic` at which to stop."""
    pool: BlockerPool = field(init=False)
    nodes: int = 0

    def __post_init__(self) -> None:
        self.pool = BlockerPool(self.packed)


@dataclass(frozen=True, eq=False)
class _Nodes:
    """Branches waiting; those worked on at once hold the same number of tubes."""

    tubes: IntArray
    """Tubes added to the held ones, shape (branches, depth)."""
    excluded: BoolArray
    """Tubes ruled out, shape (branches, n)."""
    charges: Rows
    """Charges of the parents, shape (branches, blockers then known)."""
    bound: IntArray
    """Bound inherited, shape (branches,)."""


Visitor = Callable[[tuple[int, ...], int, int], None]
"""Called with the tubes bought, their value and their price, for each palette that is sought."""


def explore(search: Search, goal: Goal, visit: Visitor) -> bool:
    """Visit palettes that meet the goal until none can be left.

    Every palette that meets the goal as it stands when its branch is reached is visited. Returns
    True if the search was complete, False if the deadline stopped it.
    """
    n = search.packed.tube_count
    root = _Nodes(
        tubes=np.zeros((1, 0), dtype=np.int64),
        excluded=np.zeros((1, n), dtype=np.bool_),
        charges=np.zeros((1, 0), dtype=np.float32),
        bound=np.array([np.iinfo(np.int64).max]),
    )
    waiting = [root]
    _visit_new(search, goal, visit, root.tubes)
    while waiting:
        if time.monotonic() > search.deadline:
            return False
        nodes = waiting.pop()
        if len(nodes.bound) > BATCH:
            waiting.append(_rows_of(nodes, slice(BATCH, None)))
            nodes = _rows_of(nodes, slice(0, BATCH))
        nodes = _rows_of(nodes, nodes.bound >= goal.value)
        if len(nodes.bound):
            search.nodes += len(nodes.bound)
            waiting.extend(_children(search, goal, visit, nodes))
    return True


def _rows_of(nodes: _Nodes, rows: slice | BoolArray) -> _Nodes:
    """Return some of the branches."""
    return _Nodes(nodes.tubes[rows], nodes.excluded[rows], nodes.charges[rows], nodes.bound[rows])


def _palettes(search: Search, tubes: IntArray) -> IntArray:
    """Return the held and the added tubes of each branch, shape (branches, size)."""
    held = np.flatnonzero(search.held)
    return np.concatenate([np.repeat(held[None], len(tubes), axis=0), tubes], axis=1)


def _visit_new(search: Search, goal: Goal, visit: Visitor, tubes: IntArray) -> None:
    """Visit those palettes, shape (palettes, depth), that meet the goal."""
    values = search.packed.value(search.packed.cover(_palettes(search, tubes)))
    costs = search.prices[tubes].sum(axis=1) + int(search.prices[search.held].sum())
    for row in np.flatnonzero(values >= goal.value):
        if values[row] >= goal.value and costs[row] <= goal.money and tubes.shape[1] <= goal.slots:
            visit(tuple(sorted(tubes[row].tolist())), int(values[row]), int(costs[row]))


def _children(search: Search, goal: Goal, visit: Visitor, nodes: _Nodes) -> list[_Nodes]:
    """Bound the branches and split those that remain."""
    branches, blocked = _state(search, goal, nodes)
    bounds = bound_branches(
        branches, search.pool.rows, search.pool.samples, search.prices, goal.value
    )
    hopeful = (bounds.value >= goal.value) & (branches.slots > 0)
    hopeful &= ~(bounds.required & branches.money[:, None].__lt__(search.prices)).any(axis=1)
    free = branches.free & ~bounds.refused
    sizes = blocked @ free.T.astype(np.float32) if False else None
    del sizes
    added: list[IntArray] = []
    excluded: list[BoolArray] = []
    parents: list[int] = []
    stay: list[tuple[int, BoolArray]] = []
    for row in np.flatnonzero(hopeful):
        ruled_out = ~free[row]
        for tube, others in _split(search, branches, bounds, row, free[row]):
            if tube is None:
                stay.append((row, ruled_out | others))
            else:
                added.append(np.append(nodes.tubes[row], tube))
                excluded.append(ruled_out | others)
                parents.append(row)
    found: list[_Nodes] = []
    if stay:
        rows = np.array([row for row, _ in stay])
        found.append(
            _Nodes(
                nodes.tubes[rows],
                np.array([mask for _, mask in stay]),
                bounds.charges[rows],
                bounds.value[rows],
            )
        )
    if added:
        tubes = np.array(added)
        rows = np.array(parents)
        _visit_new(search, goal, visit, tubes)
        found.append(_Nodes(tubes, np.array(excluded), bounds.charges[rows], bounds.value[rows]))
    return found


def _state(search: Search, goal: Goal, nodes: _Nodes) -> tuple[Branches, Rows]:
    """Work out what each branch covers, may still buy, and which blockers are alive."""
    packed, pool = search.packed, search.pool
    cover = packed.cover(_palettes(search, nodes.tubes))
    covered = packed.bits(cover)
    palette = np.repeat(search.held[None], len(nodes.tubes), axis=0)
    np.put_along_axis(palette, nodes.tubes, values=True, axis=1)
    spent = search.prices[nodes.tubes].sum(axis=1) + int(search.prices[search.held].sum())
    money = goal.money - spent
    slots = np.full(len(nodes.tubes), goal.slots - nodes.tubes.shape[1])
    free = ~palette & ~nodes.excluded & (search.prices[None] <= money[:, None])
    alive = _alive(search, palette, covered)
    has_blocker = np.zeros(covered.shape, dtype=np.bool_)
    row, blocker = np.nonzero(alive)
    has_blocker[row, pool.samples[blocker]] = True
    lacking = np.argwhere(~covered & ~has_blocker)
    if len(lacking):
        for row, sample in lacking:
            pool.add(int(sample), palette[row], ~free[row] & ~palette[row])
        alive = _alive(search, palette, covered)
    open_tubes = free.astype(np.float32) @ pool.rows.T
    lost = np.zeros(covered.shape, dtype=np.bool_)
    row, blocker = np.nonzero(alive & (open_tubes == 0))
    lost[row, pool.samples[blocker]] = True
    live = ~covered & ~lost
    alive &= live[:, pool.samples]
    weights = np.where(live, packed.weights, 0).astype(np.float32)
    charges = np.zeros(alive.shape, dtype=np.float32)
    charges[:, : nodes.charges.shape[1]] = nodes.charges
    fresh = charges.sum(axis=1) == 0
    charges[fresh] = (alive / np.maximum(open_tubes, 1) ** 2)[fresh] * weights[fresh][:, pool.samples]
    return (
        Branches(
            base=packed.value(cover),
            weights=weights,
            free=free,
            slots=slots,
            money=money,
            alive=alive,
            charges=charges,
        ),
        open_tubes,
    )


def _alive(search: Search, palette: BoolArray, covered: BoolArray) -> BoolArray:
    """Return which blockers hold no tube of the palette and block a sample not covered."""
    pool = search.pool
    untouched = palette.astype(np.float32) @ pool.rows.T == 0
    return np.asarray(untouched & ~covered[:, pool.samples])


def _split(
    search: Search, branches: Branches, bounds: Bounds, row: int, free: BoolArray
) -> list[tuple[int | None, BoolArray]]:
    """Return the tubes to add, each with the tubes ruled out beside it; None adds nothing."""
    nothing = np.zeros(len(free), dtype=np.bool_)
    required = np.flatnonzero(bounds.required[row])
    if len(required):
        return [(int(required[0]), nothing)]
    alive = np.flatnonzero(branches.alive[row])
    if not len(alive):
        return []
    rows = search.pool.rows[alive] * free
    sizes = rows.sum(axis=1)
    weight = branches.weights[row][search.pool.samples[alive]]
    pick = np.lexsort((-weight, sizes))[0]
    tubes = np.flatnonzero(rows[pick])
    gains = bounds.charges[row] @ search.pool.rows[:, tubes]
    split: list[tuple[int | None, BoolArray]] = []
    ruled_out = nothing
    for tube in tubes[np.argsort(-gains, kind="stable")]:
        split.append((int(tube), ruled_out))
        ruled_out = ruled_out.copy()
        ruled_out[tube] = True
    return [(None, ruled_out), *split]
