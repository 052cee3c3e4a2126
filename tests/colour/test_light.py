"""Weights of a light: what must hold whatever the light."""

import colour
import numpy as np
import pytest

from fewtubes.colour.bands import BAND_COUNT, WAVELENGTH_NM, FloatArray
from fewtubes.colour.light import tristimulus_weights, white_point


def weights_of(name: str) -> FloatArray:
    """Return the weights of a light of the CIE as colour-science tables it."""
    light = colour.SDS_ILLUMINANTS[name]
    return tristimulus_weights(np.asarray(light.wavelengths), np.asarray(light.values))


@pytest.mark.parametrize(
    ("name", "x", "y"),
    [
        # CIE 015:2018, table 10 / ISO/CIE 11664-2, chromaticities for 2° (from memory).
        ("D65", 0.3127, 0.3290),
        ("D50", 0.3457, 0.3585),
        ("A", 0.4476, 0.4074),
        ("FL2", 0.3721, 0.3751),
    ],
)
def test_published_white_points(name: str, x: float, y: float) -> None:
    white = white_point(weights_of(name))
    np.testing.assert_allclose(white[:2] / white.sum(), [x, y], atol=1.5e-4)


@pytest.mark.parametrize("name", ["D65", "A", "LED-B3"])
def test_the_perfect_diffuser_is_100(name: str) -> None:
    weights = weights_of(name)
    assert weights.shape == (BAND_COUNT, 3)
    assert white_point(weights)[1] == pytest.approx(100, abs=1e-9)


def test_the_scale_of_the_power_does_not_matter() -> None:
    light = colour.SDS_ILLUMINANTS["D65"]
    nm, power = np.asarray(light.wavelengths), np.asarray(light.values)
    np.testing.assert_allclose(
        tristimulus_weights(nm, power), tristimulus_weights(nm, 0.003 * power), rtol=1e-12
    )


def test_the_light_is_not_changed() -> None:
    nm = np.arange(380.0, 731.0, 5.0)
    power = np.linspace(1, 2, len(nm))
    before = power.copy()
    tristimulus_weights(nm, power)
    np.testing.assert_array_equal(power, before)


def test_a_light_given_at_1_nm_or_10_nm_counts_the_same_if_it_is_smooth() -> None:
    # A straight line is the same at any step; interpolation is exact on it.
    fine, coarse = np.arange(380.0, 781.0, 1.0), np.arange(380.0, 781.0, 10.0)
    np.testing.assert_allclose(
        tristimulus_weights(fine, 0.2 + fine / 500),
        tristimulus_weights(coarse, 0.2 + coarse / 500),
        atol=1e-9,
    )


@pytest.mark.filterwarnings("ignore:Aligning")  # colour-science says what it does
def test_what_lies_beyond_the_bands_is_given_to_the_ends() -> None:
    """ASTM E308: a spectrum that ends early is taken as level beyond its ends."""
    light = colour.SDS_ILLUMINANTS["A"]
    weights = weights_of("A")
    long_nm = np.arange(360.0, 781.0, 10.0)
    slope = np.interp(long_nm, WAVELENGTH_NM, np.linspace(0.1, 0.9, BAND_COUNT))  # level outside
    expected = colour.sd_to_XYZ(
        colour.SpectralDistribution(dict(zip(long_nm, slope, strict=True))),
        colour.MSDS_CMFS["CIE 1931 2 Degree Standard Observer"],
        light,
        method="ASTM E308",
    )
    np.testing.assert_allclose(np.linspace(0.1, 0.9, BAND_COUNT) @ weights, expected, atol=0.01)
    # Illuminant A still shines beyond 730 nm: without the ends, X would be short by more than that.
    inside = np.asarray(light.values)[np.searchsorted(light.wavelengths, WAVELENGTH_NM)]
    observer = colour.MSDS_CMFS["CIE 1931 2 Degree Standard Observer"][WAVELENGTH_NM]
    plain = inside[:, None] * observer
    assert weights[-1, 0] > 1.5 * plain[-1, 0] * 100 / plain[:, 1].sum()
