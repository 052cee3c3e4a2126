"""One set of tubes for several scenarios: held to trying every set, and what is wished together."""

from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction
from itertools import combinations
from pathlib import Path
from random import Random
from typing import Any

import pytest

from fewtubes.catalogue.price_list import with_prices
from fewtubes.catalogue.reading import read_catalogue
from fewtubes.catalogue.records import Catalogue
from fewtubes.comparison.one_set import one_set, one_set_of
from fewtubes.comparison.one_set_findings import SetForAll
from fewtubes.coverage.cache import Cache
from fewtubes.errors import ClashError, InputError
from fewtubes.scenario.records import Scenario, Wishes
from fewtubes.shopping.question import Question, pose
from fewtubes.shopping.shop import Limits, shop

TUBES = ("lemon", "warm-yellow", "warm-red", "magenta", "ultramarine", "green-leaning-blue")
"""Few enough to try every set of them: 2^6."""

MOST_FADING = 2
"""Category up to which a paint lasts, as the README has it (II)."""


@pytest.fixture(scope="module")
def demo() -> Catalogue:
    """Return the demo with a handful of its tubes."""
    whole = read_catalogue()
    return replace(whole, tubes={id_: whole.tubes[id_] for id_ in TUBES})


def scenario(*flowers: str, **more: Any) -> Scenario:
    asked: dict[str, Any] = {"budget": 12, "currency": "EUR", "flowers": flowers}
    return Scenario(**asked | more)


def wishes(**asked: Any) -> Wishes:
    return Wishes(**asked)


def drawn(demo: Catalogue, seed: int) -> tuple[dict[str, Scenario], dict[str, int]]:
    """Return two to four scenarios, and how much each counts."""
    rng = Random(f"one set {seed}")  # noqa: S311  # drawing test cases
    names = [f"week {number}" for number in range(rng.randint(2, 4))]
    asked = {
        name: scenario(
            *rng.sample(sorted(demo.flowers), rng.randint(1, 2)),
            budget=rng.choice([6, 9, 14]),
            tolerance=rng.choice([3, 4, 6, 6]),
            light=rng.choice(["D65", "D65", "A"]),
            most_tubes=rng.choice([None, None, 3]),
            wishes=wishes(
                owned=["ultramarine"] if rng.random() < 0.2 else [],
                must_have=["lemon"] if rng.random() < 0.2 else [],
                never=["warm-red"] if rng.random() < 0.2 else [],
                lightfastness_floor=rng.choice([None, None, "II"]),
            ),
        )
        for name in names
    }
    return asked, {name: rng.choice([1, 1, 2, 3]) for name in names}


def every_set(questions: list[Question]) -> list[tuple[frozenset[str], list[Fraction], int]]:
    """Return every set that the wishes of all leave: tubes, coverages, cost; told one by one."""
    wished = [question.scenario.wishes for question in questions]
    owned = {id_ for one in wished for id_ in one.all_owned} - {
        id_ for one in wished for id_ in one.never
    }
    must = {id_ for one in wished for id_ in one.must_have} - owned
    refused = {id_ for question in questions for id_ in question.refused}
    limits = [q.scenario.most_tubes for q in questions if q.scenario.most_tubes is not None]
    money = max(question.scenario.budget_hundredths for question in questions)
    numbers, first = questions[0].numbers, questions[0]
    found = []
    for size in range(len(TUBES) + 1):
        for chosen in combinations([id_ for id_ in TUBES if id_ not in owned], size):
            cost = sum(first.cost(first.catalogue.tubes[id_]) for id_ in chosen)
            fits = size <= min(limits, default=size) and cost <= money and must.issubset(chosen)
            if not fits or refused.intersection(chosen):
                continue
            held = {numbers[id_] for id_ in (*chosen, *(owned - refused))}
            found.append((frozenset(chosen), [_covered(q, held) for q in questions], cost))
    return found


def _covered(question: Question, held: set[int]) -> Fraction:
    """Return what tubes cover of one scenario, colour by colour."""
    covered = sum(
        sample.weight
        for sample, sets in zip(question.samples, question.sets, strict=True)
        if any(held.issuperset(n for n in row if n >= 0) for row in sets.tolist())
    )
    return Fraction(covered, sum(sample.weight for sample in question.samples))


@pytest.mark.parametrize("seed", range(16))
def test_both_are_what_trying_every_set_finds(
    seed: int, demo: Catalogue, shared_cache: Cache
) -> None:
    asked, counts = drawn(demo, seed)
    questions = [
        pose(demo, one, cache=shared_cache, progress=lambda _stage: None) for one in asked.values()
    ]
    every = every_set(questions)
    if not every or {q for one in questions for q in one.scenario.wishes.must_have} & {
        id_ for one in questions for id_ in one.refused
    }:
        with pytest.raises(ClashError):
            one_set(demo, asked, weights=counts, cache=shared_cache)
        return
    found = one_set(demo, asked, weights=counts, cache=shared_cache)
    shares = [Fraction(count, sum(counts.values())) for count in counts.values()]

    def mean(coverages: list[Fraction]) -> Fraction:
        return sum((s * c for s, c in zip(shares, coverages, strict=True)), Fraction(0))

    by_mean = max(every, key=lambda one: (mean(one[1]), -len(one[0])))
    by_worst = max(every, key=lambda one: (min(one[1]), mean(one[1]), -len(one[0])))
    assert found.by_mean.mean == mean(by_mean[1])
    assert len(found.by_mean.tubes) == len(by_mean[0])
    assert (found.by_worst.worst, found.by_worst.mean) == (min(by_worst[1]), mean(by_worst[1]))
    assert len(found.by_worst.tubes) == len(by_worst[0])
    told = {tubes: (coverages, cost) for tubes, coverages, cost in every}
    for chosen in (found.by_mean, found.by_worst):
        assert chosen.proven
        coverages, cost = told[frozenset(tube.id for tube in chosen.tubes)]
        assert list(chosen.coverages) == coverages
        assert chosen.cost == chosen.purchase.cost == cost


