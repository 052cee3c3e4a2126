"""What holds of every mixture on paper."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from fewtubes.catalogue.records import Catalogue
from fewtubes.colour.bands import BAND_COUNT, FloatArray
from fewtubes.colour.difference import delta_e_2000
from fewtubes.mixing.mixture import Optics, mixture_lab, reflectance_lab

WEAKEST = 1e-4
"""A load far below the weakest wash."""


def paints(catalogue: Catalogue) -> tuple[FloatArray, FloatArray]:
    """Return K and S of all demo tubes, shapes (tubes, bands)."""
    tubes = list(catalogue.tubes.values())
    return np.array([tube.K for tube in tubes]), np.array([tube.S for tube in tubes])


@pytest.mark.parametrize("paper", ["cotton-white", "cream"])
@pytest.mark.parametrize("light", ["D65", "A"])
def test_no_paint_is_the_paper(catalogue: Catalogue, paper: str, light: str) -> None:
    optics = Optics.of(catalogue.papers[paper], catalogue.lights[light])
    K, S = paints(catalogue)
    bare = reflectance_lab(catalogue.papers[paper].reflectance, optics)
    np.testing.assert_allclose(mixture_lab(np.zeros(len(K)), K, S, optics), bare, atol=1e-9)


def test_a_perfect_white_is_white_under_every_light(catalogue: Catalogue) -> None:
    for light in catalogue.lights.values():
        optics = Optics.of(catalogue.papers["cotton-white"], light)
        np.testing.assert_allclose(
            reflectance_lab(np.ones(BAND_COUNT), optics), [100, 0, 0], atol=1e-9
        )


def test_weights_may_be_given(catalogue: Catalogue, optics: Optics) -> None:
    again = Optics.with_weights(catalogue.papers["cotton-white"], optics.weights)
    np.testing.assert_array_equal(again.ground, optics.ground)
    np.testing.assert_array_equal(again.white, optics.white)


def test_a_tube_split_in_two_paints_the_same(catalogue: Catalogue, optics: Optics) -> None:
    K, S = paints(catalogue)
    whole = mixture_lab(np.array([0.6, 0.2]), K[[3, 9]], S[[3, 9]], optics)
    split = mixture_lab(np.array([0.2, 0.4, 0.2]), K[[3, 3, 9]], S[[3, 3, 9]], optics)
    np.testing.assert_allclose(split, whole, atol=1e-10)


def test_the_order_of_the_tubes_does_not_matter(catalogue: Catalogue, optics: Optics) -> None:
    K, S = paints(catalogue)
    loads = np.random.default_rng(5).uniform(0, 0.1, len(K))
    there = mixture_lab(loads, K, S, optics)
    back = mixture_lab(loads[::-1], K[::-1], S[::-1], optics)
    np.testing.assert_allclose(there, back, atol=1e-10)


def test_dilution_never_turns_back(catalogue: Catalogue, optics: Optics) -> None:
    """Each thinner wash is lighter, unless the paint is lighter than the paper, as a white is."""
    K, S = paints(catalogue)
    loads = np.geomspace(1.0, WEAKEST, 60)
    bare = mixture_lab(np.zeros(1), K[:1], S[:1], optics)
    for k, s in zip(K, S, strict=True):
        washes = mixture_lab(loads[:, None], k[None], s[None], optics)
        rising = np.diff(washes[:, 0])
        assert (rising > 0).all() or (washes[:, 0] > bare[0] - 0.5).all()
        assert delta_e_2000(washes[-1], bare) < 0.2


profiles = st.tuples(*[st.floats(0, 5)] * 6).map(
    lambda heights: np.interp(np.arange(BAND_COUNT), np.linspace(0, BAND_COUNT - 1, 6), heights)
)


@given(profiles, profiles, st.floats(0.01, 1), st.floats(1.01, 3))
def test_more_of_a_clear_paint_is_never_lighter(
    one: FloatArray, other: FloatArray, load: float, factor: float
) -> None:
    """Without scattering, whatever the spectra; the optics are those of an even light."""
    weights = np.full((BAND_COUNT, 3), 100 / BAND_COUNT)
    optics = Optics(np.full(BAND_COUNT, 0.8), weights, weights.sum(axis=0))
    K, S = np.array([one, other]), np.zeros((2, BAND_COUNT))
    thin = mixture_lab(np.array([load, load]), K, S, optics)
    thick = mixture_lab(np.array([factor * load, load]), K, S, optics)
    assert thick[0] <= thin[0] + 1e-9
