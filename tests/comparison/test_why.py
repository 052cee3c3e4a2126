"""The reasons for a plan, each against trying everything on a small catalogue."""

from collections.abc import Callable
from dataclasses import replace
from decimal import Decimal
from itertools import combinations
from pathlib import Path
from typing import Any

import pytest

from fewtubes.catalogue.reading import read_catalogue
from fewtubes.catalogue.records import Catalogue, Lightfastness
from fewtubes.comparison.hitting_sets import MOST_IN_BLOCKER
from fewtubes.comparison.reasons import Why
from fewtubes.comparison.why import why
from fewtubes.comparison.why_of import why_of
from fewtubes.coverage.cache import Cache
from fewtubes.errors import InputError
from fewtubes.report.answer_files import why_files
from fewtubes.report.terminal.why import reason_sentences
from fewtubes.scenario.records import Scenario, Wishes
from fewtubes.scenario.wanted import FlowerWish
from fewtubes.selection.certificate import Status
from fewtubes.shopping.plan_parts import Obstacle
from fewtubes.shopping.question import Question, pose
from fewtubes.shopping.refusals import Refusal
from fewtubes.shopping.shop import Limits, shop
from fewtubes.shopping.steadiness import MonteCarlo

TUBES = (
    "green-yellow",
    "golden-yellow",
    "warm-red",
    "rose",
    "soft-rose",
    "vivid-pink",
    "dioxazine-violet",
    "ultramarine",
    "green-leaning-blue",
    "blue-leaning-green",
)

CASES: dict[str, dict[str, Any]] = {
    "tight": {"budget": 1200},
    "loose": {"budget": 9000},
    "three tubes": {"budget": 9000, "most_tubes": 3},
    "owned": {"budget": 1200, "wishes": Wishes(owned=("ultramarine", "green-yellow"))},
    "must have": {"budget": 1500, "wishes": Wishes(must_have=("golden-yellow",))},
    "lasting": {"budget": 1800, "wishes": Wishes(lightfastness_floor=Lightfastness.II)},
    "owned but fading": {
        "budget": 1800,
        "wishes": Wishes(owned=("vivid-pink",), lightfastness_floor=Lightfastness.II),
    },
    "never": {"budget": 1200, "wishes": Wishes(never=("rose", "soft-rose"))},
    "steady": {"budget": 1800, "wishes": Wishes(lightfastness_floor=Lightfastness.II)},
}

STEADY = MonteCarlo(within=0.02, choose=True)
"""Of the plan in the case "steady": it covers less than the first in rank, with other tubes."""


@pytest.fixture(scope="module")
def catalogue() -> Catalogue:
    demo = read_catalogue()
    return replace(demo, tubes={id_: demo.tubes[id_] for id_ in TUBES})


@pytest.fixture(scope="module")
def cache(shared_cache: Cache) -> Cache:
    return shared_cache


def make_scenario(**values: Any) -> Scenario:
    plain: dict[str, Any] = {
        "title": "test",
        "shows": "",
        "currency": "EUR",
        "budget": 1200,
        "most_tubes": None,
        "tolerance": 4.0,
        "flowers": (
            FlowerWish("cyclamen"),
            FlowerWish("petunia, neon pink", 2.0),
            FlowerWish("primrose"),
        ),
        "own_colours": (),
    }
    asked = {**plain, **values}
    asked["budget"] = Decimal(asked["budget"]) / 100
    return Scenario(**asked)


Asked = Callable[[str], tuple[Question, Why]]


@pytest.fixture(scope="module")
def asked(catalogue: Catalogue, cache: Cache) -> Asked:
    """Return a function that gives the question and its reasons for a case, by name."""
    known: dict[str, tuple[Question, Why]] = {}

    def ask(case: str) -> tuple[Question, Why]:
        if case not in known:
            scenario = make_scenario(**CASES[case])
            question = pose(catalogue, scenario, cache=cache, progress=lambda _: None)
            if case == "steady":
                plan = shop(catalogue, scenario, cache=cache, trials=STEADY)
                known[case] = (question, why_of(catalogue, plan, cache=cache))
            else:
                known[case] = (question, why(catalogue, scenario, cache=cache))
        return known[case]

    return ask


def covered(question: Question, tubes: frozenset[int]) -> set[int]:
    """Return the colours that tubes reach, by number, from the reach itself."""
    return {
        t
        for t, sets in enumerate(question.sets)
        if any({int(i) for i in row if i >= 0} <= tubes for row in sets)
    }


def share(question: Question, colours: set[int]) -> float:
    weights = [sample.weight for sample in question.samples]
    return sum(weights[t] for t in colours) / sum(weights)


