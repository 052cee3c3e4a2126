"""An answer whose search was stopped is never behind what is told beside it."""

from collections.abc import Callable
from dataclasses import replace
from typing import Any

import pytest

from fewtubes.catalogue.records import Catalogue
from fewtubes.comparison.why import why
from fewtubes.coverage.cache import Cache
from fewtubes.scenario.records import Scenario, Wishes
from fewtubes.selection.certificate import Choice, Status
from fewtubes.selection.solve import solve
from fewtubes.shopping.choose import choose
from fewtubes.shopping.overtaken import overtaking
from fewtubes.shopping.plan import Plan
from fewtubes.shopping.question import Question, pose
from fewtubes.shopping.shop import Limits, shop
from fewtubes.shopping.trade_offs import trade_offs

MakeScenario = Callable[..., Scenario]

FLOWERS = ("cyclamen", "daffodil")

POOR = "vivid-pink"
"""A tube that fades, so that it is asked what would be covered without it."""


def question_of(demo: Catalogue, asked: Scenario, cache: Cache) -> Question:
    return pose(demo, asked, cache=cache, progress=lambda _stage: None)


def poor_choice(question: Question, *, proven: bool = False, tube: str = POOR) -> Choice:
    """Return what a search might have when it is stopped at once: one tube."""
    choice = solve(question.instance, seconds=60)
    poor = question.instance.palette([question.numbers[tube]])
    status = Status.PROVEN if proven else Status.STOPPED
    certificate = replace(choice.certificate, status=status, value=poor.value)
    return Choice((poor,), complete=False, certificate=certificate)


def plan_of_reasons(*asked: Any, **more: Any) -> Plan:
    return why(*asked, **more).plan


@pytest.mark.parametrize("of", [shop, plan_of_reasons])
def test_a_plan_is_not_behind_what_is_weighed_beside_it(
    demo: Catalogue,
    cache: Cache,
    scenario: MakeScenario,
    monkeypatch: pytest.MonkeyPatch,
    of: Callable[..., Plan],
) -> None:
    """What lasting tubes cover is proven at once; it can be bought, so it is the answer.

    The answer is then what the searches beside it allow: within the demands, no better than
    the proven best, and each trade-off no better than it.
    """
    asked = scenario(*FLOWERS, budget=2500)
    poor = poor_choice(question_of(demo, asked, cache))
    best = shop(demo, asked, cache=cache)

    def stopped(*_any: Any, **_more: Any) -> Choice:
        return poor

    monkeypatch.setattr("fewtubes.shopping.choose.solve", stopped)
    plan = of(demo, asked, cache=cache, limits=Limits(60))
    assert plan.certificate.status is Status.STOPPED
    assert poor.certificate.value < plan.certificate.value <= best.certificate.value
    assert plan.certificate.bound == best.certificate.value
    assert plan.cost <= 2500
    assert plan.coverage == plan.certificate.value / sum(s.sample.weight for s in plan.samples)
    for trade_off in (plan.lightfastness, plan.opacity, plan.lasting):
        assert trade_off is None or trade_off.spared <= plan.coverage
        if trade_off and trade_off.spared == plan.coverage and trade_off.spared_tubes is not None:
            ours = (len(plan.bought), sum(p.tube.lightfastness.fades for p in plan.bought))
            assert ours <= (trade_off.spared_tubes, trade_off.spared_fading)


def test_only_what_meets_all_demands_and_ranks_before_takes_the_place(
    demo: Catalogue, cache: Cache, scenario: MakeScenario
) -> None:
    """The best palette does, unless it is forbidden one by one; a proven choice stays."""
    asked = scenario(*FLOWERS, budget=2500)
    question = question_of(demo, asked, cache)
    best = choose(question, seconds=60).choice.palettes[0]
    found = [frozenset(best.bought), frozenset({question.numbers[POOR]})]
    poor = poor_choice(question)
    taken = overtaking(question, poor, found)
    assert taken is not None
    assert taken.palettes == (best,)
    assert taken.certificate == replace(poor.certificate, value=best.value)
    assert not taken.complete
    assert overtaking(question, poor_choice(question, proven=True), found) is None
    assert overtaking(question, taken, found) is None
    for demands in (
        {"budget": best.cost - 1},
        {"most_tubes": len(best.bought) - 1},
        {"least_value": best.value + 1},
        {"alike": frozenset({best.bought[:2]})},
    ):
        question.__dict__["instance"] = replace(question.instance, **demands)
        assert overtaking(question, poor, found[:1]) is None
        del question.__dict__["instance"]


def test_must_have_tubes_go_with_what_was_found_without_them(
    demo: Catalogue, cache: Cache, scenario: MakeScenario
) -> None:
    """What would be covered without a tube is asked of a must-have one as well."""
    wishes = Wishes(must_have=(POOR,))
    question = question_of(demo, scenario(*FLOWERS, budget=2500, wishes=wishes), cache)
    best = choose(question, seconds=60).choice.palettes[0]
    without = frozenset(best.bought) - question.instance.must_have
    taken = overtaking(question, poor_choice(question), [without])
    assert taken is not None
    assert taken.palettes == (best,)


@pytest.mark.parametrize("most_tubes", [None, 2])
def test_what_would_bring_a_colour_is_bought_where_the_money_is_enough(
    demo: Catalogue,
    cache: Cache,
    scenario: MakeScenario,
    monkeypatch: pytest.MonkeyPatch,
    most_tubes: int | None,
) -> None:
    """No tube stands under "what would bring it" that a stopped answer could simply have."""
    asked = replace(scenario(*FLOWERS, budget=2500), most_tubes=most_tubes)
    poor = poor_choice(question_of(demo, asked, cache), tube="ultramarine")

    def stopped(*_any: Any, **_more: Any) -> Choice:
        return poor

    def nothing_found(*any_: Any, **more: Any) -> Any:
        return replace(trade_offs(*any_, **more), found=())

    monkeypatch.setattr("fewtubes.shopping.choose.solve", stopped)
    monkeypatch.setattr("fewtubes.shopping.planning.trade_offs", nothing_found)
    plan = shop(demo, asked, cache=cache, limits=Limits(60))
    assert plan.certificate.status is Status.STOPPED
    assert plan.certificate.value > poor.certificate.value
    assert plan.cost <= 2500
    assert len(plan.bought) == 2 or most_tubes is None
    left = 2500 - plan.cost
    room = len(demo.tubes) if most_tubes is None else most_tubes - len(plan.bought)
    ways = [
        way
        for sample in plan.samples
        for way in (*((one,) for one in sample.remedies), sample.together)
        if way and len(way) <= room
    ]
    assert not any(
        all(it.allowed for it in way) and sum(it.cost for it in way) <= left for way in ways
    )
