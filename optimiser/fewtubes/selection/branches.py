"""What the bound of a branch needs: the samples covered and blocked, and the tubes still free."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from fewtubes.masks import BoolArray, MaskArray
from fewtubes.selection.blockers import BlockerPool, Rows
from fewtubes.selection.bound import Branches
from fewtubes.selection.packed import IntArray
from fewtubes.selection.search_state import Nodes, SearchState, Sought

__all__ = ["OpenNodes", "charged_branches", "open_nodes"]

NEVER = np.float32(1e6)
"""Size given to blockers that do not count in a branch."""


@dataclass(frozen=True, eq=False)
class OpenNodes:
    """Branches with what follows from the tubes they hold and rule out (first axis: branches)."""

    nodes: Nodes
    cover: MaskArray
    palette: BoolArray
    free: BoolArray
    prices: IntArray
    """Of each tube, shape (n,) if all branches have the same, else (branches, n)."""
    money: IntArray
    slots: IntArray
    """Tubes that can still be added, by count and by money."""

    def __getitem__(self, rows: BoolArray) -> "OpenNodes":
        return OpenNodes(
            self.nodes[rows],
            self.cover[rows],
            self.palette[rows],
            self.free[rows],
            self.prices if self.prices.ndim == 1 else self.prices[rows],
            self.money[rows],
            self.slots[rows],
        )


def open_nodes(state: SearchState, goals: Sequence[Sought], nodes: Nodes) -> OpenNodes:
    """Work out what each branch covers, and which tubes its goal lets it still buy."""
    money = np.array([goal.money for goal in goals])[nodes.goals]
    slots = np.array([goal.slots for goal in goals])[nodes.goals]
    palette = np.repeat(state.held[None], len(nodes), axis=0)
    np.put_along_axis(palette, nodes.added, values=True, axis=1)
    ways = _ways(goals)[nodes.goals]
    prices = state.prices_in(ways)
    money = money - state.costs(nodes.added, ways)
    free = ~palette & ~nodes.excluded & (prices <= money[:, None])
    free &= ~state.ruled_out_beside(nodes.added)
    enough = _fading_allowed(goals, len(state.prices))[nodes.goals]
    free &= ~(state.fading & (state.fading_in(nodes.added) >= enough)[:, None])
    out_of_question = np.iinfo(np.int64).max // (2 * len(state.prices))
    cheapest = np.sort(np.where(free, prices, out_of_question), axis=1).cumsum(axis=1)
    affordable = (cheapest <= money[:, None]).sum(axis=1)
    return OpenNodes(
        nodes=nodes,
        cover=state.packed.cover(nodes.added),
        palette=palette,
        free=free,
        prices=prices,
        money=money,
        slots=np.minimum(affordable, slots - nodes.added.shape[1]),
    )


def _ways(goals: Sequence[Sought]) -> IntArray:
    """Return in which way each goal is sought, (goals,)."""
    return np.array([goal.way for goal in goals], dtype=np.int64)


def _fading_allowed(goals: Sequence[Sought], tube_count: int) -> IntArray:
    """Return how many fading tubes each goal allows, (goals,); all where it does not say."""
    allowed = (goal.fading for goal in goals)
    return np.array([tube_count if most is None else most for most in allowed], dtype=np.int64)


def charged_branches(
    state: SearchState, opened: OpenNodes
) -> tuple[Branches, npt.NDArray[np.intp]]:
    """Return what the bound needs, and the blockers (columns) it is over.

    A sample whose blocker has no free tube left is lost. Of the others each keeps its smallest
    blockers; new ones are looked for where none is left.
    """
    packed, pool = state.packed, state.pool
    covered = packed.bits(opened.cover)
    _find_missing(pool, opened, covered)
    alive = _alive(pool, opened.palette, covered)
    sizes = np.where(alive, opened.free.astype(np.float32) @ pool.rows.T, NEVER)
    smallest = _least_by_sample(sizes, pool.samples, covered.shape)
    live = ~covered & (smallest > 0)
    weights = np.where(live, packed.weights, 0)
    limits = np.floor(weights / packed.grain).astype(np.float32)
    alive &= live[:, pool.samples]
    useful = alive & (sizes <= smallest[:, pool.samples])
    columns = np.flatnonzero(useful.any(axis=0))
    inherited = opened.nodes.columns
    columns = np.union1d(columns, inherited[alive[:, inherited].any(axis=0)])
    samples = pool.samples[columns]
    alive = alive[:, columns]
    charges = np.where(alive, _inherited(opened.nodes, columns), 0)
    charged = np.zeros(covered.shape, dtype=np.float32)
    np.add.at(charged.T, samples, charges.T)
    first = alive & (charged == 0)[:, samples] & (sizes[:, columns] <= smallest[:, samples])
    charges = np.where(first, limits[:, samples], charges)
    branches = Branches(
        base=packed.value(opened.cover),
        weights=weights,
        limits=limits,
        grain=packed.grain,
        free=opened.free,
        slots=opened.slots,
        prices=opened.prices,
        money=opened.money,
        alive=alive,
        charges=charges,
    )
    return branches, columns


def _alive(pool: BlockerPool, palette: BoolArray, covered: BoolArray) -> BoolArray:
    """Return which blockers hold no tube of the palette and block a sample not covered."""
    untouched = palette.astype(np.float32) @ pool.rows.T == 0
    return np.asarray(untouched & ~covered[:, pool.samples])


def _find_missing(pool: BlockerPool, opened: OpenNodes, covered: BoolArray) -> None:
    """Find a blocker for every uncovered sample that has none in the pool.

    What is found for one branch serves every other that holds none of its tubes.
    """
    missing = ~covered
    row, blocker = np.nonzero(_alive(pool, opened.palette, covered))
    missing[row, pool.samples[blocker]] = False
    for sample in np.flatnonzero(missing.any(axis=0)).tolist():
        rows = np.flatnonzero(missing[:, sample])
        while len(rows):
            palette = opened.palette[rows[0]]
            found = pool.add(sample, palette, ~opened.free[rows[0]] & ~palette)
            rows = rows[(opened.palette[rows] & found).any(axis=1)]


def _least_by_sample(sizes: Rows, samples: npt.NDArray[np.intp], shape: tuple[int, ...]) -> Rows:
    """Return the size of each sample's smallest blocker, shape (branches, m)."""
    least = np.full(shape, NEVER, dtype=np.float32)
    if len(samples):
        order = np.argsort(samples, kind="stable")
        starts = np.flatnonzero(np.diff(samples[order], prepend=-1))
        least[:, samples[order][starts]] = np.minimum.reduceat(sizes[:, order], starts, axis=1)
    return least


def _inherited(nodes: Nodes, columns: npt.NDArray[np.intp]) -> Rows:
    """Return the parents' charges for the blockers in question, 0 for new ones."""
    charges = np.zeros((len(nodes), len(columns)), dtype=np.float32)
    _, here, there = np.intersect1d(columns, nodes.columns, assume_unique=True, return_indices=True)
    charges[:, here] = nodes.charges[:, there]
    return charges