def bought(question: Question, why: Why) -> frozenset[int]:
    return frozenset(question.numbers[planned.tube.id] for planned in why.plan.bought)


@pytest.mark.parametrize("case", CASES)
def test_what_only_a_tube_brings_is_lost_without_it(asked: Asked, case: str) -> None:
    question, why = asked(case)
    held = question.owned | bought(question, why)
    assert [reason.planned for reason in why.tubes] == list(why.plan.bought)
    assert why.tubes
    for reason in why.tubes:
        rest = held - {question.numbers[reason.planned.tube.id]}
        lost = covered(question, held) - covered(question, rest)
        assert reason.only_it_brings == tuple(question.samples[t] for t in sorted(lost))
        assert reason.planned.only_it_brings == pytest.approx(share(question, lost))
        assert reason.wished == (reason.planned.tube.id in question.scenario.wishes.must_have)


@pytest.mark.parametrize("case", CASES)
def test_the_best_without_a_tube_is_that_of_all_palettes(asked: Asked, case: str) -> None:
    question, why = asked(case)
    scenario = question.scenario
    usable = [
        n
        for n, tube in enumerate(question.tubes)
        if tube.id not in question.refused and n not in question.owned
    ]
    must = {question.numbers[id_] for id_ in scenario.wishes.must_have}
    for reason in why.tubes:
        gone = question.numbers[reason.planned.tube.id]
        best = max(
            share(question, covered(question, question.owned | palette))
            for size in range(min(len(usable), scenario.most_tubes or len(usable)) + 1)
            for palette in map(frozenset, combinations([n for n in usable if n != gone], size))
            if palette >= must - {gone}
            and not question.instance.doubles_in(palette)
            and sum(question.cost(question.tubes[n]) for n in palette) <= scenario.budget_hundredths
        )
        assert reason.without_proven
        assert reason.without == pytest.approx(best)


@pytest.mark.parametrize("case", CASES)
def test_the_stand_in_loses_least(asked: Asked, case: str) -> None:
    question, why = asked(case)
    palette = bought(question, why)
    for reason in why.tubes:
        rest = palette - {question.numbers[reason.planned.tube.id]}
        left = question.scenario.budget_hundredths - sum(
            question.cost(question.tubes[n]) for n in rest
        )
        tried = {
            tube.id: share(question, covered(question, question.owned | rest | {n}))
            for n, tube in enumerate(question.tubes)
            if n not in palette | question.owned
            and tube.id not in question.refused
            and question.cost(tube) <= left
            and not question.instance.doubles_in(rest | {n})
        }
        alone = share(question, covered(question, question.owned | rest))
        if max(tried.values(), default=alone) <= alone:
            assert reason.stand_in is None
            continue
        assert reason.stand_in is not None
        assert reason.stand_in.coverage == pytest.approx(max(tried.values()))
        assert tried[reason.stand_in.tube.id] == pytest.approx(reason.stand_in.coverage)
        equal = [
            question.cost(question.catalogue.tubes[id_])
            for id_, coverage in tried.items()
            if coverage == pytest.approx(reason.stand_in.coverage)
        ]
        assert reason.stand_in.cost == min(equal)


@pytest.mark.parametrize("case", CASES)
def test_what_would_bring_a_colour_does_bring_it(asked: Asked, case: str) -> None:
    question, why = asked(case)
    held = question.owned | bought(question, why)
    missed = [planned for planned in why.plan.samples if not planned.covered]
    assert [item.planned for item in why.unreached] == missed
    for item in why.unreached:
        t = why.plan.samples.index(item.planned)
        every = frozenset(range(len(question.tubes)))
        can = {
            frozenset(extra)
            for size in (1, 2, 3)
            for extra in combinations(sorted(every - held), size)
            if t in covered(question, held.union(extra))
        }
        singles = {question.tubes[n].id for extra in can if len(extra) == 1 for n in extra}
        assert {route.tubes[0].id for route in item.singles} == singles
        if not can:
            assert item.cheapest is None
            assert item.planned.obstacle is Obstacle.CATALOGUE
            continue
        assert item.cheapest is not None
        added = frozenset(question.numbers[tube.id] for tube in item.cheapest.tubes)
        assert added in can
        owned = set(question.scenario.wishes.owned)

        def rank(extra: frozenset[int], owned: set[str] = owned) -> tuple[bool, int]:
            tubes = [question.tubes[n] for n in extra]
            refused = any(tube.id in question.refused for tube in tubes)
            return refused, sum(question.cost(tube) for tube in tubes if tube.id not in owned)

        assert rank(added) == min(map(rank, can))
        assert (not item.cheapest.allowed, item.cheapest.cost) == rank(added)


