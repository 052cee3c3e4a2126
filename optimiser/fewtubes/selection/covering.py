"""The fewest sets that cover all items, and of equally few those that cost least: what is asked.

Whole numbers only, as in all of `fewtubes.selection`. A painter's puddles are such sets: the
colours that one mix reaches at some wash.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import combinations
from math import comb

import numpy as np
import numpy.typing as npt

from fewtubes.masks import BoolArray

__all__ = [
    "NOT_COVERED",
    "CostArray",
    "Cover",
    "CoverInstance",
    "best_covers",
    "equal_covers",
    "greedy_cover",
    "sure_bound",
    "undominated",
]

CostArray = npt.NDArray[np.int64]

NOT_COVERED = np.iinfo(np.int64).max // 4
"""Cost of an item in a set that does not hold it; beyond all sums of costs."""

MOST_TRIED = 5_000
"""Choices of sets that are tried one by one; more take longer than HiGHS."""

BLOCK = 256
"""Sets compared with those kept at once."""


@dataclass(frozen=True, eq=False)
class CoverInstance:
    """Sets and the items that they cover, each at a cost.

    Parameters
    ----------
    costs
        Whole numbers ≥ 0, `NOT_COVERED` where a set does not hold an item, shape (sets, items).
    free
        Cost of each item without any set, `NOT_COVERED` where it needs one, shape (items,).

    Raises
    ------
    ValueError
        If an item needs a set and none holds it.
    """

    costs: CostArray
    free: CostArray

    def __post_init__(self) -> None:
        reached = (self.costs < NOT_COVERED).any(axis=0) | (self.free < NOT_COVERED)
        if not reached.all():
            raise ValueError(f"no set holds the items {np.flatnonzero(~reached).tolist()}")

    @cached_property
    def needed(self) -> BoolArray:
        """The items that need a set, shape (items,)."""
        return np.asarray(self.free >= NOT_COVERED)

    def cost_of(self, sets: Sequence[int]) -> int:
        """Return the sum over all items of the least cost; `NOT_COVERED` if any is left out."""
        least = np.vstack([self.costs[list(sets)], self.free]).min(axis=0, initial=NOT_COVERED)
        return NOT_COVERED if (least >= NOT_COVERED).any() else int(least.sum())


@dataclass(frozen=True)
class Cover:
    """What was found.

    Parameters
    ----------
    sets
        Numbers of the sets, ascending; they cover every item.
    bound
        No cover has fewer sets.
    cheapest
        Whether it is proven that no cover of as few sets costs less.
    equals
        Covers found that are as few and cost the same, this one first.
    """

    sets: tuple[int, ...]
    bound: int
    cheapest: bool
    equals: tuple[tuple[int, ...], ...]

    @property
    def proven(self) -> bool:
        """Whether no cover has fewer sets."""
        return len(self.sets) == self.bound


def undominated(costs: CostArray) -> list[int]:
    """Return the sets of which none other costs at most as much everywhere, and less somewhere.

    Whatever a set left out would do, the other does as well. Sets that cost the same everywhere all
    stay.

    Parameters
    ----------
    costs
        As of a `CoverInstance`, shape (sets, items).
    """
    held = costs < NOT_COVERED
    # Whatever dominates a set comes before it, or costs the same everywhere.
    order = np.lexsort((np.where(held, costs, 0).sum(axis=1), -held.sum(axis=1)))
    order = order[held[order].any(axis=1)]
    kept = np.zeros(0, dtype=np.intp)
    for first in range(0, len(order), BLOCK):
        some = order[first : first + BLOCK]
        rivals = costs[np.concatenate([kept, some])]
        beaten = np.array(
            [_is_beaten(costs[p], rivals[: len(kept) + turn]) for turn, p in enumerate(some)],
            dtype=np.bool_,
        )
        kept = np.concatenate([kept, some[~beaten]])
    return sorted(kept.tolist())


def _is_beaten(own: CostArray, rivals: CostArray) -> bool:
    """Return whether any rival costs at most as much everywhere, and less somewhere."""
    least = (rivals <= own).all(axis=1)
    return bool((rivals[least] < own).any())


def equal_covers(instance: CoverInstance, sets: Sequence[int]) -> list[tuple[int, ...]] | None:
    """Return every cover of as many sets that costs the same, by trying all of them.

    None if these are more than `MOST_TRIED`.
    """
    if comb(len(instance.costs), len(sets)) > MOST_TRIED:
        return None
    wanted = instance.cost_of(sets)
    return [tried for tried, cost in _covers_of(instance, len(sets)) if cost == wanted]


def best_covers(instance: CoverInstance) -> list[tuple[int, ...]] | None:
    """Return every cover of the fewest sets that costs least, by trying all of them, few first.

    None if more than `MOST_TRIED` would have to be tried.
    """
    count, tried = len(instance.costs), 0
    for number in range(count + 1):
        tried += comb(count, number)
        if tried > MOST_TRIED:
            return None
        covers = _covers_of(instance, number)
        if covers:
            least = min(cost for _, cost in covers)
            return [sets for sets, cost in covers if cost == least]
    return None


def _covers_of(instance: CoverInstance, number: int) -> list[tuple[tuple[int, ...], int]]:
    """Return every cover of a number of sets, and what it costs."""
    choices = [*combinations(range(len(instance.costs)), number)]
    tried = np.array(choices, dtype=np.intp).reshape(len(choices), number)
    least = np.broadcast_to(instance.free, (len(tried), len(instance.free)))
    for place in tried.T:
        least = np.minimum(least, instance.costs[place])
    whole = np.flatnonzero((least < NOT_COVERED).all(axis=1))
    costs = least[whole].sum(axis=1)
    return [(choices[row], cost) for row, cost in zip(whole.tolist(), costs.tolist(), strict=True)]


def greedy_cover(instance: CoverInstance) -> tuple[int, ...]:
    """Return some cover: always the set that holds most of what is left, then the cheapest such."""
    held = instance.costs < NOT_COVERED
    left, sets = instance.needed.copy(), list[int]()
    while left.any():
        gains = (held & left).sum(axis=1)
        cost = np.where(held & left, instance.costs, 0).sum(axis=1)
        taken = int(np.lexsort((cost, -gains))[0])
        sets.append(taken)
        left &= ~held[taken]
    return tuple(sorted(sets))


def sure_bound(instance: CoverInstance) -> int:
    """Return a number of sets that every cover needs, from items no two of which share a set.

    And two wherever no set alone holds all. Often it is what `greedy_cover` takes, which then is
    proven to be the fewest.
    """
    held = (instance.costs < NOT_COVERED)[:, instance.needed]
    apart, shared = 0, np.zeros(held.shape[1], dtype=np.bool_)
    for item in np.argsort(held.sum(axis=0), kind="stable").tolist():
        if not shared[item]:
            apart += 1
            shared |= held[held[:, item]].any(axis=0)
    one = bool(held.all(axis=1).any())
    return apart if one or not held.shape[1] else max(2, apart)
