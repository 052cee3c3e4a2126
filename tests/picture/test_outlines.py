"""Outlines by hand: the same every time, near the drawn line, and joined where halves meet."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from fewtubes.picture.outlines import blob, by_hand, petal_side, rectangle, seed_of


def test_the_same_names_give_the_same_edge_and_others_another() -> None:
    ring = blob(50, 50, 30)
    once, again = (by_hand(ring, amount=2, seed=seed_of("rose", "petal")) for _ in range(2))
    other = by_hand(ring, amount=2, seed=seed_of("rose", "leaf"))
    np.testing.assert_array_equal(once, again)
    assert np.abs(once - other).max() > 0.5


@given(seed=st.integers(0, 2**32 - 1), amount=st.floats(0.1, 5))
def test_an_edge_strays_by_the_amount_and_never_by_far_more(seed: int, amount: float) -> None:
    ring = blob(0, 0, 60)
    moved = by_hand(ring, amount=amount, seed=seed)
    away = np.hypot(moved[:, 0], moved[:, 1]) - 60
    # Sines of whole numbers of waves, sampled evenly: the root mean square is exact.
    assert np.sqrt((away**2).mean()) == pytest.approx(amount, rel=0.05)


@given(seed=st.integers(0, 2**32 - 1))
def test_an_open_edge_keeps_its_ends_so_that_halves_meet(seed: int) -> None:
    edge = petal_side((10, 20), direction=0.7, length=80, half_width=25, fullest=0.6)
    moved = by_hand(edge, amount=3, seed=seed, closed=False)
    np.testing.assert_allclose(moved[[0, -1]], edge[[0, -1]], atol=1e-6)


def test_a_petal_points_where_it_should_and_its_sides_mirror_each_other() -> None:
    # 0 is upwards, and y grows downwards: the tip lies at (0, -50).
    left, right = (
        petal_side((0, 0), direction=0, length=50, half_width=side, fullest=0.6)
        for side in (-12, 12)
    )
    np.testing.assert_allclose(left[-1], [0, -50], atol=1e-2)
    np.testing.assert_allclose(left * (-1, 1), right, atol=1e-12)
    assert left[:, 0].min() == pytest.approx(-12, rel=0.02)
    widest = -right[np.argmax(right[:, 0]), 1] / 50
    assert widest == pytest.approx(0.6, abs=0.03)


def test_a_rectangle_fills_its_box_and_turns_in_small_steps() -> None:
    box = rectangle(10, 20, 100, 40)
    np.testing.assert_allclose(box.min(axis=0), [10, 20], atol=0.5)
    np.testing.assert_allclose(box.max(axis=0), [110, 60], atol=0.5)
    steps = np.hypot(*np.diff(box, axis=0, append=box[:1]).T)
    assert steps.max() < 3.5
