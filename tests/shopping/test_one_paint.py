"""Two strengths of one paint: no plan buys both, nor the weaker one beside the stronger."""

from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pytest

from fewtubes.catalogue.records import Catalogue, Lightfastness
from fewtubes.comparison.compare import compare
from fewtubes.comparison.extent import Extent
from fewtubes.coverage.cache import Cache
from fewtubes.mixing.likeness import wash_labs
from fewtubes.report.sentences.proof import space_words
from fewtubes.report.sentences.reasons import reason_words
from fewtubes.scenario.reading import read_scenario
from fewtubes.scenario.records import Scenario, Wishes
from fewtubes.scenario.wanted import OwnColour
from fewtubes.selection.certificate import Method, Status
from fewtubes.selection.equals import equals_of
from fewtubes.selection.instance import Palette
from fewtubes.selection.search import search, start_search
from fewtubes.selection.solve import solve
from fewtubes.shopping.plan_parts import Obstacle
from fewtubes.shopping.question import Question, pose
from fewtubes.shopping.shop import Limits, shop

MakeScenario = Callable[..., Scenario]

STRONG, WEAK = "rose", "soft-rose"

SCENARIOS = Path(__file__).parents[2] / "scenarios"


@pytest.fixture(scope="module")
def few(demo: Catalogue) -> Catalogue:
    ids = (STRONG, WEAK, "lemon", "turquoise")
    return replace(demo, tubes={id_: demo.tubes[id_] for id_ in ids})


def posed(catalogue: Catalogue, scenario: Scenario) -> Question:
    return pose(catalogue, scenario, cache=Cache(), progress=lambda _stage: None)


@pytest.fixture
def asked(few: Catalogue, scenario: MakeScenario) -> Callable[..., Scenario]:
    """Return the maker of a question that only both strengths answer, for the steps of a wash.

    The full strength of the one and, within a tenth of ΔE00, two thirds of that of the other, which
    lies between two wash strengths of the first.
    """
    optics = posed(few, scenario("primrose")).optics
    deep = wash_labs([few.tubes[STRONG]], optics)[0, 0].tolist()
    between = wash_labs([few.tubes[WEAK]], optics)[0, 0].tolist()
    own = (OwnColour("deep", 1, lab=deep), OwnColour("between", 1, lab=between))

    def asking(**values: object) -> Scenario:
        return scenario(own_colours=own, tolerance=0.1, **values)

    return asking


@pytest.mark.parametrize("method", list(Method))
def test_only_one_of_them_is_bought(
    few: Catalogue, asked: Callable[..., Scenario], method: Method
) -> None:
    question = posed(few, asked())
    free = replace(question.instance, alike=frozenset(), spare=frozenset())
    both = solve(free, seconds=60).palettes[0]
    assert {question.tubes[number].id for number in both.bought} == {STRONG, WEAK}
    plan = shop(few, asked(), limits=Limits(method=method))
    assert len(plan.bought) == 1
    assert plan.coverage == 0.5
    assert plan.certificate.status is Status.PROVEN
    assert plan.one_of_each_paint
    assert "no choice buys both" in space_words(plan)


def test_whoever_must_have_both_has_both(few: Catalogue, asked: Callable[..., Scenario]) -> None:
    plan = shop(few, asked(wishes=Wishes(must_have=(STRONG, WEAK))))
    assert {planned.tube.id for planned in plan.bought} == {STRONG, WEAK}
    assert plan.coverage == 1.0


def test_the_weaker_one_is_not_bought_beside_the_stronger_in_the_box(
    few: Catalogue, asked: Callable[..., Scenario]
) -> None:
    plan = shop(few, asked(wishes=Wishes(owned=(STRONG,))))
    assert plan.bought == ()
    (missed,) = [planned for planned in plan.samples if not planned.covered]
    assert missed.sample.flower == "between"
    assert missed.obstacle is Obstacle.ONE_PAINT
    assert (missed.remedies, missed.nearer, missed.together) == ((), None, ())
    assert "two strengths of one paint" in reason_words(missed, plan.scenario)


def test_the_stronger_one_is_bought_beside_the_weaker_in_the_box(
    few: Catalogue, asked: Callable[..., Scenario]
) -> None:
    """No water makes the stronger one."""
    plan = shop(few, asked(wishes=Wishes(owned=(WEAK,))))
    assert [planned.tube.id for planned in plan.bought] == [STRONG]
    assert plan.coverage == 1.0


def test_a_weaker_one_that_lasts_longer_may_take_the_place_of_an_owned_one(
    few: Catalogue, asked: Callable[..., Scenario]
) -> None:
    """It is then no spare tube; but two that are bought are still one paint."""
    strong = few.tubes[STRONG]
    fading = replace(
        strong,
        pigments=tuple(
            (replace(pigment, lightfastness=Lightfastness.IV), share)
            for pigment, share in strong.pigments
        ),
    )
    catalogue = replace(few, tubes={**few.tubes, STRONG: fading})
    plan = shop(catalogue, asked(wishes=Wishes(owned=(STRONG,))))
    assert [planned.tube.id for planned in plan.bought] == [WEAK]
    assert len(shop(catalogue, asked()).bought) == 1


def test_nothing_is_said_where_there_are_no_doubles(few: Catalogue, scenario: MakeScenario) -> None:
    plan = shop(few, scenario("primrose", wishes=Wishes(never=(WEAK,))))
    assert not plan.one_of_each_paint
    assert "no choice buys both" not in space_words(plan)


def test_no_palette_compared_holds_two_strengths(demo: Catalogue, cache: Cache) -> None:
    """Without the rule some of those that equal the best one of the evening lamp would."""
    asked = read_scenario(SCENARIOS / "evening-lamp.toml", demo)
    comparison = compare(demo, asked, extent=Extent(near=20), cache=cache)
    question, others = comparison.question, comparison.alternatives
    assert others is not None
    palettes = [
        *(size.palette for size in comparison.sizes),
        *others.near.palettes,
        *(step.palette for kept in comparison.floors for step in kept.front.steps),
    ]
    strengths = {frozenset(pair) for pair in question.instance.alike}

    def doubled(palette: Palette) -> bool:
        return any(pair <= set(palette.bought) for pair in strengths)

    assert not any(map(doubled, palettes))
    free = replace(question.instance, alike=frozenset(), spare=frozenset())
    best = search(free).palettes[0]
    state = start_search(free, seconds=60)
    equals, complete = equals_of(free, best, state=state)
    assert complete
    assert any(map(doubled, equals))
    single = {palette.bought for palette in equals if not doubled(palette)}
    kept, complete = equals_of(
        question.instance, best, state=start_search(question.instance, seconds=60)
    )
    assert complete
    assert {palette.bought for palette in kept} == single
