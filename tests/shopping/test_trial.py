"""Recipes under draws: exact where nothing varies, right in the mean where something does."""

from dataclasses import replace
from itertools import pairwise

import numpy as np
import pytest
from scipy.stats import lognorm
from tests.unchecked import unchecked

from fewtubes.catalogue.records import Catalogue
from fewtubes.colour.difference import delta_e_2000
from fewtubes.coverage.cache import Cache
from fewtubes.mixing.matching import Match, recipe_lab
from fewtubes.mixing.recipes import Recipe
from fewtubes.mixing.variation import Draws, Variation
from fewtubes.scenario.records import Scenario
from fewtubes.scenario.wanted import FlowerWish
from fewtubes.selection.instance import Palette
from fewtubes.shopping.choose import Chosen, choose
from fewtubes.shopping.question import Question, pose
from fewtubes.shopping.steadiness import MonteCarlo
from fewtubes.shopping.trial import Trial, paired, spread_of

NONE = Variation().scaled(0)


@pytest.fixture(scope="module")
def question(demo: Catalogue, cache: Cache) -> Question:
    """Return a choice from every fourth tube of the demo catalogue."""
    few = replace(demo, tubes=dict(list(demo.tubes.items())[::4]))
    scenario = Scenario(
        title="test",
        shows="",
        currency="EUR",
        budget=10,
        most_tubes=None,
        tolerance=5.0,
        flowers=(FlowerWish("rose, pale pink"), FlowerWish("daffodil")),
        own_colours=(),
    )
    return pose(few, scenario, cache=cache, progress=lambda _stage: None)


@pytest.fixture(scope="module")
def chosen(question: Question) -> Chosen:
    return choose(question, seconds=30)


def trial(question: Question, palette: Palette, **values: object) -> Trial:
    return Trial.of(question, replace(MonteCarlo(), **values), 0, [palette])  # type: ignore[arg-type]


def test_without_variation_exactly_the_covered_samples_stay(
    question: Question, chosen: Chosen
) -> None:
    still = trial(question, chosen.palette, variation=NONE)
    stays = still.stays(chosen.palette, chosen.matches)
    covered = np.isin(np.arange(len(question.samples)), chosen.palette.covered)
    assert 0 < covered.sum() < len(covered)
    assert (stays == covered).all()
    spread = spread_of(still.coverage(stays))
    exact = chosen.palette.value / sum(question.instance.weights)
    assert (spread.expected, spread.low, spread.high) == pytest.approx((exact,) * 3)
    assert spread.standard_error == pytest.approx(0, abs=1e-15)


def test_a_recipe_just_at_the_tolerance_stays(question: Question, chosen: Chosen) -> None:
    farthest = max(match.difference for match in chosen.matches if match is not None)
    exactly = replace(question, scenario=unchecked(question.scenario, tolerance=farthest))
    still = trial(exactly, chosen.palette, variation=NONE)
    assert still.stays(chosen.palette, chosen.matches).all()


def test_more_variation_never_raises_the_coverage(question: Question, chosen: Chosen) -> None:
    # Covered samples lose and near misses may win; in the mean over this plan it is a loss.
    spreads = []
    for factor in (0.0, 0.25, 0.5, 1.0, 2.0, 4.0):
        one = trial(question, chosen.palette, variation=Variation().scaled(factor))
        spreads.append(spread_of(one.coverage(one.stays(chosen.palette, chosen.matches))))
    for less, more in pairwise(spreads):
        noise = np.hypot(less.standard_error, more.standard_error)
        assert more.expected <= less.expected + 2 * noise
    assert spreads[-1].expected < spreads[0].expected / 2


