"""Palettes that come so near the best that taste can decide between them.

A palette is near-best if it is within the budget and the size, covers less than the best by at
most a given amount, and holds no tube that it could do without at no loss (must-have tubes
excepted). They are listed by rank, as many as asked for; the list says whether it holds all of
them.
"""

import heapq
from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from fewtubes.comparison.beam import grow
from fewtubes.comparison.search_palettes import palette_of
from fewtubes.masks import BoolArray
from fewtubes.selection.explore import explore_all
from fewtubes.selection.instance import ChoiceInstance, Palette
from fewtubes.selection.packed import IntArray
from fewtubes.selection.search import start_search
from fewtubes.selection.search_state import Goal, SearchState

__all__ = ["NearBest", "near_another", "near_best"]


@dataclass(frozen=True)
class NearBest:
    """Palettes near the best, ranked.

    Parameters
    ----------
    palettes
        Best first; equal ones by tube numbers.
    size
        Most tubes bought.
    least_value
        Covered weight from which a palette counts as near-best.
    complete
        Whether these are all there are.
    proven
        Whether no better-ranked one is missing.
    indispensable
        Tubes bought in every near-best palette, listed or not, so far as that was proven.
    """

    palettes: tuple[Palette, ...]
    size: int
    least_value: int
    complete: bool
    proven: bool
    indispensable: frozenset[int]


def near_best(
    instance: ChoiceInstance,
    best: Palette,
    *,
    best_proven: bool,
    size: int,
    loss: int,
    most: int,
    seconds: float,
) -> NearBest:
    """Return the palettes near the best one.

    Parameters
    ----------
    instance
        Its least value is disregarded.
    best
        The best palette of at most `size` tubes, or the best known.
    best_proven
        Whether it is proven to rank first.
    size
        Most tubes bought; never more than the instance allows.
    loss
        Covered weight that may be lost.
    most
        Palettes listed at most, at least 1.
    seconds
        Time after which the search stops with what it has [s].
    """
    return _NearBest(
        replace(instance, least_value=0),
        best,
        best_proven=best_proven,
        size=min(size, instance.most_tubes),
        least=max(0, best.value - loss),
        most=most,
        seconds=seconds,
    ).run()


def near_another(near: NearBest, own: Palette, *, loss: int, most: int) -> NearBest:
    """Return of palettes near one those that are near a better one, which is put among them.

    Nothing that was listed is forgotten but what covers too little now; since others may be
    missing, none is proven to rank where it stands. Tubes that no palette could do without before
    are needed all the more.

    Parameters
    ----------
    near
        Palettes near the best that was known.
    own
        One that ranks before it, of no more tubes.
    loss, most
        As of `near_best`.
    """
    least = max(0, own.value - loss)
    others = {palette.bought: palette for palette in near.palettes if palette.value >= least}
    ranked = sorted({**others, own.bought: own}.values(), key=lambda p: (p.rank, p.bought))
    return replace(
        near, palettes=tuple(ranked[:most]), least_value=least, complete=False, proven=False
    )


class _NearBest:
    """One run: the best-ranked palettes seen so far."""

    def __init__(
        self,
        instance: ChoiceInstance,
        best: Palette,
        *,
        best_proven: bool,
        size: int,
        least: int,
        most: int,
        seconds: float,
    ) -> None:
        self._instance = instance
        self._best = best
        self._best_proven = best_proven
        self._size = size
        self._least = least
        self._most = most
        self._slots = size - len(instance.must_have)
        self._state: SearchState = start_search(instance, seconds=seconds)
        self._kept: list[tuple[tuple[int, ...], tuple[int, ...], Palette]] = []
        """A heap whose first is the worst: its rank and tubes negated, and the palette."""
        self._seen: set[tuple[int, ...]] = set()
        self._left_out = False

    def run(self) -> NearBest:
        """Collect, then see which tubes no near-best palette can do without."""
        goal = Goal(self._least, self._slots, self._instance.budget)
        added = set(self._best.bought) - self._instance.must_have
        self._offer(tuple(sorted(added)), self._best.value, goal)
        self._begin(goal)

        def visit(_number: int, added: tuple[int, ...], value: int, _cost: int) -> None:
            self._offer(added, value, goal)

        (end,) = explore_all(self._state, [goal], visit)
        palettes = tuple(
            sorted((palette for _, _, palette in self._kept), key=lambda p: (p.rank, p.bought))
        )
        return NearBest(
            palettes=palettes,
            size=self._size,
            least_value=self._least,
            complete=end.complete and not self._left_out,
            proven=end.complete,
            indispensable=self._indispensable(palettes),
        )

    def _begin(self, goal: Goal) -> None:
        """Find good palettes, so that few others need be looked at."""

        def judge(added: IntArray, values: IntArray, _costs: IntArray) -> IntArray:
            order = np.argsort(-values, kind="stable")[: self._most]
            for row in order[values[order] >= goal.value].tolist():
                self._offer(tuple(sorted(added[row].tolist())), int(values[row]), goal)
            return -values

        grow(self._state, Goal(0, self._slots, self._instance.budget), judge)

    def _offer(self, added: tuple[int, ...], value: int, goal: Goal) -> None:
        """Keep a palette if it is near-best and among the best ranked; tighten the goal."""
        if value < self._least or added in self._seen:
            return
        self._seen.add(added)
        if self._state.has_surplus(added, value):
            return
        palette = palette_of(self._instance, self._state, added)
        if palette.cost > self._instance.budget:
            return  # under terms, the price it was found at was a guess
        backwards = tuple(-figure for figure in palette.rank)
        entry = (backwards, tuple(-tube for tube in palette.bought), palette)
        if len(self._kept) < self._most:
            heapq.heappush(self._kept, entry)
            return
        self._left_out = True
        heapq.heappushpop(self._kept, entry)
        self._tighten(goal)

    def _tighten(self, goal: Goal) -> None:
        """Seek only what can still rank before the worst palette kept."""
        worst = self._kept[0][2]
        goal.value = worst.value
        if self._best_proven and worst.value == self._best.value:
            goal.slots = len(worst.bought) - len(self._instance.must_have)
            if len(worst.bought) == len(self._best.bought):
                goal.fading = worst.fading
                if worst.fading == self._best.fading:
                    goal.money = worst.cost

    def _indispensable(self, palettes: Sequence[Palette]) -> frozenset[int]:
        """Return the tubes that every near-best palette holds."""
        if not palettes:
            return frozenset()
        shared = frozenset.intersection(*(frozenset(palette.bought) for palette in palettes))
        asked = sorted(shared - self._instance.must_have)
        goals = [self._without(tube) for tube in asked]

        def visit(number: int, _added: tuple[int, ...], _value: int, _cost: int) -> None:
            goals[number].slots = -1  # one is enough

        ends = explore_all(self._state, goals, visit)
        proven = {
            tube
            for tube, goal, end in zip(asked, goals, ends, strict=True)
            if end.complete and goal.slots >= 0
        }
        return (shared & self._instance.must_have) | proven

    def _without(self, tube: int) -> Goal:
        """Return the goal of a near-best palette without a tube."""
        barred: BoolArray = np.zeros(self._instance.tube_count, dtype=np.bool_)
        barred[tube] = True
        return Goal(self._least, self._slots, self._instance.budget, barred)
