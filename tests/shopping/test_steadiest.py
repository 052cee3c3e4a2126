"""Which palettes are weighed, what is taken for steadiness, and what that gives up."""

from collections.abc import Callable
from dataclasses import replace
from decimal import Decimal
from itertools import combinations

import numpy as np
import pytest

from fewtubes.catalogue.records import Catalogue
from fewtubes.coverage.cache import Cache
from fewtubes.mixing.variation import Variation
from fewtubes.scenario.records import Scenario, Wishes
from fewtubes.scenario.wanted import FlowerWish
from fewtubes.selection.certificate import Status
from fewtubes.selection.instance import Palette
from fewtubes.shopping.choose import choose
from fewtubes.shopping.question import Question, pose
from fewtubes.shopping.rivals import MOST_WEIGHED, rivals_of
from fewtubes.shopping.shop import shop
from fewtubes.shopping.steadiest import COMPARING, TELLING, weigh
from fewtubes.shopping.steadiness import MonteCarlo
from fewtubes.shopping.trial import Trial

Ask = Callable[..., Question]
SECONDS = 30.0


def asked(*flowers: str, budget: int, **wishes: object) -> Scenario:
    """Return a scenario of these flowers."""
    return Scenario(
        title="test",
        shows="",
        currency="EUR",
        budget=Decimal(budget) / 100,
        most_tubes=None,
        tolerance=5.0,
        flowers=tuple(FlowerWish(flower) for flower in flowers),
        own_colours=(),
        wishes=Wishes(**wishes),  # type: ignore[arg-type]
    )


PINK = asked("rose, pale pink", "daffodil", budget=1000)
"""Few palettes are near the best one."""

BLUE = asked("cornflower", "marigold", budget=1600)
"""Many palettes are near the best one, and some are far steadier."""


@pytest.fixture(scope="module")
def few(demo: Catalogue) -> Catalogue:
    """Return every fourth tube of the demo catalogue."""
    return replace(demo, tubes=dict(list(demo.tubes.items())[::4]))


@pytest.fixture(scope="module")
def ask(few: Catalogue, cache: Cache) -> Ask:
    """Return a function that poses a scenario."""

    def ask_it(scenario: Scenario, catalogue: Catalogue = few) -> Question:
        return pose(catalogue, scenario, cache=cache, progress=lambda _stage: None)

    return ask_it


def near_by_trial(question: Question, best: Palette, within: float) -> set[tuple[int, ...]]:
    """Return the palettes near the best one by exhaustive search, none with a useless tube."""
    instance = question.instance
    least = max(1, best.value - within * sum(instance.weights) - 1e-6)
    found = set()
    for size in range(len(best.bought) + 1):
        for tubes in combinations(range(len(question.tubes)), size):
            palette = instance.palette(tubes)
            if (
                instance.must_have <= set(palette.bought)
                and not set(tubes) & instance.owned
                and palette.cost <= instance.budget
                and palette.value >= least
                and all(
                    instance.palette(frozenset(tubes) - {tube}).value < palette.value
                    for tube in set(tubes) - instance.must_have
                )
            ):
                found.add(palette.bought)
    return found


@pytest.mark.parametrize("within", [0.02, 0.1])
def test_rivals_are_those_of_exhaustive_search(ask: Ask, within: float) -> None:
    question = ask(PINK)
    chosen = choose(question, seconds=SECONDS)
    rivals = rivals_of(question, chosen, within=within, seconds=SECONDS)
    assert rivals.complete
    assert rivals.palettes[0] is chosen.palette
    expected = near_by_trial(question, chosen.palette, within)
    assert {palette.bought for palette in rivals.palettes} == expected
    assert len(expected) == len(rivals.palettes)


def test_rivals_with_a_must_have_and_an_owned_tube(ask: Ask, few: Catalogue) -> None:
    ids = list(few.tubes)
    question = ask(
        asked("rose, pale pink", "daffodil", budget=1000, must_have=(ids[1],), owned=(ids[9],))
    )
    chosen = choose(question, seconds=SECONDS)
    rivals = rivals_of(question, chosen, within=0.1, seconds=SECONDS)
    assert rivals.complete
    expected = near_by_trial(question, chosen.palette, 0.1)
    assert {palette.bought for palette in rivals.palettes} == expected
    assert len(expected) > 1


