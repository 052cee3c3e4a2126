"""Among equal choices the one that comes nearest to what stays out of reach."""

from collections.abc import Callable
from dataclasses import replace
from itertools import combinations

import pytest

from fewtubes.catalogue.records import Catalogue
from fewtubes.comparison.compare import compare
from fewtubes.comparison.extent import Extent
from fewtubes.coverage.cache import Cache
from fewtubes.mixing.deadline import Deadline
from fewtubes.scenario.records import Scenario, Wishes
from fewtubes.selection.certificate import Method, Status
from fewtubes.selection.equals import equals_of
from fewtubes.selection.search import search
from fewtubes.shopping import misses
from fewtubes.shopping.choose import choose, matches_of
from fewtubes.shopping.misses import nearest_choice, shortfalls
from fewtubes.shopping.question import Question, pose
from fewtubes.shopping.shop import Limits, shop

MakeScenario = Callable[..., Scenario]

FEW = (
    *("green-yellow", "middle-yellow", "golden-yellow", "scarlet", "warm-red", "coral", "magenta"),
    *("ultramarine", "green-leaning-blue", "turquoise", "leaf-green-mixed", "warm-black"),
)


@pytest.fixture(scope="module")
def few(demo: Catalogue) -> Catalogue:
    """Return the demo with few tubes, which are mixed at once."""
    return replace(demo, tubes={id_: demo.tubes[id_] for id_ in FEW})


@pytest.fixture
def asked(scenario: MakeScenario) -> Scenario:
    """Return a question that many pairs of tubes answer equally well."""
    return scenario("geranium, scarlet", budget=1200, most_tubes=2, tolerance=6.0, nearer=True)


def posed(catalogue: Catalogue, scenario: Scenario) -> Question:
    return pose(catalogue, scenario, cache=Cache(), progress=lambda _stage: None)


def by_hand(question: Question, bought: tuple[int, ...]) -> int:
    """Return the weighted sum of what a palette misses, each colour matched by itself."""
    palette = question.instance.palette(bought)
    missed = [t for t in range(len(question.samples)) if t not in palette.covered]
    matches = matches_of(question, palette, missed)
    apart = [
        question.paper_differences[t] if (match := matches[t]) is None else match.difference
        for t in missed
    ]
    return sum(
        question.samples[t].weight * round(100 * difference)
        for t, difference in zip(missed, apart, strict=True)
    )


@pytest.mark.parametrize("prefer", ["lasting", "cheapest"])
def test_the_choice_is_the_one_that_every_pair_tried_gives(
    few: Catalogue, asked: Scenario, prefer: str
) -> None:
    """Origin: all pairs of tubes, ranked by hand."""
    question = posed(few, replaced(asked, prefer=prefer))
    instance = question.instance
    palettes = [
        instance.palette(bought)
        for size in range(3)
        for bought in combinations(range(len(FEW)), size)
    ]
    bought = [palette for palette in palettes if palette.cost <= instance.budget]
    best = min(palette.rank[:3] for palette in bought)
    equals = [palette for palette in bought if palette.rank[:3] == best]
    assert len(equals) > 3
    ranked = sorted((by_hand(question, p.bought), p.rank, p.bought) for p in equals)
    chosen = choose(question, seconds=60)
    assert chosen.palette.bought == ranked[0][2]
    assert chosen.choice.certificate.status is Status.PROVEN
    found = chosen.misses
    assert found is not None
    assert (found.among, found.complete) == (len(equals), True)
    usual = min(equals, key=lambda palette: palette.rank)
    weight = sum(instance.weights) - usual.value
    assert found.mean == pytest.approx(ranked[0][0] / 100 / weight, rel=1e-12)
    assert found.without_wish == pytest.approx(by_hand(question, usual.bought) / 100 / weight)
    assert found.extra_cost == chosen.palette.cost - usual.cost
    # The wish tells: without it another, cheaper one is taken.
    without = choose(posed(few, replaced(asked, prefer=prefer, nearer=False)), seconds=60)
    assert without.palette.rank == usual.rank
    assert without.palette.bought != chosen.palette.bought
    assert without.misses is None


