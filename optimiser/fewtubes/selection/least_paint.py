"""What the paint for a palette's colours costs at least, where paint is needed for pictures.

Every colour covered is painted from some set R of the tubes at hand, and what that takes of each
tube must be bought. With c_R,t the least that the paint for sample t costs if it is mixed from just
the tubes R, each tube's paint at the lowest price there is for so much,

    cost(P) ≥ Σ_{t covered by P} min {c_R,t : R ⊆ P}

since packs that hold some paint of a tube cost no less than the paint at that price, and what
different colours take of a tube adds up. For a branch in which only tubes A may be in the palette,
P ⊆ A, and so the sum over min {c_R,t : R ⊆ A} bounds the cost of every palette in it
(`fewtubes.selection.paint_bound`).

All figures are whole: costs are counted in `UNITS` of a hundredth of the currency and rounded down.
"""

from dataclasses import dataclass
from functools import cached_property
from itertools import combinations

import numpy as np
import numpy.typing as npt

from fewtubes.masks import BoolArray
from fewtubes.selection.packed import IntArray

__all__ = ["UNITS", "UNREACHED", "LeastPaint"]

UNITS = 1000
"""Parts of a hundredth of the currency in which paint is counted."""

UNREACHED = 1 << 30
"""Stands for the cost where a set does not reach a sample; no budget of 10,000 is as much."""

CHEAPEST = 128
"""Sets that are looked at for each sample of a branch; where none of them is allowed, the next one
is a bound as well."""


@dataclass(frozen=True, eq=False)
class LeastPaint:
    """The least costs of paint, by sets of up to three tubes.

    Parameters
    ----------
    sets
        Tubes of each set, ascending, the last repeated where there are fewer than three, shape
        (sets, 3).
    costs
        c_R,t [`UNITS` of a hundredth], at most `UNREACHED`, shape (sets, m).
    tube_count
        The number of tubes n.
    """

    sets: npt.NDArray[np.intp]
    costs: npt.NDArray[np.int32]
    tube_count: int

    def of_palettes(self, tubes: IntArray, covered: BoolArray) -> IntArray:
        """Return what the paint for palettes costs at least [`UNITS` of a hundredth].

        Parameters
        ----------
        tubes
            Bought and owned, each once, ascending, shape (palettes, size).
        covered
            The samples covered, shape (palettes, m).

        Returns
        -------
        Shape (palettes,).
        """
        size = tubes.shape[1]
        least = np.full(covered.shape, UNREACHED, dtype=np.int32)
        places = [(i, i, i) for i in range(size)]
        places += [(i, j, j) for i, j in combinations(range(size), 2)]
        places += combinations(range(size), 3)
        n = self.tube_count
        for a, b, c in places:
            rows = self._row[(tubes[:, a] * n + tubes[:, b]) * n + tubes[:, c]]
            known = rows >= 0
            if known.all():
                np.minimum(least, self.costs[rows], out=least)
            else:
                least[known] = np.minimum(least[known], self.costs[rows[known]])
        return np.asarray(np.where(covered & (least < UNREACHED), least, 0).sum(axis=1))

    def of_samples(self, allowed: BoolArray) -> IntArray:
        """Return what each sample takes at least where only some tubes may be used.

        Parameters
        ----------
        allowed
            Shape (branches, n).

        Returns
        -------
        Shape (branches, m), 0 where nothing is known.
        """
        rows, costs, beyond = self._cheapest
        a, b, c = self.sets[rows].transpose(2, 0, 1)
        possible = allowed[:, a]
        possible &= allowed[:, b]
        possible &= allowed[:, c]
        first = possible.argmax(axis=2)
        found = np.take_along_axis(costs[None], first[:, :, None], axis=2)[:, :, 0]
        found = np.where(possible.any(axis=2), found, beyond)
        return np.where(found < UNREACHED, found, 0).astype(np.int64)

    def knowing(self, minimal: tuple[npt.NDArray[np.intp], npt.NDArray[np.intp]]) -> "LeastPaint":
        """Return the same, with nothing known of sets that cover samples though no mix reaches it.

        That rounding in the last digit may bring about.

        Parameters
        ----------
        minimal
            Sets that cover a sample, shape (rows, 3) as `sets`, and the sample of each, (rows,).
        """
        three, sample = minimal[0].astype(np.int64), minimal[1]
        n = self.tube_count
        rows = self._row[(three[:, 0] * n + three[:, 1]) * n + three[:, 2]]
        known = rows >= 0
        costs = self.costs.copy()
        row, column = rows[known], sample[known]
        costs[row, column] = np.where(costs[row, column] < UNREACHED, costs[row, column], 0)
        return LeastPaint(self.sets, costs, n)

    @cached_property
    def _row(self) -> npt.NDArray[np.int32]:
        """The row of each set by its key, −1 where there is none."""
        n = self.tube_count
        rows = np.full(n**3, -1, dtype=np.int32)
        a, b, c = self.sets.T
        rows[(a * n + b) * n + c] = np.arange(len(self.sets))
        return rows

    @cached_property
    def _cheapest(self) -> tuple[npt.NDArray[np.intp], npt.NDArray[np.int32], IntArray]:
        """For each sample the cheapest sets, (m, k), their costs, and a bound for all others.

        Sets that do not reach it come last, so that where fewer than k do, the bound is never used.
        """
        kept = min(CHEAPEST, len(self.sets))
        order = np.argsort(self.costs, axis=0, kind="stable")[: kept + 1]
        rows = order[:kept].T
        costs = np.take_along_axis(self.costs.T, rows, axis=1)
        last = np.take_along_axis(self.costs, order[-1:], axis=0)[0]
        return rows, costs, last.astype(np.int64)