def test_of_many_rivals_the_first_by_rank_are_weighed(ask: Ask) -> None:
    question = ask(BLUE)
    chosen = choose(question, seconds=SECONDS)
    rivals = rivals_of(question, chosen, within=0.1, seconds=SECONDS)
    assert not rivals.complete
    assert len(rivals.palettes) == MOST_WEIGHED
    everything = near_by_trial(question, chosen.palette, 0.1)
    ranked = sorted(
        (question.instance.palette(tubes) for tubes in everything),
        key=lambda palette: (palette.rank, palette.bought),
    )
    assert [p.bought for p in rivals.palettes] == [p.bought for p in ranked[:MOST_WEIGHED]]


def test_an_unproven_choice_is_not_compared_with_lesser_ones(ask: Ask) -> None:
    question = ask(PINK)
    chosen = choose(question, seconds=SECONDS)
    certificate = replace(chosen.choice.certificate, status=Status.STOPPED)
    stopped = replace(
        chosen, choice=replace(chosen.choice, certificate=certificate, complete=False)
    )
    rivals = rivals_of(question, stopped, within=0.1, seconds=SECONDS)
    assert rivals.palettes == (chosen.palette,)
    assert not rivals.complete
    _, steadiness = weigh(question, stopped, MonteCarlo(within=0.1), seconds=SECONDS)
    assert (steadiness.proven, steadiness.rival, steadiness.weighed) == (False, None, 1)


def test_telling_changes_nothing_of_the_plan(ask: Ask) -> None:
    question = ask(BLUE)
    chosen = choose(question, seconds=SECONDS)
    told, steadiness = weigh(question, chosen, MonteCarlo(within=0.1), seconds=SECONDS)
    assert told.palette is chosen.palette
    assert told.matches == chosen.matches
    assert not steadiness.taken
    assert (steadiness.given_up, steadiness.extra_cost, steadiness.other_recipes) == (0, 0, 0)
    assert steadiness.ranks_best
    assert steadiness.rival is not None
    assert steadiness.rival.steadier  # so that taking it, below, is put to the test


def test_the_steadiest_is_taken_and_what_it_gives_up_is_told(ask: Ask) -> None:
    question = ask(BLUE)
    chosen = choose(question, seconds=SECONDS)
    taken, steadiness = weigh(
        question, chosen, MonteCarlo(within=0.1, choose=True), seconds=SECONDS
    )
    assert steadiness.taken
    assert not steadiness.ranks_best
    assert taken.choice is chosen.choice  # the certificate stays that of the best coverage
    rival = steadiness.rival
    assert rival is not None
    assert rival.less_steady
    assert tuple(tube.id for tube in rival.bought) == tuple(
        question.tubes[n].id for n in chosen.palette.bought
    )
    assert rival.lead == pytest.approx(rival.spread.expected - steadiness.spread.expected)
    total = sum(question.instance.weights)
    lost = (chosen.palette.value - taken.palette.value) / total
    assert steadiness.given_up == pytest.approx(lost)
    assert 0 <= lost <= 0.1
    assert steadiness.extra_cost == taken.palette.cost - chosen.palette.cost
    assert taken.palette.cost <= question.instance.budget
    assert question.instance.palette(taken.palette.bought) == taken.palette


def test_recipes_taken_for_steadiness_stay_within_tolerance(ask: Ask) -> None:
    question = ask(replace(PINK, budget=Decimal(16)))
    chosen = choose(question, seconds=SECONDS)
    taken, steadiness = weigh(question, chosen, MonteCarlo(within=0, choose=True), seconds=SECONDS)
    assert taken.palette is chosen.palette
    changed = [
        t
        for t, (new, old) in enumerate(zip(taken.matches, chosen.matches, strict=True))
        if new != old
    ]
    assert len(changed) == steadiness.other_recipes > 0
    for t in changed:
        match = taken.matches[t]
        assert match is not None
        assert match.difference <= question.scenario.tolerance
        assert t in chosen.palette.covered
    plain = weigh(question, chosen, MonteCarlo(within=0), seconds=SECONDS)[1]
    for t in changed:  # by draws that did not choose them
        assert steadiness.stays[t] > plain.stays[t]
    assert steadiness.spread.expected > plain.spread.expected


