r"""A stronger bound where paint is needed for pictures: what is covered must be painted, too.

In a branch let C be the samples covered by what it holds, π_t the least that the paint for sample t
costs in any palette of it (`LeastPaint.of_samples`), and B the money. Every palette P of the branch
that can be bought covers C and has Σ_{t ∈ cov(P)} π_t ≤ B. So for whole numbers ℓ_t, K ≥ 0 with
Σ_{t ∈ S} ℓ_t ≤ K wherever Σ_{t ∈ S} π_t ≤ B,

    value(P) = Σ_{cov(P)} w_t ≤ Σ_{cov(P)} (w_t − ℓ_t) + K
             ≤ [Σ_C (w_t − ℓ_t) + K] + Σ_{cov(P) \\ C} max(0, w_t − ℓ_t)

which is the value of P under other weights and another base: the Lagrangian bound over blockers
holds for it as it stands (`fewtubes.selection.bound`), slots and prices of tubes included, and what
it refuses and requires is so for the target itself. With a rate a ÷ 2^s, ℓ_t = ⌊a π_t ÷ 2^s⌋ and
K = ⌊a B ÷ 2^s⌋ will do, since a sum of parts rounded down is no more than the whole rounded down.
Where Σ_C π_t > B nothing in the branch can be bought.

The rate that is best if prices of tubes are left aside is that of the fractional knapsack
(G. B. Dantzig, Oper. Res. 5, 266, 1957): the value for money of the sample at which B is spent.
Weights are scaled up by a power of 2, so that little is lost by rounding ℓ_t down.
"""

from dataclasses import dataclass, replace

import numpy as np

from fewtubes.colour.bands import FloatArray
from fewtubes.masks import BoolArray
from fewtubes.selection.bound import Branches
from fewtubes.selection.least_paint import UNITS, LeastPaint
from fewtubes.selection.packed import IntArray

__all__ = ["PaintedBranches", "weight_scale"]

SHIFT = 8
"""s above."""

MOST_RATE = 1 << 32
MOST_PAINT = 1 << 30
"""a and costs of paint are kept to these at most, so that products fit in 64 bits."""

MOST_SCALED = 1 << 40
"""Sum of weights up to which they are scaled: sums of them are exact in doubles."""


def weight_scale(total: int) -> int:
    """Return the power of 2 by which weights of a sum are scaled."""
    return 1 << max(0, (MOST_SCALED // max(1, total)).bit_length() - 1)


@dataclass(frozen=True, eq=False)
class PaintedBranches:
    """What the paint for pictures lets branches be (first axis: branches)."""

    least: IntArray
    """π_t [`UNITS` of a hundredth], shape (branches, m)."""
    covered: BoolArray
    """C, shape (branches, m)."""
    money: IntArray
    """B [`UNITS` of a hundredth], shape (branches,)."""

    @classmethod
    def of(
        cls, paint: LeastPaint, *, allowed: BoolArray, covered: BoolArray, money: IntArray
    ) -> "PaintedBranches":
        """Return it for tubes that may be in the palette, (branches, n), and money [hundredths].

        A unit for each tube is added to the money, for needs are rounded to thousandths of a
        millilitre with a slack of a millionth of that.
        """
        n = paint.tube_count
        units = np.clip(money, 0, MOST_PAINT // UNITS - n - 1) * UNITS + n
        least = np.minimum(paint.of_samples(allowed), units[:, None] + 1)
        return cls(least, covered, units)

    def __getitem__(self, rows: BoolArray) -> "PaintedBranches":
        return PaintedBranches(self.least[rows], self.covered[rows], self.money[rows])

    @property
    def spent(self) -> IntArray:
        """What the paint for the samples covered takes, shape (branches,)."""
        return np.asarray(np.where(self.covered, self.least, 0).sum(axis=1))

    @property
    def payable(self) -> BoolArray:
        """Whether the money may be enough, as far as paint tells, shape (branches,)."""
        return np.asarray(self.spent <= self.money)

    def reweighed(self, branches: Branches, *, scale: int, share: float) -> Branches:
        """Return branches under other weights; a bound on their value is one on that of these.

        Parameters
        ----------
        branches
            As they are; all payable.
        scale
            By which weights, and values with them, are scaled.
        share
            Of the best rate that is taken [0–1]; any gives a bound.
        """
        weights = branches.weights * scale
        rate = np.floor(share * self._rate(weights) * 2.0**SHIFT)
        a = np.minimum(rate, MOST_RATE).astype(np.int64)
        loss = (a[:, None] * self.least) >> SHIFT
        kept = np.maximum(weights - loss, 0)
        most = (a * self.money) >> SHIFT
        return replace(
            branches,
            base=branches.base * scale - np.where(self.covered, loss, 0).sum(axis=1) + most,
            weights=kept,
            grain=branches.grain * scale,
            limits=np.floor(kept / (branches.grain * scale)).astype(np.float32),
        )

    def _rate(self, weights: IntArray) -> FloatArray:
        """Return the value for money of the sample at which it is spent; 0 if it is enough."""
        rates = weights / np.maximum(self.least, 1)
        order = np.argsort(-rates, axis=1)
        costs = np.where(weights > 0, self.least, 0)
        paid = np.take_along_axis(costs, order, axis=1).cumsum(axis=1)
        broken = (paid <= (self.money - self.spent)[:, None]).sum(axis=1)
        last = np.minimum(broken, weights.shape[1] - 1)[:, None]
        rate = np.take_along_axis(rates, np.take_along_axis(order, last, axis=1), axis=1)[:, 0]
        return np.asarray(np.where(broken < weights.shape[1], rate, 0.0))
