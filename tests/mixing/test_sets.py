"""Every set has one rank, and every rank its set."""

from itertools import combinations

import numpy as np
import pytest

from fewtubes.mixing.sets import set_count, sets_of_ranks


@pytest.mark.parametrize("size", [1, 2, 3])
@pytest.mark.parametrize("tube_count", [0, 1, 2, 3, 7, 20])
def test_they_are_all_combinations_each_once(tube_count: int, size: int) -> None:
    """The reference is Python's own `combinations`, in the order of the highest tube first."""
    every = sorted(combinations(range(tube_count), size), key=lambda tubes: tubes[::-1])
    assert set_count(tube_count, size) == len(every)
    found = sets_of_ranks(np.arange(len(every)), tube_count, size)
    assert [tuple(row) for row in found.tolist()] == every


def test_high_ranks_are_exact() -> None:
    """C(4999, 3) + C(4998, 2) + C(4997, 1) is the last of 5,000 tubes' 20,820,835,000 triples."""
    last = 20_820_835_000 - 1
    assert sets_of_ranks(np.array([0, last]), 5000, 3).tolist() == [[0, 1, 2], [4997, 4998, 4999]]
