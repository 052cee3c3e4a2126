"""Coverage against cost in the illustrated report, against the comparison it is drawn from."""

import re
from decimal import Decimal

import pytest

from fewtubes.catalogue.reading import read_catalogue
from fewtubes.comparison.compare import compare
from fewtubes.comparison.comparison import Comparison
from fewtubes.comparison.extent import extent_for
from fewtubes.coverage.cache import Cache
from fewtubes.coverage.optics import optics_for
from fewtubes.report.illustrated.basis import Basis
from fewtubes.report.illustrated.front import front_body, front_note, front_picture
from fewtubes.report.sentences.front import floor_sentence, milestones
from fewtubes.scenario.records import Scenario
from fewtubes.scenario.wanted import FlowerWish
from fewtubes.shopping.plan import Plan
from fewtubes.shopping.shop import shop
from fewtubes.words.money import money
from fewtubes.words.shares import percent


def asked(*flowers: str, budget: int) -> Scenario:
    return Scenario(
        title="one flower",
        shows="",
        currency="EUR",
        budget=Decimal(budget) / 100,
        most_tubes=None,
        tolerance=4.0,
        flowers=tuple(map(FlowerWish, flowers)),
        own_colours=(),
    )


@pytest.fixture(scope="module")
def cache(shared_cache: Cache) -> Cache:
    return shared_cache


def drawn(scenario: Scenario, cache: Cache) -> tuple[Plan, Comparison, str]:
    """Return the plan, what it is compared with, and the section's body."""
    catalogue = read_catalogue()
    plan = shop(catalogue, scenario, cache=cache)
    comparison = compare(catalogue, scenario, cache=cache)
    basis = Basis(plan, optics_for(catalogue, "cotton-white", "D65", cache))
    return plan, comparison, str(front_body(basis, comparison)).replace("\u00a0", " ")


def test_it_tells_every_size_and_how_far_it_is_proven(cache: Cache) -> None:
    plan, comparison, body = drawn(asked("primrose", budget=800), cache)
    for size in comparison.sizes[1:]:
        assert percent(comparison.share(size.palette.value)) in body
        assert money(size.palette.cost, "EUR") in body
    last = comparison.sizes[-1].palette
    assert (last.cost, comparison.share(last.value)) == (plan.cost, plan.coverage)
    assert "Proven: none covers more for as little money" in body
    assert "The least money that covers a quarter" in body
    for kept in comparison.floors[1:]:
        floor, _, price = floor_sentence(comparison, kept).partition(": ")
        alone = f"<li>{re.escape(floor)}: {re.escape(price)}</li>"
        cost = re.escape(price.removesuffix("."))
        shared = f"<li>{cost}:\\s*<ul>(\\s*<li>[^<]*</li>)*?\\s*<li>{re.escape(floor)}</li>"
        assert re.search(f"(?i){alone}|{shared}", body)


def test_every_tube_of_the_table_is_a_dab(cache: Cache) -> None:
    _, comparison, body = drawn(asked("primrose", budget=800), cache)
    cheapest, sizes = re.findall("<tbody>.*?</tbody>", body, re.DOTALL)
    assert cheapest.count("<path") == sum(len(s.palette.bought) for s in milestones(comparison))
    assert sizes.count("<path") == sum(len(size.palette.bought) for size in comparison.sizes)


def test_harm_of_tubes_that_the_plan_lacks_is_told(cache: Cache) -> None:
    plan, comparison, body = drawn(asked("poppy, field", "sunflower", budget=1800), cache)
    others = {
        tube.name: tube.hazards
        for size in comparison.sizes
        for tube in (comparison.question.tubes[number] for number in size.palette.bought)
        if tube.hazards and tube.id not in {planned.tube.id for planned in plan.tubes}
    }
    assert others  # else the case shows nothing
    told = body.partition("Not in the plan")[2]
    for name, hazards in others.items():
        assert f"{name} ({' and '.join(hazards)})" in told


def test_why_the_plan_may_cost_more_than_a_dab_that_covers_as_much(cache: Cache) -> None:
    plan, comparison, body = drawn(asked("sweet pea, pink", "rose, yellow", budget=2400), cache)
    cheapest = next(
        step.palette
        for step in comparison.floors[0].front.steps
        if comparison.share(step.palette.value) == plan.coverage
    )
    assert cheapest.cost < plan.cost  # else the case shows nothing
    assert len(cheapest.bought) == len(plan.bought) + 1
    price = money(cheapest.cost, "EUR")
    assert f"the plan; {price} would cover as much, but with 1 tube more." in body


def test_nothing_is_said_of_cheaper_ones_where_there_is_none(cache: Cache) -> None:
    plan, comparison, body = drawn(asked("primrose", budget=400), cache)
    steps = comparison.floors[0].front.steps
    assert min(s.palette.cost for s in steps if s.palette.cost >= plan.cost) == plan.cost
    assert "The ring is the plan. " in body


def test_what_is_not_proven_is_not_called_the_most(cache: Cache) -> None:
    catalogue = read_catalogue()
    scenario = asked("tulip, red", "fuchsia", "gentian", budget=1500)
    plan = shop(catalogue, scenario, cache=cache)
    comparison = compare(catalogue, scenario, extent=extent_for(plan, seconds=0), cache=cache)
    assert not comparison.floors[0].front.complete  # else the case shows nothing
    assert not all(size.best.proven for size in comparison.sizes)
    basis = Basis(plan, optics_for(catalogue, "cotton-white", "D65", cache))
    body = str(front_body(basis, comparison))
    assert "the most that is known to be covered" in body
    assert "Not every step is proven" in body
    assert "the palette found that covers most" in body
    assert "The least money found that covers a quarter" in body
    assert "no money would buy" not in body
    assert not re.search("(?i)costs nothing[;:]|as little money", body)
    assert "none covers more" not in body
    assert "not proven; there may be a better one" in body
    assert "? not proven" in front_note(comparison)
    assert "loses -" not in body
    top = comparison.floors[0].front.within(plan.scenario.budget_hundredths)
    assert top is not None
    assert comparison.share(top.palette.value) >= plan.coverage
    # No size is behind what the front or the plan has of that size, and none stands there twice.
    for size in comparison.sizes:
        for step in comparison.floors[0].front.steps:
            palette = step.palette
            if palette.cost <= 1500 and len(palette.bought) <= size.best.size:
                assert size.palette.rank <= palette.rank
    table = re.findall("<tbody>.*?</tbody>", body, re.DOTALL)[-1]
    rows = re.findall("<tr>.*?</tr>", table, re.DOTALL)
    assert len(rows) == len({re.sub(r' id="[^"]*"', "", row) for row in rows})
    picture = front_picture(plan, comparison, basis.sheet)
    assert picture is not None
    told = re.match(r"(\d+) palettes?, (\d+) of them not proven", picture.description)
    assert told is not None
    assert int(told[2]) <= int(told[1])


def test_where_nothing_can_be_bought_no_floor_is_said_to_cost_nothing(cache: Cache) -> None:
    _, comparison, body = drawn(asked("primrose", budget=1), cache)
    assert len(comparison.floors) > 1
    assert "costs nothing" not in body
    assert "nothing is gained" in floor_sentence(comparison, comparison.floors[1])
