"""The index of CIELAB misses no colour within a limit, at any tolerance a scenario may have."""

import numpy as np
import pytest

from fewtubes.colour.bands import FloatArray
from fewtubes.colour.cubes import EDGES, HIGHEST, LOWEST, Cubes, NearCubes, near_cubes
from fewtubes.colour.difference import delta_e_2000

LIMITS = (0.01, 0.5, 1.0, 2.5, 4.0, 6.0, 8.0, 10.0, 12.5, 15.0, 18.0, 20.0)
"""ΔE00, over the whole range that a scenario may ask for (above 0, at most 20)."""

GREY = (56.26215662446276, -1.3864139077844746, 0.04193587429532676)
"""Where the slope of the difference between neighbouring cubes misleads."""

HALVINGS = 24


def asked(rng: np.random.Generator) -> FloatArray:
    """Draw colours: nearly neutral ones, blues, and anything a table may hold, shape (24, 3)."""
    labs = rng.uniform([0, -150, -150], [100, 150, 150], (24, 3))
    labs[:8, 1:] *= 0.015
    labs[8:16, 1] = rng.uniform(-10, 40, 8)
    labs[8:16, 2] = rng.uniform(-100, -20, 8)
    labs[0] = GREY
    labs[1] = [50.0, 0.0, 0.0]
    return labs


def told(near: NearCubes, colours: FloatArray, colour_count: int) -> np.ndarray:
    """Return which of the colours asked for the index names for each of some colours."""
    named = np.zeros((near.cubes.count, colour_count), dtype=np.bool_)
    named[near.numbers, near.colours] = True
    return named[near.cubes.numbers(colours.astype(np.float32))]


def edge_of_reach(rng: np.random.Generator, lab: FloatArray, limit: float) -> FloatArray:
    """Return colours where the difference reaches the limit, along rays, shape (rays, 3).

    Some rays lead through neutral to the other side, where the hue jumps.
    """
    rays = rng.normal(size=(400, 3)) * [0.5, 2, 2]
    rays[::4, 1:] = -lab[1:] + rng.normal(0, 0.5, (100, 2))
    rays[::4, 0] *= 0.1
    rays /= np.linalg.norm(rays, axis=1, keepdims=True)
    inside, outside = np.zeros(len(rays)), np.full(len(rays), 20 * limit)
    for _ in range(HALVINGS):
        middle = (inside + outside) / 2
        near = delta_e_2000(lab + rays * middle[:, None], lab) <= limit
        inside, outside = np.where(near, middle, inside), np.where(near, outside, middle)
    return np.asarray(lab + rays * inside[:, None])


@pytest.mark.parametrize("limit", LIMITS)
def test_no_colour_within_the_limit_is_missed(limit: float) -> None:
    rng = np.random.default_rng(round(100 * limit))
    labs = asked(rng)
    edge = 2.0 if limit <= 6 else 8.0
    near = near_cubes(labs, np.full(len(labs), limit), edge)
    for t, lab in enumerate(labs):
        colours = np.concatenate([edge_of_reach(rng, lab, limit), rng.normal(lab, limit, (400, 3))])
        # Rounded first, so that both ways see the same colours.
        colours = colours.astype(np.float32).astype(np.float64)
        within = delta_e_2000(colours, lab) <= limit
        assert within.sum() > 200
        assert told(near, colours[within], len(labs))[:, t].all(), lab


def test_greys_find_the_colour_that_only_a_large_slope_reaches() -> None:
    """A recipe of coral and ultramarine, as the program printed it: ΔE00 17.1 from the grey."""
    grey = np.array([GREY])
    rng = np.random.default_rng(3)
    colours = rng.uniform([40, -60, -60], [75, 80, 60], (400_000, 3))
    colours = colours.astype(np.float32).astype(np.float64)
    within = colours[delta_e_2000(colours, grey) <= 18]
    assert told(near_cubes(grey, np.array([18.0]), 8.0), within, 1).all()


