"""Planned pictures change what is bought; what is shown, needed and bought agree.

Best choices are held against every palette there is, of a catalogue small enough for that.
"""

import math
from collections.abc import Sequence
from dataclasses import replace
from itertools import combinations, product
from typing import Any

import numpy as np
import pytest
from tests.shopping.conftest import make_scenario

from fewtubes.catalogue.records import Catalogue, Tube
from fewtubes.coverage.cache import Cache
from fewtubes.errors import InputError
from fewtubes.scenario.home_box import BoxAtHome
from fewtubes.scenario.picture_wish import PictureWish
from fewtubes.scenario.records import Scenario, Wishes
from fewtubes.scenario.wanted import FlowerWish
from fewtubes.selection.certificate import Status
from fewtubes.selection.least_paint import UNITS
from fewtubes.shopping.fewer_pictures import fewer_pictures, most_within
from fewtubes.shopping.paint_needs import thousandths_taken
from fewtubes.shopping.plan import Plan
from fewtubes.shopping.puddles import Puddling
from fewtubes.shopping.question import Question, pose
from fewtubes.shopping.shop import answered, shop
from fewtubes.shopping.steadiness import MonteCarlo

SMALL = (
    "lemon",
    "arylide-yellow",
    "nickel-yellow",
    "magenta",
    "ultramarine",
    "middle-blue",
    "green-leaning-blue-study",
    "dioxazine-violet",
)


@pytest.fixture(scope="module")
def small(demo: Catalogue) -> Catalogue:
    """Return eight tubes of the demo catalogue."""
    return replace(demo, tubes={id_: demo.tubes[id_] for id_ in SMALL})


def planned(pictures: int, *flowers: str, **values: Any) -> Scenario:
    return make_scenario(*flowers, picture=PictureWish(pictures), **values)


def question_of(catalogue: Catalogue, scenario: Scenario, cache: Cache) -> Question:
    return pose(catalogue, scenario, cache=cache, progress=lambda _stage: None)


def cheapest(tube: Tube, ml: float) -> int:
    """Return the least that packs holding so much cost, by trying all numbers of each size."""
    most = [math.ceil(ml / offer.ml) + 1 for offer in tube.offers]
    return min(
        sum(n * offer.price for n, offer in zip(counts, tube.offers, strict=True))
        for counts in product(*(range(n + 1) for n in most))
        if any(counts)
        and sum(n * offer.ml for n, offer in zip(counts, tube.offers, strict=True)) >= ml - 1e-9
    )


def cost_by_hand(question: Question, bought: Sequence[int], pictures: int) -> int:
    taken = question.paint.taken(tuple(bought))
    return sum(
        cheapest(
            question.tubes[n],
            thousandths_taken(taken.get(question.tubes[n].id, 0.0) * pictures) / 1000,
        )
        for n in bought
    )


@pytest.mark.parametrize(
    ("ml", "thousandths"), [(0.0, 0), (0.0001, 1), (1.2, 1200), (0.3 * 3, 900), (5.0001, 5001)]
)
def test_needs_are_rounded_up(ml: float, thousandths: int) -> None:
    """0.3 × 3 is a shade more than 0.9 in binary; that is no thousandth more."""
    assert thousandths_taken(ml) == thousandths


