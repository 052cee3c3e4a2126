"""What no surface can be, and what hardly any is.

Sources: D. L. MacAdam, JOSA 25, 1935, 361–367 (limits of any reflectance from 0 to 1); M. R.
Pointer, Color Res. Appl. 5(3), 1980, 145–155 (real surfaces); both as tabled by colour-science for
illuminant C, MacAdam's from Y = 10 to 95 %.
"""

import colour
import numpy as np
import numpy.typing as npt
import pytest

from fewtubes.catalogue.records import Catalogue
from fewtubes.colour.bands import BAND_COUNT, FloatArray
from fewtubes.colour.cielab import lab_to_xyz, xyz_to_lab
from fewtubes.colour.light import tristimulus_weights, white_point
from fewtubes.mixing.film import film_reflectance
from fewtubes.mixing.recipes import STRENGTHS
from fewtubes.mixing.surface import beneath_surface, with_surface

MIXTURES = 600
"""Few, since colour-science is slow to judge them."""


@pytest.fixture(scope="module")
def weights() -> FloatArray:
    """Return the weights of illuminant C."""
    light = colour.SDS_ILLUMINANTS["C"]
    return tristimulus_weights(np.asarray(light.wavelengths), np.asarray(light.values))


def within_macadam(xyz: FloatArray, *, least_y: float = 20.0) -> npt.NDArray[np.bool_]:
    """Return whether tabled ones among XYZ (white 100), shape (…, 3), lie within the limits.

    Between the tabled Y = 10 and 20 % few points stand for a curved edge, and chords cut it off.
    """
    tabled = xyz[(xyz[:, 1] >= least_y) & (xyz[:, 1] <= 95)] / 100
    assert len(tabled) >= 500
    return np.asarray(colour.is_within_macadam_limits(colour.XYZ_to_xyY(tabled), "C"))


def smooth_spectra(rng: np.random.Generator, count: int, highest: float) -> FloatArray:
    """Draw spectra from 0 to `highest` through seven random points, shape (count, bands)."""
    points = rng.uniform(0, 1, (count, 7)) ** 3 * highest
    at = np.linspace(0, 6, BAND_COUNT)
    return np.array([np.interp(at, np.arange(7), row) for row in points])


def test_any_reflectance_lies_within_macadams_limits(weights: FloatArray) -> None:
    rng = np.random.default_rng(6)
    rough = rng.uniform(0, 1, (1000, BAND_COUNT))
    smooth = smooth_spectra(rng, 2000, 1.0)
    xyz = np.concatenate([rough, smooth]) @ weights
    assert within_macadam(xyz).all()
    assert within_macadam(xyz, least_y=10.0).mean() > 0.995


def test_any_mixture_lies_within_macadams_limits(weights: FloatArray) -> None:
    """Of made-up paints, steeper than any in the catalogue, on perfectly white paper."""
    rng = np.random.default_rng(7)
    K, S = smooth_spectra(rng, 4000, 4.0), smooth_spectra(rng, 4000, 0.5)
    xyz = with_surface(film_reflectance(K, S, 1.0)) @ weights
    assert within_macadam(xyz).all()
    # Beneath the surface they are more vivid; one in 3000 falls to a chord of the tables.
    assert within_macadam(film_reflectance(K, S, 1.0) @ weights).mean() > 0.999


def test_the_limits_do_rule_something_out(weights: FloatArray) -> None:
    # Negative control: chroma as on no surface, at L* 55 (Y = 23 %) in every hue.
    hue = np.radians(np.linspace(0, 360, 600))
    lab = np.stack([np.full(600, 55.0), 200 * np.cos(hue), 200 * np.sin(hue)], axis=-1)
    assert not within_macadam(lab_to_xyz(lab, white_point(weights))).any()


def test_nearly_all_demo_mixtures_are_real_surfaces(
    catalogue: Catalogue, weights: FloatArray
) -> None:
    """Our own threshold: at least 97 % inside Pointer's gamut, here on cream paper.

    His tables run from L* 15 to 90.
    """
    rng = np.random.default_rng(8)
    tubes = list(catalogue.tubes.values())
    K, S = np.array([tube.K for tube in tubes]), np.array([tube.S for tube in tubes])
    three = rng.integers(0, len(tubes), (MIXTURES, 3))
    loads = rng.choice(STRENGTHS, (MIXTURES, 1, 1)) * rng.dirichlet(np.ones(3), (MIXTURES, 1))
    ground = beneath_surface(catalogue.papers["cream"].reflectance)
    inner = film_reflectance((loads @ K[three])[:, 0], (loads @ S[three])[:, 0], ground)
    xyz = with_surface(inner) @ weights
    lightness = xyz_to_lab(xyz, white_point(weights))[:, 0]
    tabled = xyz[(lightness >= 15) & (lightness <= 90)] / 100
    assert len(tabled) >= MIXTURES / 2
    assert colour.is_within_pointer_gamut(tabled).mean() >= 0.97
