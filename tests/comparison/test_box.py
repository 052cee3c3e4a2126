"""What is said of one's own tubes, against trying everything."""

from collections import Counter
from dataclasses import replace
from decimal import Decimal
from typing import Any

import pytest
from tests.unchecked import unchecked

from fewtubes.catalogue.reading import read_catalogue
from fewtubes.catalogue.records import Catalogue, Lightfastness
from fewtubes.comparison.box import box
from fewtubes.comparison.box_findings import Box
from fewtubes.coverage.cache import Cache
from fewtubes.mixing.likeness import HARDLY_DIFFERENT, likeness
from fewtubes.scenario.records import Scenario, Wishes
from fewtubes.scenario.wanted import FlowerWish
from fewtubes.shopping.question import Question, pose
from fewtubes.shopping.shop import shop

OWNED = ("warm-red", "warm-red-study", "ultramarine", "ultramarine-study", "red-brown-earth")


@pytest.fixture(scope="module")
def demo() -> Catalogue:
    return read_catalogue()


@pytest.fixture(scope="module")
def cache(shared_cache: Cache) -> Cache:
    return shared_cache


@pytest.fixture(scope="module")
def small(demo: Catalogue) -> Catalogue:
    """Return a dozen tubes of the demo catalogue."""
    names = (*OWNED, "green-yellow", "golden-yellow", "rose", "soft-rose", "vivid-pink", "scarlet")
    return replace(demo, tubes={id_: demo.tubes[id_] for id_ in (*names, "blue-leaning-green")})


def make_scenario(owned: tuple[str, ...] = OWNED, **values: Any) -> Scenario:
    wishes = unchecked(values.pop("wishes", Wishes()), owned=owned)
    plain: dict[str, Any] = {
        "title": "test",
        "shows": "",
        "currency": "EUR",
        "budget": 600,
        "most_tubes": None,
        "tolerance": 4.0,
        "flowers": (FlowerWish("cyclamen"), FlowerWish("primrose"), FlowerWish("poppy, field")),
        "own_colours": (),
    }
    asked = {**plain, **values}
    asked["budget"] = Decimal(asked["budget"]) / 100
    return Scenario(**asked, wishes=wishes)


def look(catalogue: Catalogue, cache: Cache, scenario: Scenario, *ids: str) -> Box:
    return box(catalogue, scenario, about_to_buy=ids, cache=cache)


def coverage(question: Question, tubes: set[str]) -> float:
    """Return the coverage of tubes, by id, from the reach itself."""
    held = {question.numbers[id_] for id_ in tubes}
    weights = [sample.weight for sample in question.samples]
    reached = (
        weight
        for weight, sets in zip(weights, question.sets, strict=True)
        if any({int(i) for i in row if i >= 0} <= held for row in sets)
    )
    return sum(reached) / sum(weights)


def asked(catalogue: Catalogue, cache: Cache, scenario: Scenario) -> Question:
    return pose(catalogue, scenario, cache=cache, progress=lambda _: None)


def test_doubles_are_all_pairs_that_look_alike(small: Catalogue, cache: Cache) -> None:
    scenario = make_scenario()
    box = look(small, cache, scenario, "rose")
    question = asked(small, cache, scenario)
    alike = {
        (first, second)
        for at, first in enumerate(OWNED)
        for second in OWNED[at + 1 :]
        if likeness(small.tubes[first], small.tubes[second], question.optics).difference
        <= HARDLY_DIFFERENT
    }
    assert {(double.first.id, double.second.id) for double in box.doubles} == alike
    assert ("warm-red", "warm-red-study") in alike
    for double in box.doubles:
        assert double.stronger is not None
        assert not double.stronger.id.endswith("-study")
        # One pigment: neither lasts longer nor, at equal strength, hides more.
        assert double.longer_lasting is None
        assert double.clearer is None


def test_the_better_of_two_is_told(demo: Catalogue, cache: Cache) -> None:
    """PY154 is lightfastness I, PY97 is II in the tables; they look alike, and both are strong."""
    scenario = make_scenario(("middle-yellow", "arylide-yellow"))
    (double,) = look(demo, cache, scenario, "rose").doubles
    assert double.longer_lasting is demo.tubes["middle-yellow"]
    # Cadmium red against a thinned pyrrole red: the cadmium scatters more, so it hides more.
    cadmium = make_scenario(("cadmium-red", "warm-red-study"))
    found = look(demo, cache, replace(cadmium, budget=Decimal(7)), "rose").doubles
    assert not found or found[0].clearer is demo.tubes["warm-red-study"]


