"""The box around a colour surely holds every colour within the difference."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fewtubes.colour.difference import delta_e_2000
from fewtubes.mixing.nearness import FARTHEST, reach_around

lightness = st.floats(0, 100)
opponent = st.floats(-120, 120)
colours = st.tuples(lightness, opponent, opponent)


@given(colours, colours)
@settings(max_examples=500, deadline=None)
def test_any_two_colours_lie_in_each_others_box(
    one: tuple[float, float, float], other: tuple[float, float, float]
) -> None:
    lab, near = np.array([one]), np.array(other)
    lightness, plane = reach_around(lab, delta_e_2000(lab, near))
    assert abs(one[0] - other[0]) <= lightness[0]
    assert np.hypot(one[1] - other[1], one[2] - other[2]) <= plane[0]


@pytest.mark.parametrize("size", [0.01, 0.1, 1.0, 10.0, 40.0])
def test_so_do_many_neighbours_drawn_at_every_distance(size: float) -> None:
    rng = np.random.default_rng(20_240_229)
    low, high = np.array([0, -120, -120]), np.array([100, 120, 120])
    labs = rng.uniform(low, high, (100_000, 3))
    near = labs + size * rng.normal(size=labs.shape)
    near[:, 0] = near[:, 0].clip(0, 100)
    lightness, plane = reach_around(labs, delta_e_2000(labs, near))
    apart = np.abs(near - labs)
    assert (apart[:, 0] <= lightness).all()
    assert (np.hypot(apart[:, 1], apart[:, 2]) <= plane).all()


def test_the_box_is_small_where_the_formula_is_plain() -> None:
    """For the grey of L* 50, ΔE00 1 is ΔL* 1 (S_L = 1, Eq. 18) or half to one step of a* and b*.

    Eq. (5) stretches a* by up to 1.5 there, S_C and S_H are near 1.
    """
    lightness, plane = reach_around(np.array([[50.0, 0.0, 0.0]]), np.array([1.0]))
    assert 1 <= lightness[0] < 1.05
    assert 1 <= plane[0] < 1.2


def test_an_endless_difference_reaches_everywhere() -> None:
    lightness, plane = reach_around(np.array([[50.0, 10.0, -60.0]]), np.array([np.inf]))
    assert (lightness[0], plane[0]) == (FARTHEST, FARTHEST)
    assert reach_around(np.zeros((0, 3)), np.zeros(0))[0].shape == (0,)
