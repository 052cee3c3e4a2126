"""What holds of every colour difference."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from fewtubes.colour.bands import FloatArray
from fewtubes.colour.difference import delta_e_2000

labs = st.tuples(st.floats(0, 100), st.floats(-130, 130), st.floats(-130, 130)).map(np.array)


@given(labs, labs)
def test_the_order_does_not_matter(one: FloatArray, other: FloatArray) -> None:
    assert delta_e_2000(one, other) == pytest.approx(delta_e_2000(other, one), abs=1e-9)


@given(labs)
def test_a_colour_does_not_differ_from_itself(lab: FloatArray) -> None:
    assert delta_e_2000(lab, lab) == 0


@given(labs, labs)
def test_lightness_alone_bounds_it_from_below(one: FloatArray, other: FloatArray) -> None:
    # The chroma and hue terms of Eq. (22) form a square that is never negative, since |R_T| < 2;
    # S_L is at most 1 + 0.015 × 50² ÷ √(20 + 50²) = 1.7471. The search of the table of near
    # samples relies on this bound to look at few pairs only.
    difference = delta_e_2000(one, other)
    assert difference >= abs(one[0] - other[0]) / 1.7472 - 1e-9


def test_greys_by_hand() -> None:
    # For neutral colours Eq. (22) leaves |ΔL| ÷ S_L. Black and white: the mean is 50, S_L = 1.
    # 50 and 60: (55 − 50)² = 25, S_L = 1 + 0.015 × 25 ÷ √45 = 1.055902, 10 ÷ 1.055902 = 9.470579.
    greys = np.array([[0.0, 0, 0], [100, 0, 0], [50, 0, 0], [60, 0, 0]])
    assert delta_e_2000(greys[0], greys[1]) == pytest.approx(100)
    assert delta_e_2000(greys[2], greys[3]) == pytest.approx(9.470579, abs=1e-6)


@pytest.mark.parametrize("hue", [0.0, 12.3, 90.0, 135.0, 213.7, 270.0])
def test_exactly_opposite_hues_count_as_half_a_turn(hue: float) -> None:
    """The mean hue jumps there; rounding must not decide on which side (the paper's pair 14)."""
    angle = np.radians(hue)
    one = np.array([50.0, 3 * np.cos(angle), 3 * np.sin(angle)])
    # Both signs of the rounding: 1e-13 at chroma 3 turns the hue by some 2e-12 degrees.
    others = [
        one * [1, -1, -1] + [0, shift * np.sin(angle), shift * np.cos(angle)]
        for shift in (-1e-13, 0.0, 1e-13)
    ]
    found = [float(delta_e_2000(one, other)) for other in others]
    np.testing.assert_allclose(found, found[1], atol=1e-9)
    np.testing.assert_allclose([delta_e_2000(other, one) for other in others], found, atol=1e-9)


def test_arguments_broadcast() -> None:
    rng = np.random.default_rng(2)
    many, few = rng.uniform(0, 90, (7, 1, 3)), rng.uniform(0, 90, (4, 3))
    table = delta_e_2000(many, few)
    assert table.shape == (7, 4)
    assert table[5, 2] == pytest.approx(delta_e_2000(many[5, 0], few[2]), rel=1e-12)


def test_single_precision_stays_single_and_close() -> None:
    rng = np.random.default_rng(3)
    one = rng.uniform([0, -100, -100], [100, 100, 100], (20_000, 3))
    other = one + rng.normal(0, 3, one.shape)
    single = delta_e_2000(one.astype(np.float32), other.astype(np.float32))
    assert single.dtype == np.float32
    # Coordinates up to 100 are rounded at 4e-6; differences amplify that some ten times.
    assert np.abs(single - delta_e_2000(one, other)).max() < 5e-4