@pytest.mark.parametrize("case", CASES)
def test_without_one_of_these_the_colour_is_out_of_reach(asked: Asked, case: str) -> None:
    question, why = asked(case)
    allowed = frozenset(
        n for n, tube in enumerate(question.tubes) if tube.id not in question.refused
    )
    told = set()
    for choice in why.one_of_these:
        blocker = frozenset(question.numbers[tube.id] for tube in choice.tubes)
        assert choice.samples
        assert blocker.isdisjoint(question.owned)
        assert [tube.id for tube in choice.bought] == [
            tube.id for tube in choice.tubes if question.numbers[tube.id] in bought(question, why)
        ]
        for planned in choice.samples:
            t = why.plan.samples.index(planned)
            told.add(t)
            assert t not in covered(question, allowed - blocker)
            assert not planned.covered or choice.bought
            for smaller in combinations(sorted(allowed - question.owned), len(blocker) - 1):
                assert t in covered(question, allowed.difference(smaller))
    for t in set(range(len(question.samples))) - told:  # none of these has a small one
        if t not in covered(question, allowed) or t in covered(question, question.owned):
            continue
        for few in combinations(sorted(allowed - question.owned), min(3, MOST_IN_BLOCKER)):
            assert t in covered(question, allowed.difference(few))


def test_a_plan_taken_for_another_merit_is_explained_as_it_is(asked: Asked) -> None:
    """Another choice covers more without the tube that makes it steady, and that is said."""
    _, first = asked("lasting")
    _, steady = asked("steady")
    assert steady.plan.steadiness is not None
    assert steady.plan.steadiness.taken
    assert steady.plan.coverage < first.plan.coverage
    more = [one for one in steady.tubes if one.without > steady.plan.coverage]
    assert [one.without for one in more] == [first.plan.coverage]
    assert "and so more than the" in " ".join(reason_sentences(more[0], steady))


def test_the_best_plan_has_the_same_reasons_whoever_asks(
    catalogue: Catalogue, cache: Cache, asked: Asked
) -> None:
    _, found = asked("must have")
    again = why_of(catalogue, found.plan, cache=cache)
    for name, text in why_files(found).items():
        assert why_files(again)[name] == text


def test_a_plan_of_another_catalogue_has_no_reasons(
    catalogue: Catalogue, cache: Cache, asked: Asked
) -> None:
    """One without a tube of the plan, and one in which that is another paint."""
    _, found = asked("steady")
    tubes = dict(catalogue.tubes)
    del tubes["rose"]
    other = {**catalogue.tubes, "rose": replace(catalogue.tubes["golden-yellow"], id="rose")}
    for changed in (tubes, other):
        with pytest.raises(InputError, match="than this answer was found with; ask again"):
            why_of(replace(catalogue, tubes=changed), found.plan, cache=cache)


def test_the_wish_that_stands_in_the_way_is_named(asked: Asked) -> None:
    _, why = asked("lasting")
    refusals = {
        refusal
        for item in why.unreached
        for route in item.singles
        if not route.allowed
        for refusal in route.refusals
    }
    assert refusals == {Refusal.LIGHTFASTNESS}
    _, why = asked("never")
    refusals = {
        refusal for item in why.unreached for route in item.singles for refusal in route.refusals
    }
    assert Refusal.NEVER in refusals


def test_an_owned_tube_that_is_set_aside_costs_nothing(asked: Asked) -> None:
    _, why = asked("owned but fading")
    routes = [
        route
        for item in why.unreached
        for route in (*item.singles, item.cheapest)
        if route is not None and "vivid-pink" in [tube.id for tube in route.tubes]
    ]
    assert routes
    assert all(route.cost == 0 for route in routes if len(route.tubes) == 1)


def test_a_stopped_search_is_not_called_proven(catalogue: Catalogue, cache: Cache) -> None:
    scenario = make_scenario(budget=1800)
    full = why(catalogue, scenario, cache=cache)
    hasty = why(catalogue, scenario, limits=Limits(seconds=1e-9), cache=cache)
    assert full.plan.certificate.status is Status.PROVEN
    for reason in hasty.tubes:
        assert reason.without <= reason.without_bound
        assert reason.without_proven == (reason.without == reason.without_bound)


def test_nothing_is_remembered_without_a_cache(catalogue: Catalogue, tmp_path: Path) -> None:
    told: list[str] = []
    why(catalogue, make_scenario(), progress=told.append)
    assert told[-1] == "taking each tube away in turn"
    assert not list(tmp_path.iterdir())