def test_idle_tubes_are_those_without_which_as_much_is_covered(
    small: Catalogue, cache: Cache
) -> None:
    scenario = make_scenario((*OWNED, "rose", "soft-rose", "green-yellow"))
    owned = set(scenario.wishes.owned)
    question = asked(small, cache, scenario)
    box = look(small, cache, scenario, "scarlet")
    whole = coverage(question, owned)
    assert box.coverage == pytest.approx(whole)
    idle = {id_ for id_ in owned if coverage(question, owned - {id_}) == whole}
    assert {tube.id for tube in box.idle} == idle
    assert idle
    assert box.lost_without_idle == pytest.approx(whole - coverage(question, owned - idle))
    assert box.lost_without_idle > 0  # twins: one of each may go, not both


@pytest.mark.parametrize("owned", [(), OWNED, ("rose",)])
def test_additions_are_all_that_add_something_most_for_the_money_first(
    small: Catalogue, cache: Cache, owned: tuple[str, ...]
) -> None:
    scenario = make_scenario(owned, budget=450)
    question = asked(small, cache, scenario)
    box = look(small, cache, scenario, "rose")
    alone = coverage(question, set(owned))
    gains = {id_: coverage(question, {*owned, id_}) - alone for id_ in small.tubes}
    useful = {id_ for id_, gain in gains.items() if gain > 1e-12 and id_ not in owned}
    assert {item.tube.id for item in box.additions} == useful
    rates = [item.gain / item.cost for item in box.additions]
    assert rates == sorted(rates, reverse=True)
    for item in box.additions:
        assert item.gain == pytest.approx(gains[item.tube.id])
        assert item.cost == question.cost(item.tube)
        assert item.affordable == (item.cost <= 450)
    within = [item for item in box.additions if item.affordable]
    assert box.most_for_money is (within[0] if within else None)
    if within:
        assert box.most is not None
        assert box.most.gain == max(item.gain for item in within)
        assert box.most.cost == min(i.cost for i in within if i.gain == box.most.gain)


def test_a_tube_under_another_name_is_recognised(small: Catalogue, cache: Cache) -> None:
    scenario = make_scenario((*OWNED, "soft-rose"))
    box = look(small, cache, scenario, "rose", "golden-yellow", "warm-red")
    rose, golden, red = box.intended
    assert not box.intended_from_plan
    assert (rose.is_double, rose.is_owned) == (True, False)
    assert rose.nearest is small.tubes["soft-rose"]
    assert not golden.is_double
    assert red.is_owned
    assert red.is_double
    assert red.nearest is small.tubes["warm-red-study"]


def test_without_names_the_plan_is_taken(small: Catalogue, cache: Cache) -> None:
    scenario = make_scenario(budget=1500)
    box = look(small, cache, scenario)
    plan = shop(small, scenario, cache=cache)
    assert box.intended_from_plan
    assert box.plan_proven
    assert [item.tube.id for item in box.intended] == [item.tube.id for item in plan.bought]
    assert not any(item.is_owned for item in box.intended)


def test_wishes_set_owned_tubes_aside(small: Catalogue, cache: Cache) -> None:
    floor = Wishes(lightfastness_floor=Lightfastness.II)
    box = look(small, cache, make_scenario((*OWNED, "vivid-pink"), wishes=floor), "rose")
    assert [tube.id for tube in box.set_aside] == ["vivid-pink"]
    assert "vivid-pink" in [tube.id for tube in box.owned]
    assert "vivid-pink" not in [tube.id for tube in box.idle]
    assert "vivid-pink" not in [item.tube.id for item in box.additions]


def test_nothing_is_compared_with_a_tube_that_is_set_aside(small: Catalogue, cache: Cache) -> None:
    """Warm red's weaker edition is most like it, but is never to be used."""
    never = Wishes(never=("warm-red-study",))
    box = look(small, cache, make_scenario(wishes=never), "warm-red-study", "warm-red", "scarlet")
    assert [tube.id for tube in box.set_aside] == ["warm-red-study"]
    study, red, scarlet = box.intended
    assert (study.is_owned, study.set_aside) == (True, True)
    assert (red.is_owned, red.set_aside) == (True, False)
    for item in (study, red, scarlet):
        assert item.nearest is not None
        assert item.nearest.id != "warm-red-study"
    for double in box.doubles:
        assert "warm-red-study" not in {double.first.id, double.second.id}
    assert [(d.first.id, d.second.id) for d in box.doubles] == [
        ("ultramarine", "ultramarine-study")
    ]


