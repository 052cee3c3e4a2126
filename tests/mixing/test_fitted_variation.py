"""Draws of fitted paints: one of the likely spectra each, and nothing that is assumed beside it.

Tolerances on random means are four standard errors, and the seeds are fixed.
"""

from collections.abc import Callable
from dataclasses import replace

import numpy as np
import pytest
from tests.fitted_tables import likely_about

from fewtubes.catalogue.records import Catalogue, LikelySpectra, Pigment, Tube
from fewtubes.colour.bands import BAND_COUNT
from fewtubes.mixing.variation import LEAST_COEFFICIENT, Draws, Paint, Variation

LIKELY = 24

Fitted = Callable[[LikelySpectra], Tube]


@pytest.fixture
def pigment(catalogue: Catalogue) -> Pigment:
    """Return a pigment of the demo catalogue that absorbs and scatters on every band."""
    return catalogue.pigments["pb29-ultramarine"]


@pytest.fixture
def fitted(pigment: Pigment) -> Fitted:
    """Return a function that makes a tube of the pigment with likely spectra, twice as strong."""

    def with_likely(likely: LikelySpectra) -> Tube:
        return Tube("own", "own blue", 2.0, ((replace(pigment, likely=likely), 1.0),), ())

    return with_likely


def paint_of(tube: Tube, count: int, variation: Variation, *, seed: int = 7) -> Paint:
    """Return K and S of one tube in each draw, shape (draws, bands)."""
    paint = Draws(seed=seed, set_number=0, count=count, variation=variation).paint([tube])
    return Paint(paint.K[:, 0], paint.S[:, 0])


def places(drawn: Paint, likely: LikelySpectra) -> list[int]:
    """Return which likely spectrum each draw is, told by K and by S alike."""
    found = []
    for K, S in zip(drawn.K / 2, drawn.S / 2, strict=True):
        (by_K,), (by_S,) = (
            np.flatnonzero(np.isclose(some, one, rtol=1e-12).all(axis=1))
            for some, one in ((likely.K, K), (likely.S, S))
        )
        assert by_K == by_S, "K and S must be of the same likely spectrum"
        found.append(int(by_K))
    return found


def test_each_draw_is_one_of_the_likely_spectra(pigment: Pigment, fitted: Fitted) -> None:
    """Each as likely as another: n draws of 24 give χ² of 23 degrees of freedom.

    Its mean is 23 and its variance 46 (any handbook of statistics), so 23 + 4 √46 = 50.1.
    """
    likely, count = likely_about(pigment, draws=LIKELY), 2_400
    found = places(paint_of(fitted(likely), count, Variation()), likely)
    counted = np.bincount(found, minlength=LIKELY)
    expected = count / LIKELY
    assert ((counted - expected) ** 2 / expected).sum() < 23 + 4 * np.sqrt(46)


def test_equal_likely_spectra_leave_no_variation_of_paint(pigment: Pigment, fitted: Fitted) -> None:
    same = LikelySpectra(np.tile(1.5 * pigment.K, (20, 1)), np.tile(0.5 * pigment.S, (20, 1)))
    drawn = paint_of(fitted(same), 50, Variation())
    assert pytest.approx(np.tile(3 * pigment.K, (50, 1))) == drawn.K
    assert pytest.approx(np.tile(pigment.S, (50, 1))) == drawn.S


def test_the_mean_of_log_k_is_that_of_the_likely_spectra(pigment: Pigment, fitted: Fitted) -> None:
    likely, count = likely_about(pigment, draws=LIKELY, spread=0.3), 4_000
    logs = np.log(paint_of(fitted(likely), count, Variation()).K / 2)
    expected = np.log(likely.K)
    error = expected.std(axis=0) / np.sqrt(count)
    assert (np.abs(logs.mean(axis=0) - expected.mean(axis=0)) < 4 * error).all()
    # The variance as well: of a uniform choice among 24 it is theirs, and the standard error of a
    # variance is at most σ² √((kurtosis − 1) ÷ n), with a kurtosis below 6 for 24 normal numbers.
    assert logs.var(axis=0) == pytest.approx(expected.var(axis=0), rel=4 * np.sqrt(5 / count))


def test_the_assumed_batch_does_not_touch_fitted_paint(pigment: Pigment, fitted: Fitted) -> None:
    tube = fitted(likely_about(pigment))
    without = paint_of(tube, 30, Variation(pigment_strength=0.0, pigment_curve=0.0))
    more = paint_of(tube, 30, Variation(pigment_strength=0.5, pigment_curve=0.5))
    assert (without.K == more.K).all()
    assert (without.S == more.S).all()


def test_the_hand_errs_with_fitted_paint_as_with_any(pigment: Pigment, fitted: Fitted) -> None:
    tube = fitted(likely_about(pigment))
    plain = replace(tube, pigments=((pigment, 1.0),))
    draws = Draws(seed=7, set_number=0, count=30, variation=Variation())
    assert (draws.hand([tube], 3).parts == draws.hand([plain], 3).parts).all()
    assert (draws.hand([tube], 3).wash != 1).all()


def test_without_variation_the_fit_itself_is_taken(pigment: Pigment, fitted: Fitted) -> None:
    tube = fitted(likely_about(pigment))
    drawn = paint_of(tube, 10, Variation().scaled(0))
    assert pytest.approx(np.tile(tube.K, (10, 1))) == drawn.K
    assert pytest.approx(np.tile(tube.S, (10, 1))) == drawn.S


def test_half_of_the_variation_is_half_way_in_logarithms(pigment: Pigment, fitted: Fitted) -> None:
    tube = fitted(likely_about(pigment, spread=0.3))
    whole, half = (paint_of(tube, 10, Variation().scaled(factor)) for factor in (1, 0.5))
    assert pytest.approx(np.sqrt(tube.K * whole.K)) == half.K  # the geometric mean
    assert pytest.approx(np.sqrt(tube.S * whole.S)) == half.S


def test_no_absorption_stays_almost_none(fitted: Fitted) -> None:
    """A likely spectrum of nothing, between which and the fit no logarithm would lie."""
    nothing = LikelySpectra(np.zeros((20, BAND_COUNT)), np.zeros((20, BAND_COUNT)))
    assert (paint_of(fitted(nothing), 5, Variation()).K == 0).all()
    tripled = paint_of(fitted(nothing), 5, Variation().scaled(3))
    assert np.isfinite(tripled.K).all()
    assert (tripled.K <= 2 * LEAST_COEFFICIENT).all()


def test_draws_hang_on_the_seed_and_the_pigment_alone(pigment: Pigment, fitted: Fitted) -> None:
    likely = likely_about(pigment)
    tube = fitted(likely)
    few, more = (paint_of(tube, count, Variation()) for count in (10, 25))
    assert (more.K[:10] == few.K).all()
    assert (paint_of(tube, 25, Variation(), seed=8).K != more.K).any()
    other = replace(pigment, id="another", likely=likely)
    another = replace(tube, pigments=((other, 1.0),))
    assert places(paint_of(another, 25, Variation()), likely) != places(more, likely)
    twin = replace(tube, id="twin")
    assert (paint_of(twin, 25, Variation()).K == more.K).all()