def replaced(scenario: Scenario, **values: object) -> Scenario:
    return Scenario(**{**vars(scenario), **values})


def test_the_integer_program_is_asked_the_same(few: Catalogue, asked: Scenario) -> None:
    plans = [shop(few, asked, limits=Limits(method=method)) for method in Method]
    assert len({tuple(tube.tube.id for tube in plan.bought) for plan in plans}) == 1
    assert len({plan.misses for plan in plans}) == 1
    assert all(plan.certificate.status is Status.PROVEN for plan in plans)


def test_compare_takes_the_same_of_each_size(few: Catalogue, asked: Scenario) -> None:
    plan = shop(few, asked)
    comparison = compare(few, asked, extent=Extent(up_to=2, near=1))
    tubes = [comparison.question.tubes[number].id for number in comparison.sizes[-1].palette.bought]
    assert tubes == [planned.tube.id for planned in plan.bought]
    assert comparison.sizes[-1].best.proven


def test_nothing_changes_where_nothing_is_missed(few: Catalogue, scenario: MakeScenario) -> None:
    asked = scenario("primrose", budget=3000, tolerance=8.0)
    plain, wished = shop(few, asked), shop(few, replaced(asked, nearer=True))
    assert plain.coverage == 1.0
    assert [tube.tube for tube in wished.bought] == [tube.tube for tube in plain.bought]
    assert wished.misses is None


def test_equals_are_not_called_all_where_they_are_cut_off(few: Catalogue, asked: Scenario) -> None:
    question = posed(few, asked)
    best = search(question.instance).palettes[0]
    state = question.search_state
    state.deadline = float("inf")
    every, complete = equals_of(question.instance, best, state=state)
    assert complete
    some, complete = equals_of(question.instance, best, state=state, most=len(every) - 1)
    assert not complete
    assert set(some) < set(every)
    assert best in some
    whole, complete = equals_of(question.instance, best, state=state, most=len(every))
    assert (whole, complete) == (every, True)


def test_a_choice_whose_equals_were_not_all_looked_at_is_not_called_proven(
    few: Catalogue, asked: Scenario
) -> None:
    question = posed(few, asked)
    found = search(question.instance)
    choice, told = nearest_choice(question, found, seconds=0.0)
    assert told is not None
    assert not told.complete
    assert choice.certificate.status is Status.STOPPED
    assert choice.certificate.gap == 0
    assert choice.palettes[0].rank[:3] == found.palettes[0].rank[:3]


def test_what_is_owned_and_the_bare_paper_count(few: Catalogue, scenario: MakeScenario) -> None:
    """An owned tube mixes what is missed too; a palette without any tube has the paper."""
    asked = scenario(
        "fuchsia", budget=1, tolerance=4.0, wishes=Wishes(owned=("magenta",)), nearer=True
    )
    question = posed(few, asked)
    palette = question.instance.palette(())
    assert shortfalls(question, [palette], deadline=Deadline()) == (by_hand(question, ()),)
    bare = posed(few, replaced(asked, wishes=Wishes()))
    nothing = bare.instance.palette(())
    expected = sum(
        sample.weight * round(100 * apart)
        for t, (sample, apart) in enumerate(zip(bare.samples, bare.paper_differences, strict=True))
        if t not in nothing.covered
    )
    assert shortfalls(bare, [nothing], deadline=Deadline()) == (expected,)
    assert shortfalls(question, [palette], deadline=Deadline())[0] < expected


def test_palettes_mixed_together_are_each_what_they_are_alone(
    few: Catalogue, asked: Scenario, monkeypatch: pytest.MonkeyPatch
) -> None:
    question = posed(few, asked)
    palettes = [question.instance.palette(bought) for bought in combinations(range(len(FEW)), 2)]
    together = shortfalls(question, palettes, deadline=Deadline())
    monkeypatch.setattr(misses, "TOGETHER", 5)
    assert shortfalls(question, palettes, deadline=Deadline()) == together
    assert together[::9] == tuple(by_hand(question, p.bought) for p in palettes[::9])
    first = shortfalls(question, palettes, deadline=Deadline(0.0))
    assert first == together[: len(first)]
    assert 0 < len(first) < len(together)
