"""What holds of every film."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from fewtubes.mixing.film import film_reflectance, thick_film_reflectance

coefficients = st.floats(0, 1e300) | st.floats(0, 10) | st.sampled_from([0.0, 5e-324, 1e-12])
shares = st.floats(0, 1)

ROUNDING = 1e-12


def film(K: float, S: float, ground: float) -> float:
    """Return the reflectance of a film in one band."""
    return float(film_reflectance(np.array([K]), np.array([S]), ground)[0])


@given(coefficients, coefficients, shares)
def test_no_paint_breaks_it(K: float, S: float, ground: float) -> None:
    """Of nothing, of anything huge: a share, and no warning (warnings are errors)."""
    assert 0 <= film(K, S, ground) <= 1


@given(st.floats(0, 1e6), st.floats(0, 1e6), st.floats(1, 10), shares)
def test_more_absorption_is_never_lighter(K: float, S: float, factor: float, ground: float) -> None:
    assert film(K * factor, S, ground) <= film(K, S, ground) + ROUNDING


@given(st.floats(0, 1e6), st.floats(0, 1e6), shares, shares)
def test_a_lighter_ground_is_never_darker(K: float, S: float, one: float, other: float) -> None:
    low, high = sorted((one, other))
    assert film(K, S, low) <= film(K, S, high) + ROUNDING


@given(st.floats(0, 50), st.floats(0, 50), shares)
def test_dilution_moves_straight_towards_the_ground(K: float, S: float, ground: float) -> None:
    loads = np.geomspace(1, 1e-6, 40)
    washes = film_reflectance(np.outer(loads, [K]), np.outer(loads, [S]), ground)[:, 0]
    away = np.abs(washes - ground)
    assert (np.diff(away) <= ROUNDING).all()
    assert ((washes - ground) * (washes[0] - ground) >= -ROUNDING).all()  # never past it
    assert away[-1] < 1e-3


@given(st.floats(0, 1e6), st.floats(1e-6, 1e6))
def test_a_thick_film_is_where_loads_lead(K: float, S: float) -> None:
    thick = float(thick_film_reflectance(np.array([K]), np.array([S]))[0])
    assert 0 < thick <= 1
    assert film(K, S, thick) == pytest.approx(thick, abs=1e-9)


def test_shapes_broadcast() -> None:
    K, S = np.full((5, 1, 36), 0.4), np.full((7, 36), 0.1)
    assert film_reflectance(K, S, np.linspace(0, 1, 36)).shape == (5, 7, 36)


def test_arguments_are_not_changed() -> None:
    K, S, ground = np.full(36, 0.4), np.zeros(36), np.full(36, 0.9)
    film_reflectance(K, S, ground)
    assert (K == 0.4).all()
    assert (S == 0).all()
    assert (ground == 0.9).all()