def test_twins_are_not_told_apart_by_luck(ask: Ask, few: Catalogue) -> None:
    """A tube with a twin of another id but the same paint and price: two equal best palettes."""
    first = choose(ask(PINK), seconds=SECONDS).palette.bought[0]
    tube = list(few.tubes.values())[first]
    twins = replace(few, tubes={**few.tubes, "twin": replace(tube, id="twin")})
    question = ask(PINK, twins)
    chosen = choose(question, seconds=SECONDS)
    assert len(chosen.choice.palettes) == 2
    taken = 0
    for seed in range(5):
        trials = MonteCarlo(within=0, choose=True, seed=seed)
        _, steadiness = weigh(question, chosen, trials, seconds=SECONDS)
        assert (steadiness.weighed, steadiness.all_weighed, steadiness.ranks_best) == (
            2,
            True,
            True,
        )
        assert steadiness.rival is not None
        assert abs(steadiness.rival.lead) < 4 * steadiness.rival.lead_error
        taken += steadiness.taken
    assert taken <= 1  # one seed in 40 is expected to be fooled


def test_the_draws_that_compare_are_not_those_that_tell(ask: Ask) -> None:
    question = ask(PINK)
    chosen = choose(question, seconds=SECONDS)
    _, steadiness = weigh(question, chosen, MonteCarlo(), seconds=SECONDS)
    compared, told = (
        Trial.of(question, MonteCarlo(), number, [chosen.palette]).stays(
            chosen.palette, chosen.matches
        )
        for number in (COMPARING, TELLING)
    )
    assert steadiness.stays == tuple(told.mean(axis=0))
    assert steadiness.stays != tuple(compared.mean(axis=0))


def test_the_seed_decides_and_nothing_else(ask: Ask) -> None:
    question = ask(PINK)
    chosen = choose(question, seconds=SECONDS)
    first = weigh(question, chosen, MonteCarlo(seed=5), seconds=SECONDS)[1]
    again = weigh(question, choose(question, seconds=SECONDS), MonteCarlo(seed=5), seconds=SECONDS)[
        1
    ]
    other = weigh(question, chosen, MonteCarlo(seed=6), seconds=SECONDS)[1]
    assert (first.stays, first.spread) == (again.stays, again.spread)
    assert first.stays != other.stays
    apart = np.hypot(first.spread.standard_error, other.spread.standard_error)
    assert first.spread.expected == pytest.approx(other.spread.expected, abs=4 * apart)


def test_without_variation_the_plan_holds_exactly(few: Catalogue, cache: Cache) -> None:
    trials = MonteCarlo(variation=Variation().scaled(0), choose=True, within=0.1)
    plan = shop(few, BLUE, cache=cache, trials=trials)
    assert plan.steadiness is not None
    assert plan.steadiness.stays == tuple(float(planned.covered) for planned in plan.samples)
    assert plan.steadiness.spread.expected == pytest.approx(plan.coverage)
    assert not plan.steadiness.taken  # none covers more


def test_the_plan_is_that_of_the_palette_taken(few: Catalogue, cache: Cache) -> None:
    plain = shop(few, BLUE, cache=cache)
    plan = shop(few, BLUE, cache=cache, trials=MonteCarlo(within=0.1, choose=True))
    assert plain.steadiness is None
    assert plan.steadiness is not None
    assert plan.steadiness.taken
    assert plan.coverage == pytest.approx(plain.coverage - plan.steadiness.given_up)
    assert plan.cost - plain.cost == plan.steadiness.extra_cost
    assert plan.certificate.status is Status.PROVEN
    assert plan.certificate.value == plain.certificate.value
    total = sum(planned.sample.weight for planned in plan.samples)
    stays = np.array(plan.steadiness.stays)
    weights = np.array([planned.sample.weight for planned in plan.samples])
    assert plan.steadiness.spread.expected == pytest.approx(stays @ weights / total)


def test_nothing_to_buy_is_never_steady(few: Catalogue, cache: Cache) -> None:
    plan = shop(few, replace(PINK, budget=Decimal("0.01")), cache=cache, trials=MonteCarlo())
    assert plan.tubes == ()
    assert plan.steadiness is not None
    assert set(plan.steadiness.stays) == {0.0}
    assert plan.steadiness.spread.expected == 0
