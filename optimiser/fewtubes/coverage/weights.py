"""Exact importances brought to whole numbers, so that what is equal counts as equal.

The whole numbers are the fractions times their common denominator, divided by what they all share.
"""

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import gcd, lcm

__all__ = ["MOST_TOTAL", "Weights", "whole_weights"]

MOST_TOTAL = 10**12
"""Largest sum of weights. The search adds them in double precision, which is exact up to 2^53, or
9.0e15, and an exported program writes twelve digits of each. The demo's flowers all together would
need 1.4e13, and are rounded; the twelve of its cottage border need 17,250."""


@dataclass(frozen=True)
class Weights:
    """Whole numbers in place of importances.

    Parameters
    ----------
    counts
        In the order of the importances, each > 0.
    exact
        Whether they are to one another as the importances are. If not, each importance is rounded
        to the nearest count, equal ones to equal counts, and none to 0.
    """

    counts: tuple[int, ...]
    exact: bool


def whole_weights(importances: Sequence[Fraction]) -> Weights:
    """Return importances (each > 0) as whole numbers whose sum is about `MOST_TOTAL` at most."""
    unit = lcm(*(share.denominator for share in importances))
    counts = [share.numerator * (unit // share.denominator) for share in importances]
    shared = max(1, gcd(*counts))
    if sum(counts) <= MOST_TOTAL * shared:
        return Weights(tuple(count // shared for count in counts), exact=True)
    unit = _unit_for_most(importances)
    return Weights(tuple(max(1, round(share * unit)) for share in importances), exact=False)


def _unit_for_most(importances: Sequence[Fraction]) -> int:
    """Return how many counts make an importance of 1: a multiple of many of the denominators.

    Those met most often come first; what they divide is not rounded at all.
    """
    most = MOST_TOTAL // sum(importances)
    unit = 1
    for denominator in _by_frequency(share.denominator for share in importances):
        finer = lcm(unit, denominator)
        unit = finer if finer <= most else unit
    return unit * max(1, most // unit)


def _by_frequency(numbers: Iterable[int]) -> list[int]:
    """Return numbers, each once, the most frequent first and then the smallest."""
    counted = Counter(numbers)
    return sorted(counted, key=lambda number: (-counted[number], number))
