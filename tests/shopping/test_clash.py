"""Demands that cannot all be met: what clashes, and the smallest budget that would do."""

import re
from collections.abc import Callable
from dataclasses import replace

import pytest

from fewtubes.catalogue.records import Catalogue, Hazard, Lightfastness
from fewtubes.coverage.cache import Cache
from fewtubes.errors import ClashError
from fewtubes.scenario.records import Scenario, Wishes
from fewtubes.shopping.shop import shop

MakeScenario = Callable[..., Scenario]


def message(demo: Catalogue, asked: Scenario, cache: Cache) -> str:
    with pytest.raises(ClashError) as error:
        shop(demo, asked, cache=cache)
    return str(error.value)


def test_smallest_budget_does_and_a_cent_less_does_not(
    demo: Catalogue, cache: Cache, scenario: MakeScenario
) -> None:
    asked = scenario("bluebell", "primrose", budget=500, wishes=Wishes(least_coverage=1.0))
    told = message(demo, asked, cache)
    assert "the budget of 5.00 EUR and a coverage of at least 100.0% clash" in told
    found = re.search(r"The smallest budget that would do is (\d+\.\d\d) EUR\.", told)
    assert found
    budget = round(100 * float(found[1]))
    assert shop(demo, replace(asked, budget=budget), cache=cache).coverage == 1
    message(demo, replace(asked, budget=budget - 1), cache)


def test_must_have_tubes_dearer_than_the_budget(
    demo: Catalogue, cache: Cache, scenario: MakeScenario
) -> None:
    tubes = ("cadmium-red", "cobalt-blue")
    cost = sum(min(offer.price for offer in demo.tubes[id_].offers) for id_ in tubes)
    asked = scenario("primrose", budget=cost - 1, wishes=Wishes(must_have=tubes))
    told = message(demo, asked, cache)
    assert "the must-have tubes and the budget of" in told
    assert f"The smallest budget that would do is {cost / 100:.2f} EUR." in told
    assert shop(demo, replace(asked, budget=cost), cache=cache).cost == cost


def test_more_must_have_tubes_than_tubes_allowed(
    demo: Catalogue, cache: Cache, scenario: MakeScenario
) -> None:
    asked = scenario("primrose", most_tubes=1, wishes=Wishes(must_have=("lemon", "ultramarine")))
    told = message(demo, asked, cache)
    assert "the must-have tubes and at most 1 tubes clash" in told
    assert "The fewest tubes that would do are 2." in told


@pytest.mark.parametrize(
    ("wishes", "reason"),
    [
        (
            Wishes(must_have=("vivid-pink",), lightfastness_floor=Lightfastness.II),
            "it fades more than the lightfastness floor allows",
        ),
        (
            Wishes(must_have=("cadmium-red",), avoid_hazards=(Hazard.CADMIUM,)),
            "it holds a hazard that is to be avoided",
        ),
    ],
)
def test_must_have_tube_that_another_wish_refuses(
    demo: Catalogue, cache: Cache, scenario: MakeScenario, wishes: Wishes, reason: str
) -> None:
    told = message(demo, scenario("primrose", wishes=wishes), cache)
    assert wishes.must_have[0] in told
    assert reason in told


def test_coverage_that_no_budget_reaches(
    demo: Catalogue, cache: Cache, scenario: MakeScenario
) -> None:
    asked = scenario("petunia, neon pink", wishes=Wishes(least_coverage=1.0))
    told = message(demo, asked, cache)
    assert "a coverage of at least 100.0% cannot be met with these tubes and wishes" in told
    assert "The smallest budget" not in told
    assert "The greatest coverage within the rest is" in told
