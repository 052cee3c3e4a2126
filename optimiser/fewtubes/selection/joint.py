"""One choice for several scenarios: what it is worth to each, in whole numbers and exact fractions.

The coverage of scenario k by a palette P is c_k(P) = v_k(P) ÷ V_k, the covered weight of all its
weight. Two things can be asked of one palette for all of them: the greatest mean Σ μ_k·c_k, with
shares μ_k that sum to 1, or the greatest worst, min_k c_k, and of those the greatest mean.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property

import numpy as np
import numpy.typing as npt

from fewtubes.selection.instance import ChoiceInstance, Palette

__all__ = ["JointChoice", "JointInstance", "JointRank", "joined_samples"]

JointRank = tuple[Fraction, Fraction, int, int, int, int, int]
"""Smaller is better: worst coverage and mean coverage (largest first), tubes, fading ones, cost,
worst and summed category."""

Samples = tuple[tuple[int, tuple[tuple[int, ...], ...]], ...]
"""For each sample of a scenario its weight and its minimal sets."""


@dataclass(frozen=True, eq=False)
class JointInstance:
    """Several scenarios over the same tubes, prices and demands.

    Parameters
    ----------
    base
        The choice with the samples of all scenarios, those with the same minimal sets counted as
        one. Its weights are to one another as the shares that the samples have in the mean; where
        that takes too large numbers, they are rounded.
    weights
        For each scenario the weight of each sample of `base` in it, 0 where it has no such sample;
        whole numbers ≥ 0, shape (scenarios, samples).
    shares
        How much each scenario counts in the mean, above 0, with the sum 1.
    least
        What must be covered of each scenario at least, in its own weights, ≥ 0; empty where nothing
        is asked for.
    """

    base: ChoiceInstance
    weights: tuple[tuple[int, ...], ...]
    shares: tuple[Fraction, ...]
    least: tuple[int, ...] = ()

    @cached_property
    def floors(self) -> tuple[Fraction, ...]:
        """What must be covered of each scenario at least [0–1]; above 1 where none can."""
        return tuple(map(Fraction, self.least or (0,) * len(self.totals), self.totals))

    def keeps(self, coverages: Sequence[Fraction]) -> bool:
        """Whether of each scenario what is asked for at least is covered."""
        return all(has >= least for has, least in zip(coverages, self.floors, strict=True))

    @cached_property
    def totals(self) -> tuple[int, ...]:
        """What the samples of each scenario weigh together, > 0."""
        return tuple(sum(row) for row in self.weights)

    @cached_property
    def _table(self) -> npt.NDArray[np.int64]:
        return np.array(self.weights, dtype=np.int64)

    def coverages(self, covered: npt.NDArray[np.bool_]) -> tuple[Fraction, ...]:
        """Return what is covered of each scenario [0–1], from which samples are, shape (m,)."""
        values = (self._table @ covered).tolist()
        return tuple(map(Fraction, values, self.totals))

    def roughly(self, covered: npt.NDArray[np.bool_]) -> npt.NDArray[np.float64]:
        """Return the same in doubles, off by less than 1e-12, which is quicker."""
        return np.asarray(self._table @ covered / np.array(self.totals, dtype=np.float64))

    def of(self, palette: Palette) -> tuple[Fraction, ...]:
        """Return what a palette covers of each scenario [0–1]."""
        covered = np.zeros(len(self.base.weights), dtype=np.bool_)
        covered[list(palette.covered)] = True
        return self.coverages(covered)

    def mean(self, coverages: Iterable[Fraction]) -> Fraction:
        """Return the mean of coverages by the shares."""
        parts = (share * one for share, one in zip(self.shares, coverages, strict=True))
        return sum(parts, Fraction(0))

    def rank(
        self, palette: Palette, coverages: Sequence[Fraction], *, worst_first: bool = True
    ) -> JointRank:
        """Return by what palettes are told apart; else than first the worst coverage goes for 0."""
        worst = -min(coverages) if worst_first else Fraction(0)
        return (worst, -self.mean(coverages), *palette.rank[1:])

    def weighed(self, shares: Sequence[Fraction], scale: int) -> tuple[int, ...]:
        """Return weights under which no palette is worth less than `scale` times its mean coverage.

        Parameters
        ----------
        shares
            How much each scenario counts, ≥ 0, with the sum 1.
        scale
            What a coverage of 1 is worth.

        Returns
        -------
        For each sample a whole number > 0, rounded up.
        """
        parts = np.zeros(len(self.base.weights), dtype=object)
        for share, row, total in zip(shares, self.weights, self.totals, strict=True):
            worth = share * scale
            over = worth.denominator * total
            parts += [-(-worth.numerator * weight // over) for weight in row]
        return tuple(max(1, int(part)) for part in parts)


@dataclass(frozen=True, eq=False)
class JointChoice:
    """One palette for all scenarios, and how far it is proven."""

    palette: Palette | None
    """None if none was found."""
    coverages: tuple[Fraction, ...]
    """What it covers of each scenario [0–1]."""
    bound: Fraction
    """What no palette exceeds in what was asked for, mean or worst coverage [0–1]."""
    proven: bool
    """Whether it is proven that no palette ranks before it."""
    infeasible: bool
    """Whether it is proven that no palette meets the demands."""
    nodes: int
    """Branches looked at."""
    seconds: float
    """Time it took [s]."""
    aim: Fraction = Fraction(0)
    """What it has of what was asked for, mean or worst coverage [0–1]."""


def joined_samples(
    scenarios: Sequence[Samples],
) -> tuple[tuple[tuple[tuple[int, ...], ...], ...], tuple[tuple[int, ...], ...]]:
    """Return the samples of several scenarios as one list.

    Parameters
    ----------
    scenarios
        For each its samples.

    Returns
    -------
    The minimal sets of each sample, those that are the same once, and the weights of the samples in
    each scenario, shape (scenarios, samples).
    """
    places: dict[tuple[tuple[int, ...], ...], int] = {}
    for samples in scenarios:
        for _, sets in samples:
            places.setdefault(sets, len(places))
    weights = [[0] * len(places) for _ in scenarios]
    for row, samples in zip(weights, scenarios, strict=True):
        for weight, sets in samples:
            row[places[sets]] += weight
    return tuple(places), tuple(map(tuple, weights))
