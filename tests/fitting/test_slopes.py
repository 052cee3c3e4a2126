"""Slopes against differences of the very functions they are slopes of."""

import numpy as np
import pytest

from fewtubes.colour.cielab import xyz_to_lab
from fewtubes.fitting.slopes import film_slopes, lab_slopes, surface_slope
from fewtubes.mixing.film import film_reflectance
from fewtubes.mixing.surface import with_surface

STEP = 1e-5
"""Relative; a central difference is then off by about its square."""

RANDOM = np.random.default_rng(7)
K = np.exp(RANDOM.uniform(-9, 2, (200, 36)))
S = np.exp(RANDOM.uniform(-9, 1, (200, 36)))
GROUND = RANDOM.uniform(0, 0.9, 36)


def test_the_reflectance_is_that_of_the_film() -> None:
    assert np.allclose(film_slopes(K, S, GROUND)[0], film_reflectance(K, S, GROUND), atol=1e-14)


def test_slopes_along_absorption_and_scattering() -> None:
    _, along_K, along_S = film_slopes(K, S, GROUND)
    up, down = 1 + STEP, 1 - STEP
    by_K = film_reflectance(K * up, S, GROUND) - film_reflectance(K * down, S, GROUND)
    by_S = film_reflectance(K, S * up, GROUND) - film_reflectance(K, S * down, GROUND)
    assert np.allclose(along_K * K, by_K / (2 * STEP), atol=1e-9)
    assert np.allclose(along_S * S, by_S / (2 * STEP), atol=1e-9)


@pytest.mark.parametrize("thin", [1e-12, 1e-7, 9e-4, 1.1e-3])
def test_a_thin_film_has_the_slopes_of_beer_and_lambert(thin: float) -> None:
    # Without scattering R = Rg exp(−2K), by hand; the 4 thin terms follow from the series.
    _, along_K, along_S = film_slopes(np.array([thin]), np.array([thin]), np.array([0.8]))
    assert along_K[0] == pytest.approx(-2 * 0.8, rel=5 * thin + 1e-9)
    # To first order in S a film adds S(1 − Rg)² (Kubelka 1948, thin film).
    assert along_S[0] == pytest.approx((1 - 0.8) ** 2, abs=10 * thin + 1e-9)


def test_the_surface() -> None:
    inner = np.linspace(0.01, 0.99, 50)
    difference = with_surface(inner + STEP) - with_surface(inner - STEP)
    assert np.allclose(surface_slope(inner), difference / (2 * STEP), rtol=1e-6)


def test_cielab_on_both_sides_of_its_bend() -> None:
    white = np.array([95.0, 100.0, 109.0])
    xyz = np.exp(RANDOM.uniform(np.log(1e-3), np.log(100), (100, 3)))
    slopes = lab_slopes(xyz, white)
    for axis in range(3):
        step = np.zeros(3)
        step[axis] = 1e-7
        difference = (xyz_to_lab(xyz + step, white) - xyz_to_lab(xyz - step, white)) / 2e-7
        assert np.allclose(slopes[..., axis], difference, rtol=1e-4, atol=1e-5)