def test_its_own_best_is_that_of_shop(demo: Catalogue, shared_cache: Cache) -> None:
    asked = {
        "a": scenario("foxglove", budget=5),
        "b": scenario("daffodil", "cornflower"),
        "c": scenario("daffodil", budget=1, wishes=wishes(must_have=["magenta"])),
    }
    found = one_set(demo, asked, cache=shared_cache)
    for served in found.scenarios[:2]:
        plan = shop(demo, asked[served.name], cache=shared_cache)
        assert served.own is not None
        assert served.own.coverage == served.own.bound == plan.coverage
        assert served.own.proven
    assert found.scenarios[2].own is None  # its own budget does not buy what it must have
    assert "magenta" in {tube.id for tube in found.by_mean.tubes}


def test_of_one_scenario_it_is_the_choice_of_shop(demo: Catalogue, shared_cache: Cache) -> None:
    alone = scenario("foxglove", "daffodil")
    plan = shop(demo, alone, cache=shared_cache)
    found = one_set(demo, {"alone": alone}, cache=shared_cache)
    for chosen in (found.by_mean, found.by_worst):
        assert (float(chosen.mean), chosen.cost) == (plan.coverage, plan.cost)
    assert found.same or found.by_mean.cost == found.by_worst.cost


def test_the_budget_is_the_largest_unless_one_is_given(
    demo: Catalogue, shared_cache: Cache
) -> None:
    asked = {"a": scenario("foxglove", budget=5), "b": scenario("daffodil", budget="7.50")}
    assert one_set(demo, asked, cache=shared_cache).budget == 750
    given = one_set(demo, asked, budget="3.20", cache=shared_cache)
    assert given.budget == 320
    assert max(given.by_mean.cost, given.by_worst.cost) <= 320


def test_what_one_refuses_is_refused_and_clashes_are_told(
    demo: Catalogue, shared_cache: Cache
) -> None:
    asked = {
        "a": scenario("foxglove", wishes=wishes(must_have=["magenta"])),
        "b": scenario("daffodil", wishes=wishes(never=["magenta", "lemon"])),
    }
    with pytest.raises(ClashError, match=r"'magenta' must be bought for a and is never .* for b"):
        one_set(demo, asked, cache=shared_cache)
    sound = asked | {"a": scenario("foxglove", wishes=wishes(owned=["lemon"]))}
    found = one_set(demo, sound, cache=shared_cache)
    bought = {tube.id for one in (found.by_mean, found.by_worst) for tube in one.tubes}
    assert not bought & {"magenta", "lemon"}
    assert not found.owned  # what is never to be used for one is set aside, also if it is there


def test_what_one_owns_need_not_be_bought_for_another(demo: Catalogue, shared_cache: Cache) -> None:
    asked = {
        "a": scenario("foxglove", wishes=wishes(must_have=["magenta"])),
        "b": scenario("daffodil", wishes=wishes(owned=["magenta"])),
    }
    found = one_set(demo, asked, cache=shared_cache)
    assert [tube.id for tube in found.owned] == ["magenta"]
    assert "magenta" not in {tube.id for tube in found.by_mean.tubes}


@pytest.mark.parametrize(
    ("asked", "given", "told"),
    [
        ({}, {}, "scenarios: there is none"),
        ({"a": {}}, {"weights": {"b": 1}}, "weights: there is no scenario 'b'"),
        ({"a": {}}, {"weights": {"a": 0}}, "weights: of 'a'"),
        ({"a": {}}, {"weights": {"a": "x"}}, "which is not a plain number"),
        ({"a": {}}, {"budget": -1}, "budget: is '-1'"),
        ({"a": {}}, {"budget": "x"}, "budget: is 'x', which is not a plain number"),
        ({"a": {}, "b": {"currency": "GBP"}}, {}, "one set of tubes is bought in one currency"),
    ],
)
def test_bad_input_is_told(
    asked: dict[str, dict[str, Any]], given: dict[str, Any], told: str, demo: Catalogue
) -> None:
    scenarios = {name: scenario("foxglove", **more) for name, more in asked.items()}
    with pytest.raises(InputError, match=told):
        one_set(demo, scenarios, **given)


def test_other_prices_are_other_catalogues(demo: Catalogue, tmp_path: Path) -> None:
    text = "tube,ml,price,currency\nultramarine,5,3.10,EUR\n"
    (tmp_path / "offers.csv").write_text(text, encoding="utf-8")
    one = scenario("foxglove")
    with pytest.raises(InputError, match="catalogues or price lists that differ"):
        one_set_of({"a": (demo, one), "b": (with_prices(demo, tmp_path), one)})


def test_stopped_it_does_not_say_best(demo: Catalogue, shared_cache: Cache) -> None:
    asked = {"a": scenario("foxglove", budget=20), "b": scenario("daffodil", budget=20)}
    found = one_set(demo, asked, limits=Limits(0.0), cache=shared_cache)
    whole = one_set(demo, asked, cache=shared_cache)
    pairs: list[tuple[SetForAll, SetForAll, Callable[[SetForAll], Fraction]]] = [
        (found.by_mean, whole.by_mean, lambda one: one.mean),
        (found.by_worst, whole.by_worst, lambda one: one.worst),
    ]
    for stopped, best, of in pairs:
        assert not stopped.proven
        assert float(of(stopped)) <= float(of(best)) <= stopped.bound
