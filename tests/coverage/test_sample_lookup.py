"""The table of near samples misses no colour that a paint could have."""

import numpy as np
import numpy.typing as npt
import pytest

from fewtubes.colour.bands import FloatArray
from fewtubes.colour.cielab import lab_to_xyz
from fewtubes.colour.difference import delta_e_2000
from fewtubes.coverage.sample_lookup import SampleLookup
from fewtubes.masks import BoolArray, masks_to_bits
from fewtubes.mixing.mixture import Optics
from fewtubes.mixing.surface import OUTER_REFLECTION

TOLERANCES = (0.1, 1.0, 2.5, 4.0, 6.0, 10.0, 14.0, 18.0, 20.0)
"""ΔE00, over the whole range that a scenario may ask for."""

WIDEST = 120.0
"""Colours drawn have a* and b* within ± this; no paint goes beyond."""

COLOURS = 500_000
LIGHTNESS_STEP = 1.7472
"""ΔL* of ΔE00 1 at most, S_L of black and white (see the tests of the difference)."""

HALVINGS = 22


def drawn_samples(rng: np.random.Generator) -> FloatArray:
    """Draw samples: near neutral ones, blues, and anything, shape (14, 3)."""
    samples = rng.uniform([5, -WIDEST, -WIDEST], [98, WIDEST, WIDEST], (12, 3))
    samples[:3, 1:] *= 0.05
    samples[3:6, 1] = rng.uniform(-10, 30, 3)
    samples[3:6, 2] = rng.uniform(-90, -40, 3)
    # A grey that the slope of the difference between neighbouring cubes misjudges, and another.
    greys = [[56.26215662446276, -1.3864139077844746, 0.04193587429532676], [70.0, 0.3, -0.4]]
    return np.concatenate([samples, greys])


def told(table: SampleLookup, colours: FloatArray, sample_count: int) -> BoolArray:
    """Return which samples the table names for each colour, shape (colours, samples)."""
    near, masks = table.candidates(colours.astype(np.float32))
    bits = np.zeros((len(colours), sample_count), dtype=np.bool_)
    bits[near] = masks_to_bits(masks, sample_count)
    return bits


@pytest.fixture(scope="module")
def colours() -> FloatArray:
    """Return half a million colours in order of lightness, most of them beyond any paint."""
    rng = np.random.default_rng(12)
    drawn = rng.uniform([0, -WIDEST, -WIDEST], [100, WIDEST, WIDEST], (COLOURS, 3))
    # Rounded first, so that both ways see the same colours.
    return drawn[np.argsort(drawn[:, 0])].astype(np.float32).astype(np.float64)


@pytest.mark.parametrize("tolerance", TOLERANCES)
def test_no_colour_is_missed_among_half_a_million(colours: FloatArray, tolerance: float) -> None:
    samples = drawn_samples(np.random.default_rng(13))
    named = told(SampleLookup.of(samples, tolerance), colours, len(samples))
    for t, sample in enumerate(samples):
        reach = LIGHTNESS_STEP * tolerance  # beyond it none is within tolerance
        first, last = np.searchsorted(colours[:, 0], [sample[0] - reach, sample[0] + reach])
        within = delta_e_2000(colours[first:last], sample) <= tolerance
        assert not (within & ~named[first:last, t]).any()


def could_be_paint(labs: FloatArray, optics: Optics) -> npt.NDArray[np.bool_]:
    """Return whether some reflectance from that of the surface to 1 has each colour, exactly.

    Such colours fill a zonotope whose faces are spanned by two bands each.
    """
    weights = optics.weights / optics.white
    one, other = np.triu_indices(len(weights), 1)
    normals = np.cross(weights[one], weights[other])
    lengths = np.linalg.norm(normals, axis=1)
    normals = normals[lengths > 1e-14] / lengths[lengths > 1e-14, None]
    centre = weights.sum(axis=0) * (1 + OUTER_REFLECTION) / 2
    half = np.abs(normals @ weights.T).sum(axis=1) * (1 - OUTER_REFLECTION) / 2
    away = np.abs((lab_to_xyz(labs, np.ones(3)) - centre) @ normals.T)
    return np.asarray((away <= half + 1e-12).all(axis=1))


