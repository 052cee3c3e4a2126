"""Pairs of tubes that are one paint, drawn for instances that are tried by brute force."""

import random
from collections.abc import Collection
from itertools import combinations

__all__ = ["drawn_doubles"]


def drawn_doubles(
    seed: int | str, n: int, owned: Collection[int]
) -> dict[str, frozenset[tuple[int, int]]]:
    """Draw them in a third of all instances, by numbers of their own."""
    rng = random.Random(f"doubles {seed}")  # noqa: S311  # no secrets are drawn
    often = rng.choice((0.0, 0.0, 0.15))
    pairs = [pair for pair in combinations(range(n), 2) if rng.random() < often]
    both_ways = [*pairs, *((b, a) for a, b in pairs)]
    return {
        "alike": frozenset(pairs),
        "spare": frozenset((a, b) for a, b in both_ways if a in owned and rng.random() < 0.7),
    }
