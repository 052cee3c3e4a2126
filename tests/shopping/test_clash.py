"""Demands that cannot all be met: what clashes, and the smallest budget that would do."""

import re
from collections.abc import Callable
from dataclasses import replace
from decimal import Decimal

import pytest

from fewtubes.catalogue.records import Catalogue, Hazard, Lightfastness
from fewtubes.coverage.cache import Cache
from fewtubes.errors import ClashError
from fewtubes.scenario.records import Scenario, Wishes
from fewtubes.selection.certificate import Certificate, Choice, Method, Status
from fewtubes.selection.feasibility import ClashReport, Demand, NearestFigure
from fewtubes.shopping.clash import clash_message
from fewtubes.shopping.question import pose
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
    assert "the budget of EUR 5.00 and a coverage of at least 100 % clash" in told
    found = re.search(r"The smallest budget that would do is EUR (\d+\.\d\d)\.", told)
    assert found
    budget = round(100 * float(found[1]))
    assert shop(demo, replace(asked, budget=Decimal(budget) / 100), cache=cache).coverage == 1
    message(demo, replace(asked, budget=Decimal(budget - 1) / 100), cache)


def test_must_have_tubes_dearer_than_the_budget(
    demo: Catalogue, cache: Cache, scenario: MakeScenario
) -> None:
    tubes = ("cadmium-red", "cobalt-blue")
    cost = sum(min(offer.price for offer in demo.tubes[id_].offers) for id_ in tubes)
    asked = scenario("primrose", budget=cost - 1, wishes=Wishes(must_have=tubes))
    told = message(demo, asked, cache)
    assert "the must-have tubes and the budget of" in told
    assert f"The smallest budget that would do is EUR {cost / 100:.2f}." in told
    assert shop(demo, replace(asked, budget=Decimal(cost) / 100), cache=cache).cost == cost


def test_more_must_have_tubes_than_tubes_allowed(
    demo: Catalogue, cache: Cache, scenario: MakeScenario
) -> None:
    asked = scenario("primrose", most_tubes=1, wishes=Wishes(must_have=("lemon", "ultramarine")))
    told = message(demo, asked, cache)
    assert "the must-have tubes and at most 1 tube clash" in told
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
    assert "a coverage of at least 100 % cannot be met with these tubes and wishes" in told
    assert "The smallest budget" not in told
    assert "The greatest coverage within the rest is" in told


IMPOSSIBLE = Choice((), True, Certificate(Status.INFEASIBLE, Method.SEARCH, 0, 0, 0, 0.0))

UNREACHABLE = tuple(NearestFigure(demand, None, Status.PROVEN) for demand in tuple(Demand)[1:])
"""No budget, no number of tubes and no coverage would do."""


def reported(
    demo: Catalogue,
    asked: Scenario,
    cache: Cache,
    remedies: tuple[NearestFigure, ...],
    monkeypatch: pytest.MonkeyPatch,
) -> str:
    """Return what is said of an impossible choice whose remedies were found to be these."""
    report = ClashReport((frozenset({Demand.LEAST_VALUE}),), True, remedies)
    monkeypatch.setattr("fewtubes.shopping.clash.explain_clash", lambda *_, **__: report)
    question = pose(demo, asked, cache=cache, progress=lambda _stage: None)
    return clash_message(question, IMPOSSIBLE, seconds=1)


def test_no_budget_would_do_is_said_only_when_it_is_proven(
    demo: Catalogue,
    cache: Cache,
    scenario: MakeScenario,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    asked = scenario("primrose")
    told = reported(demo, asked, cache, UNREACHABLE, monkeypatch)
    assert "No budget would do." in told
    unsure = (NearestFigure(Demand.BUDGET, None, Status.STOPPED), *UNREACHABLE[1:])
    assert "No budget would do." not in reported(demo, asked, cache, unsure, monkeypatch)


def test_the_greatest_coverage_told_can_be_asked_for(
    demo: Catalogue,
    cache: Cache,
    scenario: MakeScenario,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """A unit of weight less than all is above 99.95 %; rounded up, 100 %, it stays impossible."""
    asked = scenario("primrose", "daffodil", "cornflower")
    question = pose(demo, asked, cache=cache, progress=lambda _stage: None)
    assert sum(question.instance.weights) > 2000
    nearly = sum(question.instance.weights) - 1
    remedies = (*UNREACHABLE[:2], NearestFigure(Demand.LEAST_VALUE, nearly, Status.PROVEN))
    told = reported(demo, asked, cache, remedies, monkeypatch)
    assert "The greatest coverage within the rest is 99.9 %." in told
