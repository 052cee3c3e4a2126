"""The short answer to every scenario: not too long, no hazard left out, all of it in full, too.

How many lines may be is our own: about three screens for the longest scenario.
"""

import io
import re
from collections.abc import Callable
from dataclasses import replace
from decimal import Decimal

import pytest
from rich.console import Console

from fewtubes.catalogue.records import Catalogue, Tube
from fewtubes.comparison.compare import compare
from fewtubes.comparison.extent import Extent
from fewtubes.coverage.cache import Cache
from fewtubes.report.terminal.plan import print_plan
from fewtubes.scenario.records import Scenario
from fewtubes.shopping.plan import Plan
from fewtubes.shopping.plan_parts import MoreMoney, PlannedSample
from fewtubes.words.matches import bare_figure
from fewtubes.words.money import money
from fewtubes.words.washes import strength_percent

ReadScenario = Callable[[str], Scenario]
Answer = Callable[[Scenario], Plan]
AnswerNamed = Callable[[str], Plan]

MOST_LINES = {
    "class-kit": 85,
    "cottage-border": 115,
    "evening-lamp": 80,
    "exhibition": 80,
    "first-set": 75,
    "half-owned-box": 80,
    "own-colours": 65,
    "pale-petals-laid-thick": 75,
    "small-purse": 80,
}
"""At 80 columns."""

HOPELESS_LINES = 31
"""Where nothing can be bought, whatever the number of flowers."""

every_scenario = pytest.mark.parametrize("name", MOST_LINES)


def printed(plan: Plan, *, full: bool = False, width: int = 80) -> str:
    console = Console(file=io.StringIO(), width=width, color_system=None, _environ={})
    print_plan(plan, console, full=full)
    assert isinstance(console.file, io.StringIO)
    return console.file.getvalue()


def flat(text: str) -> str:
    return " ".join(text.split())


@every_scenario
def test_it_fits_a_few_screens(name: str, plan_of: AnswerNamed) -> None:
    lines = printed(plan_of(name)).splitlines()
    assert len(lines) <= MOST_LINES[name]
    assert len(lines) < len(printed(plan_of(name), full=True).splitlines()) * 2 / 3


@every_scenario
def test_every_hazard_of_a_tube_bought_is_named(name: str, plan_of: AnswerNamed) -> None:
    plan = plan_of(name)
    care = printed(plan, width=500).partition("Take care")[2]
    for planned in plan.tubes:
        for hazard in planned.tube.hazards:
            assert any(hazard in line and planned.tube.name in line for line in care.splitlines())
    assert "Label, safety data sheet, local rules and qualified advice decide." in care


@every_scenario
def test_all_of_it_stands_in_full_too(name: str, plan_of: AnswerNamed) -> None:
    """Figures, tubes, flowers and colours that the short answer names are told in full.

    Where a match in words stands beside its figure, that has more decimals near a limit.
    """
    plan = plan_of(name)
    short, full = flat(printed(plan, width=500)), flat(printed(plan, full=True, width=500))
    figures = re.compile(r"\d+(?:\.\d+)?")
    told_in_full = set(figures.findall(full))
    told_in_full |= {f"{float(figure):.1f}" for figure in told_in_full}
    assert set(figures.findall(short)) <= told_in_full
    tubes = {tube.name for planned in plan.samples for tube in _named(planned)}
    names = tubes | {planned.tube.name for planned in plan.tubes}
    names |= {planned.sample.name for planned in plan.samples}
    names |= {planned.sample.flower for planned in plan.samples}
    assert {told for told in names if told in short} <= {told for told in names if told in full}


@every_scenario
def test_every_colour_that_is_painted_has_its_wash_and_match(
    name: str, plan_of: AnswerNamed
) -> None:
    plan = plan_of(name)
    puddles = flat(printed(plan).partition("\nPuddles\n")[2])
    own = {colour.name for colour in plan.scenario.own_colours}
    painted = [it for it in plan.samples if it.covered and not it.sample.is_step]
    for planned in painted:
        sample, recipe = planned.sample, planned.recipe
        assert recipe is not None
        called = sample.flower if sample.flower in own else sample.name
        wash = "" if planned.is_bare_paper else f" {strength_percent(recipe.strength)}"
        match = bare_figure(planned.match, plan.scenario.tolerance)
        assert f"{called}{wash} ({match})" in puddles


def _named(planned: PlannedSample) -> list[Tube]:
    """Return the tubes that would bring a colour, or bring it nearer."""
    remedies = [*planned.remedies, *planned.together]
    return [it.tube for it in remedies] + ([planned.nearer.tube] if planned.nearer else [])


@pytest.mark.parametrize("name", ["cottage-border", "first-set", "exhibition", "small-purse"])
def test_a_hopeless_budget_takes_a_few_lines(
    name: str, scenario_of: ReadScenario, answer: Answer
) -> None:
    plan = answer(replace(scenario_of(name), budget=Decimal("0.5")))
    text = printed(plan)
    assert len(text.splitlines()) <= HOPELESS_LINES
    assert not plan.bought
    first, *_, last = plan.more_money
    cheapest = money_beyond(first)
    assert f"{cheapest} more covers" in flat(text)  # the cheapest that helps
    assert f"{money_beyond(last)} more covers" in flat(text)  # what one would need
    assert first.tubes[0].name in flat(text)


def money_beyond(step: MoreMoney) -> str:
    return money(step.beyond, "EUR")


def test_what_one_would_need_is_the_end_of_the_trade_off(
    scenario_of: ReadScenario, answer: Answer, demo: Catalogue, memory: Cache
) -> None:
    """The front of `compare` is made by another search, from the other end."""
    scenario = scenario_of("first-set")
    poor = replace(scenario, budget=Decimal("0.5"))
    last = answer(poor).more_money[-1]
    compared = compare(demo, scenario, extent=Extent(up_to=1), cache=memory)
    end = compared.floors[0].front.steps[-1]
    assert last.proven
    assert last.beyond + 50 == end.palette.cost
    assert last.coverage == pytest.approx(compared.share(end.palette.value))
