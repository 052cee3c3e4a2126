"""The smallest sets of which one must be bought, against trying all sets."""

import random
from itertools import combinations

import numpy as np
import pytest

from fewtubes.comparison.hitting_sets import least_blocker, set_rows


def smallest_by_trial(sets: list[frozenset[int]], count: int, most: int) -> int | None:
    """Return the size of the smallest set of tubes that meets all sets, by trying every one."""
    for size in range(1, most + 1):
        for tubes in combinations(range(count), size):
            if all(not r.isdisjoint(tubes) for r in sets):
                return size
    return None


@pytest.mark.parametrize("seed", range(300))
def test_it_is_as_small_as_can_be(seed: int) -> None:
    rng = random.Random(seed)  # noqa: S311  # no secrets are drawn
    count = rng.randint(1, 9)
    owned = frozenset(i for i in range(count) if rng.random() < 0.15)
    sets = tuple(
        tuple(sorted(rng.sample(range(count), min(count, rng.randint(1, 3)))))
        for _ in range(rng.randint(0, 10))
    )
    most = rng.randint(1, 6)
    found = least_blocker(set_rows(sets, owned, count), most)
    open_sets = [frozenset(r) - owned for r in sets]
    if not open_sets or any(not r for r in open_sets):
        assert found is None
        return
    smallest = smallest_by_trial(open_sets, count, most)
    if found is None:
        assert smallest is None
        return
    assert len(found) == smallest
    assert owned.isdisjoint(found)
    assert all(not r.isdisjoint(found) for r in open_sets)
    assert list(found) == sorted(found)


def test_a_large_blocker_is_not_looked_for() -> None:
    # Seven colours of one tube each need seven tubes.
    rows = np.eye(7, dtype=np.bool_)
    assert least_blocker(rows) is None
    assert least_blocker(rows, most=7) == (0, 1, 2, 3, 4, 5, 6)


def test_what_is_owned_needs_no_purchase() -> None:
    assert least_blocker(set_rows(((0, 1), (2,)), frozenset({2}), 3)) is None
    assert least_blocker(set_rows(((0, 1), (0, 2)), frozenset({2}), 3)) == (0,)
    assert least_blocker(set_rows((), frozenset(), 3)) is None
