"""The fast colours in single precision against the exact ones."""

from itertools import combinations

import numpy as np
import pytest

from fewtubes.catalogue.limits import COEFFICIENT
from fewtubes.catalogue.records import Catalogue
from fewtubes.colour.bands import BAND_COUNT, FloatArray
from fewtubes.colour.difference import delta_e_2000
from fewtubes.mixing.film import film_reflectance
from fewtubes.mixing.mixture import Optics, mixture_lab, reflectance_lab
from fewtubes.mixing.recipes import PARTS, STRENGTHS, shares
from fewtubes.mixing.surface import with_surface
from fewtubes.mixing.washes import PRECISION, wash_series

SETS_DRAWN = 400


def exact(K: FloatArray, S: FloatArray, optics: Optics) -> FloatArray:
    """Return CIELAB of films, shapes (mixtures, bands), in double precision."""
    return reflectance_lab(with_surface(film_reflectance(K, S, optics.ground)), optics)


def errors(K: FloatArray, S: FloatArray, optics: Optics) -> FloatArray:
    """Return ΔE00 of the fast colours from the exact ones, shape (strengths, mixtures)."""
    found = {
        step: delta_e_2000(
            labs.astype(np.float64), exact(STRENGTHS[step] * K, STRENGTHS[step] * S, optics)
        )
        for step, labs in wash_series(K.astype(np.float32), S.astype(np.float32), optics, STRENGTHS)
    }
    assert sorted(found) == list(range(len(STRENGTHS)))
    return np.array([found[step] for step in range(len(STRENGTHS))])


@pytest.mark.parametrize("size", PARTS)
@pytest.mark.parametrize("light", ["D65", "A"])
@pytest.mark.parametrize("paper", ["cotton-white", "cream"])
def test_mixtures_of_the_demo_tubes(
    catalogue: Catalogue, size: int, light: str, paper: str
) -> None:
    """Measured: 0.0002 at most, so `PRECISION` leaves a hundredfold margin."""
    optics = Optics.of(catalogue.papers[paper], catalogue.lights[light])
    tubes = list(catalogue.tubes.values())
    sets = np.array(list(combinations(range(len(tubes)), size)))
    sets = np.random.default_rng(9).permutation(sets)[:SETS_DRAWN]
    K, S = (
        (shares(PARTS[size]) @ np.array([getattr(tube, name) for tube in tubes])[sets]).reshape(
            -1, BAND_COUNT
        )
        for name in ("K", "S")
    )
    assert errors(K, S, optics).max() < PRECISION / 20


@pytest.mark.parametrize("ground", [0.0, 0.4, 1.0, None])
@pytest.mark.parametrize(
    ("most_K", "most_S"),
    [(10.0, 3.0), (COEFFICIENT.high, COEFFICIENT.high), (1e-6, 10.0), (10.0, 1e-6), (0.0, 0.0)],
)
def test_paints_of_any_kind_on_any_ground(
    optics: Optics, ground: float | None, most_K: float, most_S: float
) -> None:
    """Nearly clear ones, whites on black, and all that a catalogue may hold; measured 0.0032."""
    if ground is not None:
        optics = Optics(np.full(BAND_COUNT, ground), optics.weights, optics.white)
    rng = np.random.default_rng(10)
    even = rng.random((600, 1)) < 0.5
    K, S = (
        np.minimum(most, 10 ** rng.uniform(-9, np.log10(most + 1e-9), (600, BAND_COUNT)))
        for most in (most_K, most_S)
    )
    K, S = np.where(even, K[:, :1], K), np.where(even, S[:, :1], S)
    assert errors(K, S, optics).max() < PRECISION / 2


def test_it_agrees_with_the_colour_of_a_mixture(catalogue: Catalogue, optics: Optics) -> None:
    """The route by loads and tubes, which the recipes are printed by."""
    tubes = list(catalogue.tubes.values())[4:7]
    K, S = np.array([tube.K for tube in tubes]), np.array([tube.S for tube in tubes])
    share = shares(PARTS[3])
    mixed = (share @ K).astype(np.float32), (share @ S).astype(np.float32)
    for step, labs in wash_series(*mixed, optics, STRENGTHS):
        expected = mixture_lab(STRENGTHS[step] * share, K, S, optics)
        assert delta_e_2000(labs.astype(np.float64), expected).max() < PRECISION / 20


@pytest.mark.parametrize("count", [1, 2, 3, 12])
def test_fewer_strengths_are_the_strongest_of_all(
    catalogue: Catalogue, optics: Optics, count: int
) -> None:
    tube = catalogue.tubes["magenta"]
    K, S = tube.K[None].astype(np.float32), tube.S[None].astype(np.float32)
    whole = {step: labs.copy() for step, labs in wash_series(K, S, optics, STRENGTHS)}
    some = list(wash_series(K, S, optics, STRENGTHS[:count]))
    assert [step for step, _ in some] == list(reversed(range(count)))  # weakest first
    for step, labs in some:
        np.testing.assert_allclose(labs, whole[step], atol=1e-3)


def test_the_paints_are_not_changed(optics: Optics) -> None:
    K, S = np.zeros((2, BAND_COUNT), np.float32), np.ones((2, BAND_COUNT), np.float32)
    for _ in wash_series(K, S, optics, STRENGTHS):
        pass
    assert (K == 0).all()
    assert (S == 1).all()