@pytest.mark.parametrize("worth_while", [0, 10**9], ids=["bounded by paint", "not bounded"])
@pytest.mark.parametrize(("pictures", "budget"), [(30, 1200), (60, 1500), (120, 2000)])
def test_the_choice_is_the_best_of_all(
    small: Catalogue,
    cache: Cache,
    monkeypatch: pytest.MonkeyPatch,
    *,
    pictures: int,
    budget: int,
    worth_while: int,
) -> None:
    """Against every palette, each mixed by itself and its packs counted by trying."""
    monkeypatch.setattr("fewtubes.shopping.paint_needs.WORTH_WHILE", worth_while)
    scenario = planned(pictures, "primrose", "crocus", budget=budget)
    found = answered(small, scenario, cache=cache)
    question, plan = found.question, found.plan
    assert plan.certificate.status is Status.PROVEN
    instance = question.instance
    ranked = []
    for size in range(len(SMALL) + 1):
        for bought in combinations(range(len(SMALL)), size):
            if instance.doubles_in(bought) or instance.idle_in(bought):
                continue
            cost = cost_by_hand(question, bought, pictures)
            if cost <= budget:
                value = instance.palette(bought).value
                fading = sum(question.tubes[n].lightfastness.fades for n in bought)
                ranked.append((-value, len(bought), fading, cost))
    best = min(ranked)
    chosen = tuple(question.numbers[it.tube.id] for it in plan.bought)
    assert (-instance.palette(chosen).value, len(chosen)) == best[:2]
    assert plan.cost == best[3] == cost_by_hand(question, chosen, pictures)


@pytest.mark.parametrize("puddling", [Puddling.EACH_FLOWER, Puddling.ONE_SITTING])
def test_paint_alone_costs_no_more_than_any_palette(
    small: Catalogue, cache: Cache, monkeypatch: pytest.MonkeyPatch, puddling: Puddling
) -> None:
    """Of every palette there is; of some it is most of what is paid, and of no colour nothing."""
    monkeypatch.setattr("fewtubes.shopping.paint_needs.WORTH_WHILE", 0)
    scenario = planned(200, "primrose", "crocus", budget=9000)
    question = replace(question_of(small, scenario, cache), puddling=puddling)
    assert question.terms is not None
    assert question.terms.least_paint is not None
    paint = question.terms.least_paint(math.inf)
    assert paint is not None
    held = np.ones((1, len(SMALL)), dtype=np.bool_)
    reached = [bool(len(sets)) for sets in question.sets]
    nothing = np.array(question.paper_differences) <= question.scenario.tolerance
    assert ((paint.of_samples(held)[0] > 0) == (reached & ~nothing)).all()
    shares = []
    for size in range(1, len(SMALL) + 1):
        for bought in combinations(range(len(SMALL)), size):
            cost = cost_by_hand(question, bought, 200)
            covered = np.isin(np.arange(len(question.samples)), question.paint.covered(bought))
            least = int(paint.of_palettes(np.array([bought]), covered[None])[0])
            assert least <= cost * UNITS + len(SMALL)
            shares.append(least / (cost * UNITS))
    assert max(shares) > 0.6