def test_colours_beyond_the_table_fall_into_its_outermost_cubes() -> None:
    labs = np.array([[50.0, 0, 0], [99.5, 0, 0], [60.0, 150.0, 150.0]])
    near = near_cubes(labs, np.full(3, 2.0), 2.0)
    beyond = np.array([[-5.0, 0, 0], [50, 400, -400], [50, -400, 400]])
    assert not told(near, beyond, 3).any()
    rng = np.random.default_rng(8)
    around = rng.normal(labs[2], 8, (4000, 3)).astype(np.float32).astype(np.float64)
    outside = around[((around > HIGHEST) | (around < LOWEST)).any(axis=1)]
    within = outside[delta_e_2000(outside, labs[2]) <= 2]
    assert len(within) > 10
    assert told(near, within, 3)[:, 2].all()


def test_smaller_cubes_are_parts_of_larger_ones() -> None:
    """What is named for a small cube is named for the large one around it."""
    labs = asked(np.random.default_rng(5))
    limits = np.full(len(labs), 5.0)
    colours = np.random.default_rng(6).uniform([0, -160, -160], [100, 160, 160], (20_000, 3))
    fine, coarse = (told(near_cubes(labs, limits, edge), colours, len(labs)) for edge in (2.0, 8.0))
    assert fine.any()
    assert (coarse | ~fine).all()
    assert fine.sum() < coarse.sum() / 2


def test_lower_limits_leave_what_they_would_have_found() -> None:
    labs = asked(np.random.default_rng(9))
    wide = near_cubes(labs, np.full(len(labs), 10.0), 4.0)
    limits = np.random.default_rng(10).uniform(-1, 10, len(labs))
    narrow, again = wide.within(limits), near_cubes(labs, limits, 4.0)
    assert set(zip(narrow.numbers, narrow.colours, strict=True)) >= set(
        zip(again.numbers, again.colours, strict=True)
    )
    # A part's bound may be a little lower than that of the whole, which was not cut up the second
    # time; both are right.
    assert len(narrow.numbers) <= 1.01 * len(again.numbers)
    assert not np.isin(narrow.colours, np.flatnonzero(limits < 0)).any()


@pytest.mark.parametrize("edge", EDGES)
def test_numbers_and_corners_belong_together(edge: float) -> None:
    cubes = Cubes(edge)
    colours = np.random.default_rng(2).uniform(LOWEST - 5, HIGHEST + 5, (500, 3)).astype(np.float32)
    numbers = cubes.numbers(colours)
    places = np.stack(np.unravel_index(numbers, cubes.counts.tolist()), axis=-1)
    low, high = cubes.corners(places)
    assert ((low <= colours) & (colours <= high)).all()
    assert cubes.count == cubes.counts.prod()


def test_the_index_spares_nearly_all_differences() -> None:
    """An index that names everything would miss nothing too; that is not the idea."""
    labs = asked(np.random.default_rng(13))
    colours = np.random.default_rng(14).uniform([0, -120, -120], [100, 120, 120], (200_000, 3))
    for limit, edge, most in ((1.0, 2.0, 0.0004), (4.0, 2.0, 0.003), (18.0, 8.0, 0.35)):
        near = near_cubes(labs, np.full(len(labs), limit), edge)
        assert told(near, colours, len(labs)).mean() < most


def test_nothing_is_near_no_colour_or_below_no_limit() -> None:
    assert len(near_cubes(np.zeros((0, 3)), np.zeros(0), 2.0).numbers) == 0
    assert len(near_cubes(np.full((3, 3), 50.0), np.full(3, -1.0), 2.0).numbers) == 0


def test_an_endless_limit_reaches_every_cube() -> None:
    near = near_cubes(np.array([[50.0, 10.0, -60.0]]), np.array([np.inf]), 64.0)
    assert len(near.numbers) == near.cubes.count
