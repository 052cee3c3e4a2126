"""Opacity in the sense of TAPPI T 425 om-21: C0.89 = 100 · R0 ÷ R0.89."""

import numpy as np
import pytest

from fewtubes.colour.bands import BAND_COUNT, FloatArray
from fewtubes.mixing.film import film_reflectance
from fewtubes.mixing.mixture import Optics
from fewtubes.mixing.opacity import contrast_ratio
from fewtubes.mixing.surface import beneath_surface


def flat(height: float) -> FloatArray:
    """Return the same coefficient in every band."""
    return np.full(BAND_COUNT, height)


@pytest.mark.parametrize("K", [0.0, 0.3, 20.0])
def test_a_perfectly_opaque_film_is_100_percent(K: float, optics: Optics) -> None:
    ratio = contrast_ratio(flat(K), flat(1e9), optics.weights[:, 1])
    assert ratio == pytest.approx(1.0, abs=1e-6)


def test_a_film_that_sends_nothing_back_hides_nothing(optics: Optics) -> None:
    assert contrast_ratio(flat(0.3), flat(0.0), optics.weights[:, 1]) == 0


@pytest.mark.parametrize("K", [0.0, 0.05, 1.0, 8.0])
def test_more_scattering_hides_more(K: float, optics: Optics) -> None:
    ratios = [
        float(contrast_ratio(flat(K), flat(S), optics.weights[:, 1]))
        for S in np.geomspace(1e-4, 1e3, 60)
    ]
    assert (np.diff(ratios) >= -1e-12).all()  # at the end all are 1 but for rounding
    assert ratios[-1] > 0.99


def test_a_clear_stain_hides_little_a_clear_black_hides_all(optics: Optics) -> None:
    """The definition counts what absorption hides too: over white, too, a clear black is black."""
    clear = [contrast_ratio(flat(K), flat(1e-4), optics.weights[:, 1]) for K in (0.05, 1.0, 8.0)]
    assert clear[0] < clear[1] < 0.01
    assert clear[2] > 0.9


def test_a_flat_film_by_the_definition(optics: Optics) -> None:
    """R0 ÷ R0.89 with Kubelka's film; of a grey the light's weights cancel."""
    backing = float(beneath_surface(np.array(0.89)))
    black, white = (film_reflectance(flat(0.4), flat(0.6), g)[0] for g in (0.0, backing))
    ratio = contrast_ratio(flat(0.4), flat(0.6), optics.weights[:, 1])
    assert ratio == pytest.approx(black / white, rel=1e-12)
