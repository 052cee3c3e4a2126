"""Draws of paint and hand: what stays fixed, what varies by how much, and the colours they give.

Tolerances on random means are four standard errors, and the seeds are fixed.
"""

from dataclasses import replace

import numpy as np
import pytest

import fewtubes.mixing.variation
from fewtubes.catalogue.records import Catalogue, Tube
from fewtubes.mixing.matching import HAND_ERROR, recipe_lab
from fewtubes.mixing.mixture import Optics
from fewtubes.mixing.recipes import Recipe
from fewtubes.mixing.variation import Draws, Hand, Paint, Variation, Where, varied_labs

NONE = Variation(0.0, 0.0, 0.0, 0.0, fit=0.0)
SAMPLES = 3


@pytest.fixture
def tubes(catalogue: Catalogue) -> tuple[Tube, ...]:
    """Return four tubes of the demo catalogue."""
    return tuple(catalogue.tubes.values())[:16:4]


@pytest.fixture
def recipes(tubes: tuple[Tube, ...]) -> tuple[Recipe, ...]:
    """Return a recipe of one, two and three tubes."""
    a, b, c, d = (tube.id for tube in tubes)
    return (
        Recipe((b,), (1,), 0.5),
        Recipe((a, d), (6, 1), 0.25),
        Recipe((a, b, c), (3, 2, 1), 1.0),
    )


def draws(count: int = 40, variation: Variation | None = None, **values: int) -> Draws:
    return Draws(
        **{"seed": 7, "set_number": 0, **values},
        count=count,
        variation=Variation() if variation is None else variation,
    )


def test_without_variation_all_is_as_meant(
    tubes: tuple[Tube, ...], recipes: tuple[Recipe, ...], optics: Optics
) -> None:
    still = draws(variation=NONE)
    paint, hand = still.paint(tubes), still.hand(tubes, SAMPLES)
    for place, tube in enumerate(tubes):
        assert paint.K[:, place] == pytest.approx(np.array([tube.K] * 40))
        assert paint.S[:, place] == pytest.approx(np.array([tube.S] * 40))
    assert (hand.parts == 1).all()
    assert (hand.wash == 1).all()
    by_id = {tube.id: tube for tube in tubes}
    where = Where({tube.id: place for place, tube in enumerate(tubes)}, optics)
    labs = varied_labs(recipes, paint, hand, where)
    expected = np.array([recipe_lab(recipe, by_id, optics) for recipe in recipes])
    assert labs == pytest.approx(np.array([expected] * 40), abs=1e-9)


def test_factors_have_mean_1_and_the_size_stated(tubes: tuple[Tube, ...]) -> None:
    many = 20_000
    hand = draws(many).hand(tubes[:1], 1)
    for factors, size in ((hand.parts[:, 0, 0], 0.10), (hand.wash[:, 0], 0.15)):
        error = factors.std() / np.sqrt(many)
        assert factors.mean() == pytest.approx(1, abs=4 * error)
        # The standard error of a standard deviation of normal numbers is size ÷ √(2 n).
        assert np.log(factors).std() == pytest.approx(size, abs=4 * size / np.sqrt(2 * many))


def test_a_batch_is_stronger_as_a_whole(tubes: tuple[Tube, ...]) -> None:
    many = 5_000
    paint = draws(many, replace(NONE, pigment_strength=0.10)).paint(tubes[:1])
    factors = paint.K[:, 0] / tubes[0].K
    assert factors == pytest.approx(np.repeat(factors[:, :1], factors.shape[1], axis=1))
    scattering = tubes[0].S > 0
    assert (paint.S[:, 0] / np.where(scattering, tubes[0].S, 1))[:, scattering] == pytest.approx(
        np.repeat(factors[:, :1], scattering.sum(), axis=1)
    )
    assert factors[:, 0].mean() == pytest.approx(1, abs=4 * 0.10 / np.sqrt(many))


def test_a_bent_curve_keeps_its_strength_and_stays_smooth(catalogue: Catalogue) -> None:
    many, size = 4_000, 0.03
    single = next(tube for tube in catalogue.tubes.values() if len(tube.pigments) == 1)
    paint = draws(many, replace(NONE, pigment_curve=size)).paint([single])
    logs = np.log(paint.K[:, 0] / single.K) + size**2 / 2
    # Half cosines at the middles of the bands sum to 0 over them, draw by draw.
    assert logs.mean(axis=1) == pytest.approx(np.zeros(many), abs=1e-12)
    # Mean over bands of the variance is size²; each of 3 bends adds a third, n = 3 × draws squares.
    assert (logs**2).mean() == pytest.approx(size**2, rel=4 * np.sqrt(2 / (3 * many)))
    # The steepest bend is 3 half waves over 36 bands: a step is at most π · 3 ÷ 36 of its height.
    height = np.abs(logs).max()
    assert np.abs(np.diff(logs, axis=1)).max() < 3 * np.pi * 3 / 36 * height