def test_what_paint_costs_is_not_told_of_nearest_recipes_nor_too_late(
    small: Catalogue, cache: Cache, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A nearest recipe may be at another wash; and where time is short all goes on without."""
    monkeypatch.setattr("fewtubes.shopping.paint_needs.WORTH_WHILE", 0)
    question = question_of(small, planned(30, "primrose", budget=1200), cache)
    assert question.terms is not None
    assert question.terms.least_paint is not None
    assert question.terms.least_paint(0.0) is None
    nearest = replace(question, puddling=Puddling.EACH_COLOUR)
    assert nearest.terms is not None
    assert nearest.terms.least_paint is not None
    assert nearest.terms.least_paint(math.inf) is None


@pytest.fixture(scope="module", params=[*Puddling])
def shown(request: pytest.FixtureRequest, small: Catalogue, shared_cache: Cache) -> Any:
    scenario = planned(40, "primrose", "crocus", budget=2500)
    return answered(small, scenario, cache=shared_cache, puddling=request.param)


def test_what_is_shown_is_what_is_needed_and_bought(shown: Any) -> None:
    plan, question = shown.plan, shown.question
    assert plan.paint is not None
    bought = tuple(question.numbers[it.tube.id] for it in plan.bought)
    needs = question.terms.needed(bought)
    # Summed anew from the recipes that are printed: each puddle once, with its washes.
    areas = {
        t: 50
        * planned.sample.weight
        / sum(
            other.sample.weight
            for other in plan.samples
            if other.sample.flower == planned.sample.flower
        )
        for t, planned in enumerate(plan.samples)
    }
    taken = dict.fromkeys((it.tube.id for it in plan.bought), 0.0)
    power = {it.tube.id: it.cm2_per_ml for it in plan.paint.tubes}
    for puddle in plan.mixed.mixed:
        washes = {t: plan.samples[t].recipe.strength for t in puddle.colours}
        painted = sum(areas[t] * wash for t, wash in washes.items())
        mixed = max(1.5 * painted, 10 * max(washes.values()))
        for id_, parts in zip(puddle.tubes, puddle.parts, strict=True):
            taken[id_] += mixed * parts / sum(puddle.parts) / power[id_]
    for it, need, planned_tube in zip(plan.paint.tubes, needs, plan.bought, strict=True):
        assert it.ml == pytest.approx(taken[it.tube.id])
        assert need.amount == thousandths_taken(40 * it.ml)
        held = sum(pack.count * pack.offer.ml for pack in planned_tube.packs)
        assert it.bought_ml == held >= need.amount / 1000
        assert planned_tube.cost == cheapest(planned_tube.tube, need.amount / 1000)
    assert plan.paint.lasts >= 40
    assert plan.paint.bought_a_picture == pytest.approx(plan.cost / 40)
    assert plan.paint.used == pytest.approx(
        sum(it.price * it.ml / it.bought_ml for it in plan.paint.tubes)
    )


def test_pictures_are_counted_one_by_one(small: Catalogue, cache: Cache) -> None:
    question = question_of(small, planned(7, "primrose"), cache)
    bought = (0, 4)
    one, seven = (question.paint.needs(bought, pictures) for pictures in (1, 7))
    taken = question.paint.taken(bought)
    for number, few, many in zip(bought, one, seven, strict=True):
        ml = taken[question.tubes[number].id]
        assert (few.amount, many.amount) == (thousandths_taken(ml), thousandths_taken(7 * ml))


def test_without_pictures_nothing_is_needed(small: Catalogue, cache: Cache) -> None:
    question = question_of(small, make_scenario("primrose"), cache)
    assert question.needs_of is None
    assert question.terms is None
    assert shop(small, make_scenario("primrose"), cache=cache).paint is None


def test_what_is_out_of_reach_is_told_as_without_pictures(small: Catalogue, cache: Cache) -> None:
    """Where any pack is large enough the plan is the same, its nearest misses included."""
    scenario = planned(1, "primrose", "crocus", budget=700)
    plan, plain = (
        shop(small, asked, cache=cache) for asked in (scenario, replace(scenario, picture=None))
    )
    assert not all(it.covered for it in plan.samples)
    assert [it.tube.id for it in plan.bought] == [it.tube.id for it in plain.bought]
    assert [it.recipe for it in plan.samples] == [it.recipe for it in plain.samples]
    assert [it.match for it in plan.samples] == pytest.approx([it.match for it in plain.samples])
    assert plan.mixed == plain.mixed


def test_a_wish_for_more_paint_stands(small: Catalogue, cache: Cache) -> None:
    scenario = planned(1, "primrose", wishes=Wishes(millilitres=8))
    plan = shop(small, scenario, cache=cache)
    assert plan.bought
    for it in plan.bought:
        assert sum(pack.count * pack.offer.ml for pack in it.packs) >= 8


def test_fewer_pictures_are_told_where_the_money_is_short(small: Catalogue, cache: Cache) -> None:
    scenario = planned(200, "primrose", "crocus", budget=1200)
    found = answered(small, scenario, cache=cache)
    question, plan = found.question, found.plan
    any_pack = shop(small, replace(scenario, picture=None), cache=cache)
    assert any_pack.coverage > plan.coverage
    assert plan.paint is not None
    fewer = plan.paint.fewer
    assert fewer is not None
    assert fewer.coverage == any_pack.coverage
    palette = tuple(question.numbers[it.tube.id] for it in any_pack.bought)
    assert 0 < fewer.pictures < 200
    assert cost_by_hand(question, palette, fewer.pictures) <= 1200
    assert cost_by_hand(question, palette, fewer.pictures + 1) > 1200
    # Where it is not proven what all pictures cost, they may cost no coverage at all.
    certificate = replace(plan.certificate, bound=plan.certificate.bound + 1)
    best = question.instance.palette(sorted(question.numbers[it.tube.id] for it in plan.bought))
    assert fewer_pictures(question, best, plan.certificate, seconds=60) == fewer
    assert fewer_pictures(question, best, certificate, seconds=60) is None


def test_nothing_is_told_where_the_money_suffices(small: Catalogue, cache: Cache) -> None:
    plan = shop(small, planned(1, "primrose"), cache=cache)
    assert plan.paint is not None
    assert plan.paint.fewer is None


@pytest.mark.parametrize("most", [0, 1, 7, 12])
def test_the_largest_number_that_does(most: int) -> None:
    assert most_within(lambda pictures: pictures <= most, 13) == most


def test_a_tube_at_home_that_holds_too_little_is_told(small: Catalogue, cache: Cache) -> None:
    box = BoxAtHome({"lemon": "full"})
    few, many = (
        shop(small, planned(pictures, "primrose", wishes=Wishes(box=box)), cache=cache)
        for pictures in (1, 2000)
    )
    held = min(offer.ml for offer in small.tubes["lemon"].offers)
    for plan, low in ((few, False), (many, True)):
        (lemon,) = [it for it in plan.tubes if it.tube.id == "lemon"]
        assert plan.paint is not None
        assert lemon.runs_low is low
        assert (plan.paint.planned_ml("lemon") > held) is low
        (paint,) = [it for it in plan.paint.tubes if it.tube.id == "lemon"]
        assert (paint.lasts, paint.used, paint.bought_ml) == (None, 0, 0)


def test_needs_without_an_owned_tube_do_not_count_on_it(small: Catalogue, cache: Cache) -> None:
    scenario = planned(20, "primrose", wishes=Wishes(owned=("lemon",)))
    question = question_of(small, scenario, cache)
    lemon, other = question.numbers["lemon"], question.numbers["arylide-yellow"]
    beside = question.paint.needs((other,), 20)
    alone = question.paint.needs_without(frozenset([lemon]))
    assert alone is not None
    (need,) = alone((other,))
    plain = question_of(small, planned(20, "primrose"), cache)
    assert need == plain.paint.needs((other,), 20)[0]
    assert need != beside[0]
    terms = question.instance_without(frozenset([lemon])).terms
    assert terms is not None
    assert terms.needed((other,)) == (need,)


def test_the_steadiest_recipes_are_not_reckoned_with(small: Catalogue, cache: Cache) -> None:
    with pytest.raises(InputError, match="steadiest recipes cannot be chosen where pictures"):
        shop(small, planned(2, "primrose"), cache=cache, trials=MonteCarlo(choose=True))


def test_steadiness_can_be_told_beside(small: Catalogue, cache: Cache) -> None:
    plan: Plan = shop(small, planned(2, "primrose"), cache=cache, trials=MonteCarlo(draws=20))
    assert plan.paint is not None
    assert plan.steadiness is not None


def test_larger_flowers_take_more(small: Catalogue, cache: Cache) -> None:
    """Twice the area with no least puddle takes twice the paint."""
    picture = PictureWish(5, least_puddle_cm2=0)
    taken = []
    for area in (20.0, 40.0):
        flower = FlowerWish("primrose", area_cm2=area)
        scenario = replace(planned(5, "primrose"), flowers=(flower,), picture=picture)
        taken.append(question_of(small, scenario, cache).paint.taken((0, 4)))
    assert taken[1] == pytest.approx({id_: 2 * ml for id_, ml in taken[0].items()})
