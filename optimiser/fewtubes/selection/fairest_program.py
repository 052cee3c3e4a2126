"""Shares under which few palettes are worth looking at: two small linear programs.

Over the palettes P found so far, with the coverage c_k(P) of scenario k:

worst first
    min U subject to Σ λ_k·c_k(P) ≤ U for all P, Σ λ_k = 1, λ ≥ 0. It is the dual of the greatest
    worst coverage that chances of these palettes have.
then the mean
    min U subject to Σ μ_k·c_k(P) + Σ ν_k·(c_k(P) − z_k) ≤ U for all P, ν ≥ 0. It is the dual of the
    greatest mean of those that reach z_k of each scenario.

What comes out is rounded to fractions whose sum is exactly 1, none of them 0. A poor one costs time
and never a proof (`fewtubes.selection.fairest`).
"""

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

import numpy as np

from fewtubes.colour.bands import FloatArray

__all__ = ["Price", "mean_price", "worst_price"]

Coverages = Sequence[Fraction]
"""Of each scenario [0–1]."""

FINENESS = 10**9
"""Fractions are rounded to so many parts."""

LEAST_SHARE = Fraction(1, 1_000_000)
"""Of any scenario, divided by their number: so every colour counts in the search, which leaves out
palettes with a tube that covers nothing more."""

STEEPEST = 1000.0
"""Largest ν."""


@dataclass(frozen=True)
class Price:
    """What each scenario's coverage counts, and what that makes of the palettes found.

    Parameters
    ----------
    shares
        How much each scenario counts, above 0, with the sum 1.
    of_mean
        Part of that which stands for the mean [0–1]; 0 where the worst goes first.
    upper
        What the best of the palettes found is worth under these shares [0–1].
    """

    shares: tuple[Fraction, ...]
    of_mean: Fraction
    upper: Fraction

    def sought(self, least: Coverages, mean: Fraction, counts: Coverages) -> Fraction:
        """Return what a palette is worth at least that covers so much of each, and on average.

        Parameters
        ----------
        least
            What it covers of each scenario at least [0–1].
        mean
            What it covers on average at least [0–1].
        counts
            How much each scenario counts in the mean, with the sum 1.
        """
        for_mean = self.of_mean
        rest = (
            (share - for_mean * count) * one
            for share, count, one in zip(self.shares, counts, least, strict=True)
        )
        return for_mean * mean + sum(rest, Fraction(0))

    def mean_of(self, worth: Fraction, least: Coverages, counts: Coverages) -> Fraction:
        """Return the mean coverage that nothing exceeds which is worth no more than that.

        Parameters
        ----------
        worth
            Under these shares.
        least, counts
            As of `sought`; `of_mean` must be above 0.
        """
        return (worth - self.sought(least, Fraction(0), counts)) / self.of_mean


def worst_price(found: Sequence[Coverages], least_worth: float = 0.0) -> Price:
    """Return the price for palettes of which the worst coverage goes first.

    Or, with coverages less what is asked for, which may be less than 0 but no less than
    `least_worth`, the price for those that come nearest to that where they come least near.
    """
    count = len(found[0])
    rows = np.array([[float(one) for one in row] for row in found])
    parts = _solved(
        cost=np.append(np.zeros(count), 1.0),
        rows=np.hstack([rows, -np.ones((len(rows), 1))]),
        most=np.zeros(len(rows)),
        sums=(np.append(np.ones(count), 0.0)[None], np.ones(1)),
        bounds=[*[(0.0, 1.0)] * count, (least_worth, 1.0)],
    )
    shares = _rounded(parts if parts is not None else [1.0] * count)
    return Price(shares, Fraction(0), _upper(shares, found))


def mean_price(found: Sequence[Coverages], least: Coverages, counts: Sequence[Fraction]) -> Price:
    """Return the price for those that reach `least` of each scenario; `counts` are of the mean."""
    count = len(counts)
    rows = np.array([[float(one) for one in row] for row in found])
    means = rows @ np.array([float(one) for one in counts])
    parts = _solved(
        cost=np.append(np.zeros(count), 1.0),
        rows=np.hstack([rows - np.array([float(one) for one in least]), -np.ones((len(rows), 1))]),
        most=-means,
        sums=None,
        bounds=[*[(0.0, STEEPEST)] * count, (0.0, None)],
    )
    extra = [Fraction(round(part * FINENESS), FINENESS) for part in parts or [0.0] * count]
    whole = 1 + sum(extra, Fraction(0))
    shares = tuple((c + e) / whole for c, e in zip(counts, extra, strict=True))
    return Price(shares, 1 / whole, _upper(shares, found))


def _solved(
    *,
    cost: FloatArray,
    rows: FloatArray,
    most: FloatArray,
    sums: tuple[FloatArray, FloatArray] | None,
    bounds: list[tuple[float, float | None]],
) -> list[float] | None:
    """Return the variables but the last, none below 0; None if there is no solution."""
    from scipy.optimize import linprog

    A_eq, b_eq = sums or (None, None)
    solved = linprog(
        cost, A_ub=rows, b_ub=most, A_eq=A_eq, b_eq=b_eq, bounds=bounds, method="highs"
    )
    if solved.x is None:
        return None
    return [max(0.0, float(part)) for part in solved.x[:-1]]


def _rounded(parts: Sequence[float]) -> tuple[Fraction, ...]:
    """Return shares as fractions with the sum 1, none of them 0."""
    least = LEAST_SHARE / len(parts)
    whole = [Fraction(round(part * FINENESS), FINENESS) + least for part in parts]
    total = sum(whole, Fraction(0))
    return tuple(part / total for part in whole)


def _upper(shares: Sequence[Fraction], found: Sequence[Coverages]) -> Fraction:
    """Return what the best of the palettes found is worth."""
    return max(
        sum((share * one for share, one in zip(shares, row, strict=True)), Fraction(0))
        for row in found
    )
