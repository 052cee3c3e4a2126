"""What stands in for a tube that is sold out, against trying every other tube."""

from dataclasses import replace
from pathlib import Path

import pytest

from fewtubes.catalogue.reading import read_catalogue
from fewtubes.catalogue.records import Catalogue
from fewtubes.comparison.sold_out import if_sold_out
from fewtubes.coverage.cache import Cache
from fewtubes.scenario.records import Scenario, Wishes
from fewtubes.scenario.wanted import FlowerWish
from fewtubes.shopping.shop import Answered, Limits, answered

TUBES = (
    "green-yellow",
    "golden-yellow",
    "warm-red",
    "rose",
    "soft-rose",
    "dioxazine-violet",
    "ultramarine",
    "green-leaning-blue",
)

SCENARIO = Scenario(
    title="sold out",
    currency="EUR",
    budget=12,
    tolerance=5.0,
    flowers=(FlowerWish("cornflower", 1.0), FlowerWish("primrose", 1.0)),
)


@pytest.fixture(scope="module")
def catalogue() -> Catalogue:
    """Return eight tubes of the demo catalogue."""
    demo = read_catalogue()
    return replace(demo, tubes={id_: demo.tubes[id_] for id_ in TUBES})


@pytest.fixture(scope="module")
def cache(tmp_path_factory: pytest.TempPathFactory) -> Cache:
    """Return a cache for all cases."""
    folder: Path = tmp_path_factory.mktemp("cache")
    return Cache(folder)


def ask(catalogue: Catalogue, cache: Cache, scenario: Scenario) -> Answered:
    """Return the answer with its question."""
    return answered(catalogue, scenario, limits=Limits(seconds=20), cache=cache)


@pytest.mark.parametrize(
    "case",
    [
        {},
        {"budget": 40},
        {"wishes": Wishes(owned=("ultramarine",))},
        {"wishes": Wishes(must_have=("golden-yellow",), never=("rose",))},
    ],
    ids=["tight", "loose", "owned", "wishes"],
)
def test_it_is_the_best_of_all_single_tubes(
    catalogue: Catalogue, cache: Cache, case: dict[str, object]
) -> None:
    found = ask(catalogue, cache, replace(SCENARIO, **case))  # type: ignore[arg-type]
    question, plan = found.question, found.plan
    instance = replace(question.instance, must_have=frozenset())

    def share(tubes: set[int]) -> float:
        got = sum(instance.weights[t] for t in instance.covered(frozenset(tubes)))
        return got / sum(instance.weights)

    told = if_sold_out(question, plan, seconds=20)
    assert [item.tube.id for item in told] == [planned.tube.id for planned in plan.bought]
    assert told
    palette = {question.numbers[planned.tube.id] for planned in plan.tubes}
    spent = {question.numbers[it.tube.id]: it.cost for it in plan.bought}
    for item in told:
        gone = question.numbers[item.tube.id]
        left = question.scenario.budget_hundredths - sum(spent.values()) + spent[gone]
        tried = [
            (-share(palette - {gone} | {n}), question.cost(tube), n)
            for n, tube in enumerate(question.tubes)
            if n not in palette
            and tube.id not in question.refused
            and question.cost(tube) <= left
            and not question.instance.doubles_in([*(spent.keys() - {gone}), n])
        ]
        useful = [it for it in tried if -it[0] > share(palette - {gone})]
        assert item.proven
        if not useful:
            assert item.stand_in is None
            continue
        best = min(useful)
        assert item.stand_in is not None
        assert item.stand_in.tube is question.tubes[best[2]]
        assert item.stand_in.cost == best[1]
        assert item.stand_in.coverage == pytest.approx(-best[0])


def test_without_time_nothing_is_claimed(catalogue: Catalogue, cache: Cache) -> None:
    found = ask(catalogue, cache, SCENARIO)
    told = if_sold_out(found.question, found.plan, seconds=0.0)
    assert len(told) == len(found.plan.bought) > 0
    assert all(item.stand_in is None and not item.proven for item in told)


def test_where_nothing_is_bought_nothing_is_sold_out(catalogue: Catalogue, cache: Cache) -> None:
    found = ask(catalogue, cache, SCENARIO)
    assert if_sold_out(found.question, replace(found.plan, tubes=()), seconds=1.0) == ()
