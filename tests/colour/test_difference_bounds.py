"""No colour of a box is nearer than the bound says, which is as near as the formula lets it.

The reference is the difference itself, held to published pairs in `test_published_difference.py`.
"""

import numpy as np
import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from fewtubes.colour.bands import FloatArray
from fewtubes.colour.difference import delta_e_2000
from fewtubes.colour.difference_bounds import FARTHEST, least_difference, reach_around

ROUNDING = 1e-9

opponents = st.one_of(st.floats(-150, 150), st.floats(-3, 3))
colours = st.tuples(st.floats(0, 100), opponents, opponents)
blues = st.tuples(st.floats(0, 100), st.floats(-20, 60), st.floats(-110, -5))
any_colour = st.one_of(colours, blues)
edges = st.sampled_from([0.0, 0.5, 2.0, 8.0, 64.0])
shares = st.tuples(st.floats(0, 1), st.floats(0, 1), st.floats(0, 1))


@given(any_colour, any_colour, edges, shares)
@example((59.99, -1.5675, 0.3285), (22.0, 50.5, -10.0), 2.0, (0.5, 0.5, 0.5))
@settings(max_examples=1000, deadline=None)
def test_no_colour_of_a_box_is_nearer(
    one: tuple[float, float, float],
    other: tuple[float, float, float],
    edge: float,
    share: tuple[float, float, float],
) -> None:
    """The example lies where hues are opposite and the sign of ΔH′ is open."""
    lab, inside = np.array([one]), np.array([other])
    low = inside - edge * np.array([share])
    found = least_difference(lab, low, low + edge)
    assert found[0] <= delta_e_2000(lab, inside)[0] + ROUNDING


def drawn(rng: np.random.Generator, count: int) -> FloatArray:
    """Draw colours: a third nearly neutral, a third in the blue region, a third anywhere."""
    labs = rng.uniform([0, -150, -150], [100, 150, 150], (count, 3))
    third = count // 3
    labs[:third, 1:] *= rng.choice([0.003, 0.02, 0.1], (third, 1))
    labs[third : 2 * third, 1] = rng.uniform(-20, 60, third)
    labs[third : 2 * third, 2] = rng.uniform(-110, -5, third)
    return rng.permutation(labs)


@pytest.mark.parametrize("edge", [1.0, 2.0, 8.0, 32.0])
def test_nor_are_any_of_a_million_drawn_in_boxes_near_and_far(edge: float) -> None:
    rng = np.random.default_rng(20_240_229)
    labs = drawn(rng, 20_000)
    away = rng.choice([1.0, 5.0, 20.0, 60.0], (len(labs), 1))
    places = np.floor((labs + away * rng.normal(size=labs.shape)) / edge)
    low, high = places * edge, (places + 1) * edge
    found = least_difference(labs, low, high)
    for turn in range(12):
        inside = rng.uniform(low, high)
        if turn % 2:  # the least differences lie on faces, edges and corners
            ends = np.where(rng.random(labs.shape) < 0.5, low, high)
            inside = np.where(rng.random(labs.shape) < 0.7, ends, inside)
        if turn % 4 == 3:
            nearest = np.clip(labs, low, high)
            inside = np.where(rng.random(labs.shape) < 0.7, nearest, inside)
        assert (found <= delta_e_2000(labs, inside) + ROUNDING).all()


def test_for_a_single_colour_it_is_the_difference_itself() -> None:
    """A box of no size leaves nothing open: all terms are those of Eq. (22).

    That is so away from the blue region, where R_T is 0 to the seventh digit: with b* above 0 the
    mean hue is at least 95° from it, and exp(−(95/25)²) is 5e-7.
    """
    rng = np.random.default_rng(7)
    one = drawn(rng, 60_000)
    other = one + rng.normal(0, 15, one.shape)
    yellow = (one[:, 2] > 0.01) & (other[:, 2] > 0.01)
    one, other = one[yellow], other[yellow]
    assert len(one) > 10_000
    assert least_difference(one, other, other) == pytest.approx(
        delta_e_2000(one, other), rel=1e-5, abs=1e-5
    )


def test_a_box_around_the_colour_comes_as_near_as_can_be() -> None:
    lab = np.array([[50.0, 1.0, -30.0]])
    assert least_difference(lab, lab - 1, lab + 1)[0] == 0


def test_no_pairs() -> None:
    none = np.zeros((0, 3))
    assert least_difference(none, none, none).shape == (0,)


@given(any_colour, any_colour)
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
    labs = drawn(rng, 100_000)
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
