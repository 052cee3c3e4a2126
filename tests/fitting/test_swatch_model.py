"""The model of swatches: slopes, bounds of screen colours, and the published closed form."""

import numpy as np
import pytest
from tests.fitting.invented_paints import InventedPaints, painted_sheet

from fewtubes.catalogue.records import Pigment
from fewtubes.colour.bands import FloatArray
from fewtubes.fitting.estimate import estimated
from fewtubes.fitting.grounds import Grounds
from fewtubes.fitting.kinds import kinds_of
from fewtubes.fitting.prior import curves, expected_from
from fewtubes.fitting.sheet import (
    PaintedSwatch,
    PaintedTube,
    ScreenColour,
    Seen,
    SeenLab,
    SeenReflectance,
)
from fewtubes.fitting.swatch_model import SwatchModel
from fewtubes.mixing.film import film_reflectance
from fewtubes.mixing.surface import beneath_surface, with_surface


def _swatch(colour: Seen, strength: float = 1.0, *, over_black: bool = False) -> PaintedSwatch:
    return PaintedSwatch("here", strength, over_black, colour, 1.5)


MIXED = (
    _swatch(SeenLab((40.0, 55.0, 10.0))),
    _swatch(ScreenColour((0, 120, 200)), 0.5),
    _swatch(ScreenColour((255, 255, 0)), 0.25),
    _swatch(SeenReflectance(np.linspace(0.2, 0.7, 36)), 0.125),
    _swatch(SeenLab((12.0, 3.0, 1.0)), over_black=True),
)


def test_slopes_of_all_kinds_of_swatches(grounds: Grounds, profiles: tuple[Pigment, ...]) -> None:
    model = SwatchModel(MIXED, expected_from([profiles[20]], known=False), grounds, 0.12)
    unknowns = np.random.default_rng(3).normal(0, 0.5, model.size)
    step = 1e-6
    differences = np.stack(
        [
            (model.residuals(unknowns + e) - model.residuals(unknowns - e)) / (2 * step)
            for e in step * np.eye(model.size)
        ],
        axis=1,
    )
    assert np.allclose(model.jacobian(unknowns), differences, atol=2e-4)


def test_a_channel_at_its_end_is_a_bound(grounds: Grounds, profiles: tuple[Pigment, ...]) -> None:
    # A blue so deep that red would have to be below nothing: the screen shows 0, however deep.
    blue = max(profiles, key=lambda profile: float(profile.K[22:30].mean()))
    shown = (_swatch(ScreenColour((0, 60, 140))), _swatch(ScreenColour((0, 100, 170)), 0.5))
    plain = SwatchModel(shown, expected_from([blue], known=False), grounds, 0.12)
    deep = np.zeros(plain.size)
    inner, _, _ = plain._films(plain.paint(deep), plain.strengths(deep))
    xyz, kept = plain._shown(with_surface(inner))
    raw = with_surface(inner) @ grounds.optics.weights
    bounded = np.abs(xyz - raw).max(axis=1) > 1e-9
    assert bounded.any()  # otherwise this test shows nothing
    # What is held back does not follow the unknowns: the slope loses one of its three ranks.
    assert all(np.linalg.matrix_rank(part) < 3 for part in kept[bounded])


def test_curves_have_the_variance_they_are_said_to_have() -> None:
    covariance = curves() @ curves().T
    # 0.5 + 0.15 + 0.3, from the sizes in the module; what is left out is below 5e-4 a curve.
    assert np.diag(covariance) == pytest.approx(np.full(36, 0.95), abs=0.01)
    assert covariance[0, 35] == pytest.approx(0.3, abs=0.01)  # 350 nm apart only the level is left


def _closed_form(
    over_white: FloatArray, over_black: FloatArray, white: FloatArray, black: float
) -> tuple[FloatArray, FloatArray]:
    """Return K and S of a film by its reflectance over two grounds.

    D. B. Judd, G. Wyszecki, Color in Business, Science and Industry (1975), and C. J. Curtis and
    others, Computer-generated watercolor, Proc. SIGGRAPH 1997, section 5.1, for a black ground that
    is not wholly black: a from R over two grounds, then S = arcoth(…)/b and K = S(a − 1).
    """

    # R = (1 − Rg(a − b·coth bS)) ÷ (a − Rg + b·coth bS), solved for c = b·coth bS on both grounds:
    # c(Rg − R) = R(a − Rg) − 1 + Rg·a, linear in a; equal for both grounds gives a.
    def line(R: FloatArray, ground: FloatArray | float) -> tuple[FloatArray, FloatArray]:
        return (R + ground) / (ground - R), (-R * ground - 1) / (ground - R)

    slope_w, start_w = line(over_white, white)
    slope_b, start_b = line(over_black, black)
    a = (start_b - start_w) / (slope_w - slope_b)
    b = np.sqrt(a**2 - 1)
    S = np.arctanh(b / (slope_w * a + start_w)) / b
    return S * (a - 1), S


def test_spectra_over_white_and_black_give_what_the_closed_form_gives(
    grounds: Grounds, profiles: tuple[Pigment, ...]
) -> None:
    true = InventedPaints.drawn(np.random.default_rng(4), 7)
    for K, S in zip(true.K, true.S, strict=True):
        swatches = []
        for over_black in (False, True):
            ground = grounds.black if over_black else grounds.optics.ground
            seen = SeenReflectance(with_surface(film_reflectance(K, S, ground)))
            swatches.append(PaintedSwatch("x", 1.0, over_black, seen, 0.05))
        inner = [
            beneath_surface(s.colour.reflectance)
            for s in swatches
            if isinstance(s.colour, SeenReflectance)
        ]
        closed_K, closed_S = _closed_form(inner[0], inner[1], grounds.optics.ground, 0.01)
        assert closed_K == pytest.approx(K, rel=1e-6)  # the closed form is right to begin with
        tube = PaintedTube("x", (), tuple(swatches))
        fitted = estimated(
            tube.swatches, kinds_of(tube, profiles, grounds), grounds, hand=1e-3
        ).paint
        # A film as dark as the black line tells nothing more; elsewhere a tenth is asked for.
        light = inner[0] > 0.02
        assert fitted.K[light] == pytest.approx(closed_K[light], rel=0.12, abs=0.01)
        assert fitted.S.mean() == pytest.approx(closed_S.mean(), rel=0.15, abs=0.003)


def test_many_sure_swatches_find_the_paint(grounds: Grounds, profiles: tuple[Pigment, ...]) -> None:
    random = np.random.default_rng(5)
    true = InventedPaints.drawn(random, 7)
    sheet = painted_sheet(true, random, grounds.optics, noise=0.05, hand=0.001, over_black=True)
    for tube in sheet.tubes:
        found = estimated(tube.swatches, kinds_of(tube, profiles, grounds), grounds, hand=0.001)
        assert found.weights.sum() == pytest.approx(1)
        assert found.strengths == pytest.approx([1, 0.5, 0.25, 0.125, 1], rel=0.01)
