"""A Pareto archive: of the palettes seen so far, those that none beats in both price and value."""

from bisect import bisect_left, bisect_right
from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from fewtubes.selection.packed import IntArray

__all__ = ["Archive", "Seen"]


@dataclass(frozen=True)
class Seen:
    """One palette: tubes added to those in every palette, value and price."""

    added: tuple[int, ...]
    value: int
    cost: int


class Archive:
    """Palettes of rising price and rising value.

    Parameters
    ----------
    fading
        Tubes that fade, of which fewer are better where price and value are equal.
    """

    def __init__(self, fading: frozenset[int] = frozenset()) -> None:
        self._fading = fading
        self._steps: list[Seen] = []

    @property
    def steps(self) -> tuple[Seen, ...]:
        """What is kept, cheapest first."""
        return tuple(self._steps)

    def offer(self, added: tuple[int, ...], value: int, cost: int) -> None:
        """Keep a palette if none kept is as good; drop those it beats.

        Of two equal ones that with fewer tubes, then with fewer that fade, then with lower tube
        numbers, is kept.
        """
        place = bisect_right(self._steps, cost, key=lambda step: step.cost)
        before = self._steps[place - 1] if place else None
        new = Seen(tuple(sorted(added)), value, cost)
        if before is not None and before.value >= value:
            if (before.value, before.cost) == (value, cost) and self._simpler(new, before):
                self._steps[place - 1] = new
            return
        start = bisect_left(self._steps, cost, key=lambda step: step.cost)
        end = start
        while end < len(self._steps) and self._steps[end].value <= value:
            end += 1
        self._steps[start:end] = [new]

    def offer_all(
        self,
        added: IntArray,
        values: IntArray,
        costs: IntArray,
        *,
        paid: Callable[[tuple[int, ...]], int] | None = None,
    ) -> None:
        """Offer palettes of one size, shapes (palettes, size), (palettes,), (palettes,).

        Where prices are only not exceeded, `paid` tells what tubes added truly cost.
        """
        order = np.lexsort((-values, costs))
        sorted_values = values[order]
        ahead = np.maximum.accumulate(sorted_values)
        leading = np.ones(len(order), dtype=np.bool_)
        leading[1:] = sorted_values[1:] > ahead[:-1]
        for row in order[leading].tolist():
            tubes = tuple(sorted(added[row].tolist()))
            cost = int(costs[row]) if paid is None else paid(tubes)
            self.offer(tubes, int(values[row]), cost)

    def _simpler(self, new: Seen, old: Seen) -> bool:
        """Whether the one goes before the other, equal in price and value."""
        ranks = [
            (len(seen.added), len(self._fading.intersection(seen.added)), seen.added)
            for seen in (new, old)
        ]
        return ranks[0] < ranks[1]

    def best_within(self, costs: IntArray) -> IntArray:
        """Return the greatest value kept within each price, 0 if none is."""
        kept = np.array([step.cost for step in self._steps], dtype=np.int64)
        values = np.array([0, *(step.value for step in self._steps)], dtype=np.int64)
        return np.asarray(values[np.searchsorted(kept, costs, side="right")])