def test_shares_are_those_of_a_plain_loop(question: Question, chosen: Chosen) -> None:
    one = trial(question, chosen.palette, draws=20)
    stays = one.stays(chosen.palette, chosen.matches)
    tubes = {n: question.tubes[n] for n in chosen.palette.bought}
    draws = Draws(one.trials.seed, 0, 20, one.trials.variation)
    paint = draws.paint([*tubes.values()])
    hand = draws.hand([*tubes.values()], len(question.samples))
    places = {tube.id: place for place, tube in enumerate(tubes.values())}
    for n in range(20):
        varied = {
            tube.id: replace(
                tube,
                strength=1.0,
                pigments=(
                    (
                        replace(
                            tube.pigments[0][0],
                            K=paint.K[n, places[tube.id]],
                            S=paint.S[n, places[tube.id]],
                        ),
                        1.0,
                    ),
                ),
            )
            for tube in tubes.values()
        }
        for t, match in enumerate(chosen.matches):
            assert match is not None
            recipe = Recipe(
                match.recipe.tubes,
                tuple(  # unsteady parts are not whole
                    part * hand.parts[n, t, places[tube]]
                    for tube, part in zip(match.recipe.tubes, match.recipe.parts, strict=True)
                ),
                match.recipe.strength * hand.wash[n, t],
            )
            lab = recipe_lab(recipe, varied, question.optics)
            off = float(delta_e_2000(lab, np.array(question.samples[t].lab)))
            assert stays[n, t] == (off <= question.scenario.tolerance)


def test_a_share_is_right_in_the_mean(question: Question, chosen: Chosen) -> None:
    """Where the wash alone varies, the share is a sum over washes of the chance of each."""
    size, many = 0.3, 2000
    variation = replace(NONE, wash=size)
    one = trial(question, chosen.palette, variation=variation, draws=many)
    shares = one.stays(chosen.palette, chosen.matches).mean(axis=0)
    chance = lognorm(s=size, scale=np.exp(-(size**2) / 2))  # mean 1
    edges = np.exp(np.linspace(-2, 2, 4001))
    mass = np.diff(chance.cdf(edges))
    middles = np.sqrt(edges[1:] * edges[:-1])
    doubtful = 0
    for t in (0, 5, 9):
        match = chosen.matches[t]
        assert match is not None
        labs = np.array(
            [
                recipe_lab(
                    replace(match.recipe, strength=match.recipe.strength * factor),
                    question.catalogue.tubes,
                    question.optics,
                )
                for factor in middles
            ]
        )
        within = delta_e_2000(labs, np.array(question.samples[t].lab)) <= 5.0
        exact = mass[within].sum()
        doubtful += 0.05 < exact < 0.95
        assert shares[t] == pytest.approx(exact, abs=4 * np.sqrt(0.25 / many))
    assert doubtful  # otherwise nothing was put to the test


def test_the_same_recipe_meets_the_same_luck_in_every_palette(
    question: Question, chosen: Chosen
) -> None:
    """Common random numbers: a further tube that is not used changes nothing."""
    further = next(n for n in range(len(question.tubes)) if n not in chosen.palette.bought)
    wider = replace(chosen.palette, bought=tuple(sorted((*chosen.palette.bought, further))))
    narrow = trial(question, chosen.palette).stays(chosen.palette, chosen.matches)
    assert (trial(question, wider).stays(wider, chosen.matches) == narrow).all()
    both = Trial.of(question, MonteCarlo(), 0, [wider, chosen.palette])
    assert (both.stays(chosen.palette, chosen.matches) == narrow).all()
    assert (trial(question, chosen.palette, seed=2).stays(*_pair(chosen)) != narrow).any()


def _pair(chosen: Chosen) -> tuple[Palette, tuple[Match | None, ...]]:
    return chosen.palette, chosen.matches


def test_without_recipes_nothing_stays(question: Question, chosen: Chosen) -> None:
    none = question.instance.palette(())
    one = trial(question, none)
    stays = one.stays(none, (None,) * len(question.samples))
    assert not stays.any()
    half = [match if t % 2 else None for t, match in enumerate(chosen.matches)]
    stays = trial(question, chosen.palette).stays(chosen.palette, half)
    assert not stays[:, ::2].any()
    assert stays[:, 1::2].any()


def test_the_spread_of_numbers_known() -> None:
    # 0, 1, …, 100 ÷ 100: mean 0.5, quantiles 0.05 and 0.95, variance n(n+1) ÷ 12 of the numbers.
    spread = spread_of(np.arange(101) / 100)
    assert (spread.expected, spread.low, spread.high) == pytest.approx((0.5, 0.05, 0.95))
    assert spread.standard_error == pytest.approx(np.sqrt(101 * 102 / 12 / 101) / 100)


def test_luck_that_is_shared_cancels() -> None:
    luck = np.random.default_rng(3).normal(size=50)
    mean, error = paired((luck + 0.25) - luck)
    assert mean == pytest.approx(0.25)
    assert error == pytest.approx(0, abs=1e-12)