def test_an_empty_box(small: Catalogue, cache: Cache) -> None:
    box = look(small, cache, make_scenario(()), "rose")
    assert (box.owned, box.doubles, box.idle, box.coverage) == ((), (), (), 0.0)
    (rose,) = box.intended
    assert (rose.nearest, rose.is_double) == (None, False)


def test_a_weaker_edition_of_what_is_there_is_no_purchase(demo: Catalogue, cache: Cache) -> None:
    """Water makes the study blue from the ultramarine, but not the other way round."""
    scenario = make_scenario(("ultramarine",), flowers=(FlowerWish("viola, blue"),))
    two = replace(
        demo, tubes={id_: demo.tubes[id_] for id_ in ("ultramarine", "ultramarine-study")}
    )
    question = asked(two, cache, scenario)
    # In the parts that are tried the weaker one does bring something.
    assert coverage(question, {*two.tubes}) > coverage(question, {"ultramarine"})
    assert look(two, cache, scenario, "ultramarine").additions == ()
    weak = make_scenario(("ultramarine-study",), flowers=(FlowerWish("viola, blue"),))
    assert [a.tube.id for a in look(two, cache, weak, "ultramarine").additions] == ["ultramarine"]


def reached(question: Question, tubes: set[str]) -> list[str]:
    """Return the flower of every colour that tubes reach, from the reach itself."""
    held = {question.numbers[id_] for id_ in tubes}
    return [
        sample.flower
        for sample, sets in zip(question.samples, question.sets, strict=True)
        if any({int(i) for i in row if i >= 0} <= held for row in sets)
    ]


def test_what_a_tube_adds_is_what_the_box_reaches_with_it(small: Catalogue, cache: Cache) -> None:
    """Every tube that is not owned, alone and all of them together, against trying it."""
    scenario = make_scenario(("warm-red", "ultramarine"))
    owned, question = set(scenario.wishes.owned), asked(small, cache, scenario)
    others = [id_ for id_ in small.tubes if id_ not in owned]
    found = look(small, cache, scenario, *others)
    gains = [(item.gain, {item.tube.id}) for item in found.intended]
    for gain, added in [*gains, (found.gain_together, set(others))]:
        assert gain is not None
        assert gain.before == pytest.approx(found.coverage)
        assert gain.after == pytest.approx(coverage(question, owned | added))
        before, after = Counter(reached(question, owned)), Counter(reached(question, owned | added))
        assert {flower.name: (flower.before, flower.after) for flower in gain.flowers} == {
            name: (before[name], count) for name, count in after.items() if count > before[name]
        }
        assert gain.is_nothing == (gain.after == gain.before)
        new = [flower.after - flower.before for flower in gain.flowers]
        assert new == sorted(new, reverse=True)
    assert {gain.is_nothing for gain, _ in gains if gain} == {True, False}


def test_what_is_owned_or_kept_out_of_use_adds_nothing_and_says_why(
    small: Catalogue, cache: Cache
) -> None:
    wishes = Wishes(never=("rose",), lightfastness_floor=Lightfastness.II)
    scenario = make_scenario(("warm-red", "ultramarine"), wishes=wishes)
    found = look(small, cache, scenario, "rose", "vivid-pink", "warm-red", "scarlet")
    never, fading, owned, other = found.intended
    assert never.kept_out == "it is on the list of tubes never to be used"
    assert fading.kept_out == "it fades more than the lightfastness floor allows"
    assert (never.gain, fading.gain, owned.gain, owned.kept_out) == (None, None, None, "")
    assert other.gain is not None
    assert found.gain_together is None  # one alone may be used


def test_what_is_not_sold_adds_as_much_as_if_it_were(small: Catalogue, cache: Cache) -> None:
    """One is about to buy it, from wherever."""
    scenario = make_scenario(("warm-red", "ultramarine"))
    unsold = replace(small, tubes={**small.tubes, "rose": replace(small.tubes["rose"], offers=())})
    (sold,) = look(small, cache, scenario, "rose").intended
    (not_sold,) = look(unsold, cache, scenario, "rose").intended
    assert sold.gain is not None
    assert not_sold.gain == sold.gain
    assert not sold.gain.is_nothing


def test_water_makes_the_weaker_edition_of_what_is_there(small: Catalogue, cache: Cache) -> None:
    scenario = make_scenario(("ultramarine", "warm-red-study"))
    weaker, stronger = look(small, cache, scenario, "ultramarine-study", "warm-red").intended
    assert weaker.thinned
    assert not stronger.thinned