def test_the_seed_gives_the_same_draws_and_another_gives_others(tubes: tuple[Tube, ...]) -> None:
    first, again = draws().hand(tubes, SAMPLES), draws().hand(tubes, SAMPLES)
    assert (first.parts == again.parts).all()
    assert (first.wash == again.wash).all()
    for other in (draws(seed=8), draws(set_number=1)):
        assert (other.hand(tubes, SAMPLES).wash != first.wash).all()
        assert (other.paint(tubes).K[:, 0] != draws().paint(tubes).K[:, 0]).any()


def test_fewer_draws_are_the_first_of_more(tubes: tuple[Tube, ...]) -> None:
    few, more = draws(10), draws(25)
    assert (more.paint(tubes).S[:10] == few.paint(tubes).S).all()
    assert (few.hand(tubes, SAMPLES).parts == more.hand(tubes, SAMPLES).parts[:10]).all()


def test_a_tubes_draws_do_not_hang_on_the_others(tubes: tuple[Tube, ...]) -> None:
    alone, among = draws(), draws()
    assert (alone.paint(tubes[2:3]).K[:, 0] == among.paint(tubes).K[:, 2]).all()
    parts = among.hand(tubes, SAMPLES).parts
    assert (alone.hand(tubes[2:3], SAMPLES).parts[..., 0] == parts[..., 2]).all()
    assert (parts[..., 0] != parts[..., 1]).all()


def test_tubes_of_one_pigment_share_its_draw(tubes: tuple[Tube, ...]) -> None:
    twin = replace(tubes[0], id="twin", strength=2 * tubes[0].strength)
    paint = draws().paint((tubes[0], twin))
    assert paint.K[:, 1] == pytest.approx(2 * paint.K[:, 0])
    hand = draws().hand((tubes[0], twin), SAMPLES)
    assert (hand.parts[..., 0] != hand.parts[..., 1]).all()


def test_colours_are_those_of_a_plain_loop(
    tubes: tuple[Tube, ...],
    recipes: tuple[Recipe, ...],
    optics: Optics,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr(fewtubes.mixing.variation, "FILMS", 7)  # draws in blocks of two
    some = draws(5)
    paint, hand = some.paint(tubes), some.hand(tubes, SAMPLES)
    where = Where({tube.id: place for place, tube in enumerate(tubes)}, optics)
    labs = varied_labs(recipes, paint, hand, where)
    for n in range(5):
        for t, recipe in enumerate(recipes):
            assert labs[n, t] == pytest.approx(
                _lab(recipe, _as_mixed(recipe, paint, n, tubes), hand, (n, t), where), abs=1e-9
            )


def _as_mixed(recipe: Recipe, paint: Paint, n: int, tubes: tuple[Tube, ...]) -> dict[str, Tube]:
    """Return the tubes of a recipe as they are in a draw, each of one made-up pigment."""
    varied = {}
    for place, tube in enumerate(tubes):
        if tube.id in recipe.tubes:
            pigment = replace(tube.pigments[0][0], K=paint.K[n, place], S=paint.S[n, place])
            varied[tube.id] = replace(tube, strength=1.0, pigments=((pigment, 1.0),))
    return varied


def _lab(
    recipe: Recipe, tubes: dict[str, Tube], hand: Hand, draw: tuple[int, int], where: Where
) -> list[float]:
    """Return CIELAB of a recipe with unsteady parts, one by one, through `recipe_lab`."""
    parts = tuple(
        part * hand.parts[(*draw, where.places[tube])]
        for tube, part in zip(recipe.tubes, recipe.parts, strict=True)
    )
    unsteady = Recipe(recipe.tubes, parts, recipe.strength * float(hand.wash[draw]))
    lab: list[float] = recipe_lab(unsteady, tubes, where.optics).tolist()
    return lab


def test_no_recipe_gives_no_colour(optics: Optics) -> None:
    none = draws(6)
    labs = varied_labs((), none.paint(()), none.hand((), 0), Where({}, optics))
    assert labs.shape == (6, 0, 3)


def test_scaling_scales_every_size() -> None:
    doubled = Variation(0.1, 0.2, 0.3, 0.4, fit=0.5).scaled(2)
    assert doubled == Variation(0.2, 0.4, 0.6, 0.8, fit=1.0)
    assert Variation().scaled(0) == NONE


def test_parts_seldom_leave_the_unsteady_match(tubes: tuple[Tube, ...]) -> None:
    factors = draws(10_000).hand(tubes[:1], 1).parts
    # Log-normal, mean 1, size 0.10: P(0.8 < f < 1.2) = Φ(1.87) − Φ(−2.18) = 0.955.
    assert (np.abs(factors - 1) < HAND_ERROR).mean() == pytest.approx(0.955, abs=0.009)