def test_what_could_be_paint(optics: Optics) -> None:
    # Controls: a middle grey can, black below the surface's 4 % (L* 23.7) cannot, nor chroma 140.
    labs = np.array([[50.0, 0, 0], [20, 0, 0], [50, 0, 140]])
    assert could_be_paint(labs, optics).tolist() == [True, False, False]


@pytest.mark.parametrize("tolerance", TOLERANCES)
def test_no_paint_is_missed_at_the_very_edge(optics: Optics, tolerance: float) -> None:
    """Along rays from each sample, the colour where the difference reaches the tolerance.

    A longer run of 16 million such edges under three lights missed none.
    """
    rng = np.random.default_rng(14)
    samples = drawn_samples(rng)
    table = SampleLookup.of(samples, tolerance)
    checked = 0
    for t, sample in enumerate(samples):
        rays = rng.normal(size=(800, 3)) * [0.5, 2, 2]
        rays /= np.linalg.norm(rays, axis=1, keepdims=True)
        inside, outside = np.zeros(len(rays)), np.full(len(rays), 20 * tolerance)
        for _ in range(HALVINGS):
            middle = (inside + outside) / 2
            near = delta_e_2000(sample + rays * middle[:, None], sample) <= tolerance
            inside, outside = np.where(near, middle, inside), np.where(near, outside, middle)
        edge = sample + rays * inside[:, None]
        edge = edge[could_be_paint(edge, optics)]
        checked += len(edge)
        assert told(table, edge, len(samples))[:, t].all(), sample
    assert checked > (1500 if tolerance < 12 else 300)


@pytest.mark.parametrize("tolerance", [1.0, 4.0])
def test_the_table_spares_nearly_all_differences(colours: FloatArray, tolerance: float) -> None:
    """A table that names everything would miss nothing too; that is not the idea."""
    samples = drawn_samples(np.random.default_rng(13))
    named = told(SampleLookup.of(samples, tolerance), colours, len(samples))
    # Measured: 0.007 % and 0.06 % of all pairs.
    assert named.mean() < 0.002


def test_colours_beyond_the_table_fall_into_its_outermost_cubes() -> None:
    samples = np.array([[50.0, 0, 0]])
    beyond = np.array([[-5.0, 0, 0], [105, 0, 0], [50, 400, -400]])
    assert not told(SampleLookup.of(samples, 2.0), beyond, 1).any()
    edge = SampleLookup.of(np.array([[99.5, 0, 0]]), 2.0)
    assert told(edge, np.array([[100.4, 0.1, 0]]), 1).all()


def test_more_than_one_word_of_samples() -> None:
    rng = np.random.default_rng(15)
    samples = rng.uniform([20, -60, -60], [90, 60, 60], (130, 3))
    named = told(SampleLookup.of(samples, 2.0), samples, len(samples))
    assert named.shape == (130, 130)
    assert named.diagonal().all()


def test_no_samples() -> None:
    assert not told(SampleLookup.of(np.zeros((0, 3)), 2.0), np.full((4, 3), 50.0), 0).any()


def test_window_grows_where_the_first_is_too_small() -> None:
    """A vivid blue whose neighbours lie far along b*; ΔE00 by colour-science is 5.0000 (4.99…)."""
    sample, mixture = np.array([41.918, -0.824, -72.966]), np.array([42.176, 22.195, -123.317])
    assert delta_e_2000(sample, mixture) <= 5
    assert told(SampleLookup.of(sample[None], 5.0), mixture[None], 1).all()


def test_a_pink_far_from_grey_is_near_a_grey_at_a_large_tolerance() -> None:
    """A case that a bound by measured slopes missed: 6 parts coral, 1 part ultramarine, half wash.

    Its colour and the grey are frozen here; ΔE00 17.13 by the formula itself.
    """
    grey = np.array([[56.26215662446276, -1.3864139077844746, 0.04193587429532676]])
    pink = np.array([[54.73712804381907, 44.41214713664232, -1.386009596233495]])
    assert 17 < float(delta_e_2000(grey, pink)[0]) < 18
    assert told(SampleLookup.of(grey, 18.0), pink, 1).all()
