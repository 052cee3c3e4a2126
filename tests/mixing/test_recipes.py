"""The recipe space is finite, declared, and what a brush can measure."""

from math import gcd

import numpy as np
import pytest

from fewtubes.mixing.recipes import PARTS, STRENGTHS, RecipeSpace, shares


def test_sizes() -> None:
    # Two tubes: 1:1 and five unequal patterns either way round, 1 + 5 × 2. Three tubes: 1:1:1,
    # three orders each of 2:1:1, 2:2:1 and 4:1:1, six of 3:2:1, 1 + 3 × 3 + 6.
    assert {size: len(parts) for size, parts in PARTS.items()} == {1: 1, 2: 11, 3: 16}


@pytest.mark.parametrize(("most", "mixes"), [(1, 1), (2, 12), (3, 28)])
def test_mixes_of_fewer_tubes(most: int, mixes: int) -> None:
    """1, 1 + 11, 1 + 11 + 16; see `test_sizes`."""
    parts = RecipeSpace.no_thinner_than(0.5, most).parts
    assert list(parts) == list(range(1, most + 1))
    assert sum(map(len, parts.values())) == mixes
    assert all(parts[size] == PARTS[size] for size in parts)


@pytest.mark.parametrize("size", PARTS)
def test_parts_are_small_whole_numbers_each_mixture_once(size: int) -> None:
    parts = PARTS[size]
    assert len(set(parts)) == len(parts)
    for row in parts:
        assert len(row) == size
        assert all(1 <= part <= 8 for part in row)
        assert gcd(*row) == 1  # 2:2 would be 1:1 over again


def test_shares_sum_to_1() -> None:
    for parts in PARTS.values():
        table = shares(parts)
        np.testing.assert_allclose(table.sum(axis=1), 1, rtol=1e-15)
    np.testing.assert_allclose(shares(((3, 1), (1, 1))), [[0.75, 0.25], [0.5, 0.5]])


def test_a_dozen_strengths_in_geometric_steps() -> None:
    assert len(STRENGTHS) == 12
    assert STRENGTHS[0] == 1
    ratios = np.array(STRENGTHS[1:]) / np.array(STRENGTHS[:-1])
    np.testing.assert_allclose(ratios, 1 / np.sqrt(2), rtol=1e-15)


@pytest.mark.parametrize(
    ("thinnest", "count"),
    # 1, 0.71, 0.5, 0.35, 0.25 …; 2^(−11/2) = 0.0221 is the weakest.
    [(0.0, 12), (0.022, 12), (0.023, 11), (0.25, 5), (0.5, 3), (0.51, 2), (1.0, 1), (2.0, 1)],
)
def test_thin_washes_can_be_ruled_out(thinnest: float, count: int) -> None:
    space = RecipeSpace.no_thinner_than(thinnest)
    assert space.strengths == STRENGTHS[:count]  # the full strength always stays
