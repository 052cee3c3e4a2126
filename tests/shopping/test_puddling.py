"""The fewest puddles for a plan, against trying every choice of mixes."""

from dataclasses import replace
from itertools import combinations

import numpy as np
import pytest
from tests.shopping.conftest import MakeScenario

from fewtubes.catalogue.records import Catalogue
from fewtubes.colour.difference import delta_e_2000
from fewtubes.coverage.cache import Cache
from fewtubes.coverage.optics import optics_for
from fewtubes.errors import InputError
from fewtubes.mixing.matching import TUBE_BURDEN, recipe_lab
from fewtubes.mixing.recipes import PARTS, STRENGTHS, Recipe
from fewtubes.scenario.preference import Prefer
from fewtubes.scenario.records import Wishes
from fewtubes.scenario.wanted import OwnColour
from fewtubes.shopping.plan import Plan
from fewtubes.shopping.puddles import OWN_COLOURS, Puddling
from fewtubes.shopping.shop import Answered, answered, shop
from fewtubes.shopping.steadiness import MonteCarlo

FLOWERS = ("foxglove", "primrose", "daffodil")


@pytest.fixture(scope="module")
def asked(demo: Catalogue, cache: Cache) -> dict[Puddling, Answered]:
    """Return the same question answered each way."""
    from tests.shopping.conftest import make_scenario

    scenario = make_scenario(*FLOWERS, budget=1100)
    return {
        puddling: answered(demo, scenario, cache=cache, puddling=puddling) for puddling in Puddling
    }


Reach = dict[tuple[tuple[str, ...], tuple[int, ...]], dict[int, float]]


def reach_of(found: Answered) -> Reach:
    """Return what each mix of the palette reaches, and how near, recipe by recipe."""
    plan, optics = found.plan, found.question.optics
    tubes = {planned.tube.id: planned.tube for planned in plan.tubes}
    labs = np.array([planned.sample.lab for planned in plan.samples])
    reach: Reach = {}
    for size, table in PARTS.items():
        for ids in combinations(tubes, size):
            for parts in table:
                mixed = [recipe_lab(Recipe(ids, parts, s), tubes, optics) for s in STRENGTHS]
                nearest = delta_e_2000(np.array(mixed)[:, None], labs).min(axis=0)
                within = np.flatnonzero(nearest <= plan.scenario.tolerance).tolist()
                if within:
                    reach[ids, parts] = {t: float(nearest[t]) for t in within}
    return reach


def fewest(reach: Reach, places: list[int]) -> tuple[int, float]:
    """Return the fewest mixes for some samples and their least sum of match and burden.

    Every choice of so many mixes is tried, those that reach the same samples but come nowhere
    nearer left out.
    """
    rows = {
        tuple(r.get(t, np.inf) + TUBE_BURDEN * len(mix[0]) for t in places)
        for mix, r in reach.items()
        if any(t in r for t in places)
    }
    costs = np.array([*rows])
    better = [
        not any((np.array(costs) <= row).all(axis=1) & (np.array(costs) < row).any(axis=1))
        for row in costs
    ]
    costs = costs[better]
    for number in range(1, len(places) + 1):
        some = combinations(range(len(costs)), number)
        sums = [costs[list(rows)].min(axis=0).sum() for rows in some]
        if np.isfinite(min(sums)):
            return number, min(sums)
    raise AssertionError


def taken(plan: Plan, places: list[int]) -> float:
    """Return the sum of match and burden of the recipes taken."""
    samples = [plan.samples[t] for t in places]
    return sum(s.match + TUBE_BURDEN * len(s.recipe.tubes) for s in samples if s.recipe)


def places_of(plan: Plan, flower: str) -> list[int]:
    """Return the places of a flower's covered samples; none of them is bare paper."""
    found = [t for t, s in enumerate(plan.samples) if s.sample.flower == flower and s.covered]
    assert all(plan.samples[t].bare_paper > plan.scenario.tolerance for t in found)
    return found


@pytest.mark.parametrize("flower", FLOWERS)
def test_no_choice_of_mixes_is_fewer_or_nearer(
    asked: dict[Puddling, Answered], flower: str
) -> None:
    found = asked[Puddling.EACH_FLOWER]
    plan = found.plan
    places = places_of(plan, flower)
    number, least = fewest(reach_of(found), places)
    mixed = [puddle for puddle in plan.mixed.mixed if puddle.subject == flower]
    (told,) = [it for it in plan.mixed.fewest if it.subject == flower]
    assert len(mixed) == number == told.number == told.bound
    # Matches are summed in hundredths: each of the samples may round by half of one.
    assert taken(plan, places) == pytest.approx(least, abs=0.01 * len(places))


def test_the_sitting_takes_no_more_than_the_flowers_together_and_no_fewer_than_the_greatest(
    asked: dict[Puddling, Answered],
) -> None:
    plan = asked[Puddling.ONE_SITTING].plan
    alone = [it.number for it in plan.mixed.fewest]
    assert plan.mixed.sitting.proven
    assert max(alone) <= plan.mixed.sitting.number <= sum(alone)
    assert len(plan.mixed.mixed) == plan.mixed.sitting.number == plan.mixed.mixes
    assert {it.mixed.sitting.number for it in (a.plan for a in asked.values())} == {
        plan.mixed.sitting.number
    }


def test_every_covered_colour_has_one_puddle_that_is_its_recipe(
    asked: dict[Puddling, Answered],
) -> None:
    for found in asked.values():
        plan = found.plan
        for place, planned in enumerate(plan.samples):
            puddles = [puddle for puddle in plan.mixed.mixed if place in puddle.colours]
            if not planned.covered or planned.is_bare_paper:
                assert puddles == []
                continue
            (puddle,) = puddles
            assert planned.recipe is not None
            assert (puddle.tubes, puddle.parts) == (planned.recipe.tubes, planned.recipe.parts)
            assert planned.match <= plan.scenario.tolerance
            tubes = {planned.tube.id: planned.tube for planned in plan.tubes}
            lab = recipe_lab(planned.recipe, tubes, found.question.optics)
            assert delta_e_2000(lab, np.array(planned.sample.lab)) == pytest.approx(planned.match)


def test_the_choice_is_the_same_however_puddles_are_shared(
    asked: dict[Puddling, Answered],
) -> None:
    plans = [found.plan for found in asked.values()]
    assert len({(p.cost, p.coverage, tuple(t.tube.id for t in p.tubes)) for p in plans}) == 1
    nearest = asked[Puddling.EACH_COLOUR].plan
    for plan in plans:
        for planned, own in zip(plan.samples, nearest.samples, strict=True):
            if not planned.covered:  # what is out of reach has its nearest miss
                assert planned.recipe == own.recipe
    assert nearest.mixed.mixes > plans[0].mixed.mixes


def test_puddles_stand_from_light_to_dark(asked: dict[Puddling, Answered]) -> None:
    for found in asked.values():
        subjects = {puddle.subject for puddle in found.plan.mixed.mixed}
        for subject in subjects:
            own = [p for p in found.plan.mixed.mixed if p.subject == subject]
            assert [p.number for p in own] == list(range(1, len(own) + 1))
            palest = [max(found.plan.samples[t].mix_lab[0] for t in p.colours) for p in own]
            assert palest == sorted(palest, reverse=True)


def test_of_equally_few_puddles_those_go_first_that_do_without_what_fades(
    demo: Catalogue, scenario: MakeScenario
) -> None:
    """A crimson that fades and a magenta that lasts are at hand, and either makes the petals."""
    held = ("cool-crimson", "magenta", "soft-rose", "arylide-yellow", "green-leaning-blue")
    few = replace(demo, tubes={id_: demo.tubes[id_] for id_ in held})
    fading = {id_ for id_, tube in few.tubes.items() if tube.lightfastness.fades}
    used, counts = {}, {}
    for prefer in Prefer:
        asked = replace(scenario("peony, pink", wishes=Wishes(owned=held)), prefer=prefer)
        plan = shop(few, asked, cache=Cache())
        counts[prefer] = [one.number for one in plan.mixed.fewest]
        used[prefer] = {id_ for puddle in plan.mixed.mixed for id_ in puddle.tubes}
    assert counts[Prefer.LASTING] == counts[Prefer.CHEAPEST] == [2]
    assert used[Prefer.CHEAPEST] & fading == {"cool-crimson"}
    assert used[Prefer.LASTING] & fading == set()


def test_own_colours_are_one_subject_and_the_paper_needs_no_puddle(
    demo: Catalogue, scenario: MakeScenario
) -> None:
    few = replace(demo, tubes={id_: demo.tubes[id_] for id_ in ("soft-rose", "dioxazine-violet")})
    optics = optics_for(demo, "cotton-white", "D65", Cache())

    def rose(strength: float) -> tuple[float, float, float]:
        L, a, b = recipe_lab(Recipe(("soft-rose",), (1,), strength), few.tubes, optics).tolist()
        return (L, a, b)

    colours = (
        OwnColour("strong", lab=rose(1.0)),
        OwnColour("pale", lab=rose(0.25)),
        OwnColour("paper", lab=rose(0.0)),
    )
    plan = shop(few, scenario(own_colours=colours))
    assert plan.coverage == 1
    (told,) = plan.mixed.fewest
    assert (told.subject, told.own) == (OWN_COLOURS, True)
    assert told.proven
    assert plan.samples[2].is_bare_paper
    assert {puddle.subject for puddle in plan.mixed.mixed} == {OWN_COLOURS}
    (puddle,) = plan.mixed.mixed  # the rose alone, strongest wash first
    assert (puddle.tubes, puddle.colours) == (("soft-rose",), (0, 1))


def test_a_box_too_large_to_try_is_not_called_proven(
    demo: Catalogue, cache: Cache, scenario: MakeScenario
) -> None:
    owned = Wishes(owned=tuple(demo.tubes)[:30])
    plan = shop(demo, scenario("primrose", budget=100, wishes=owned), cache=cache)
    (told,) = plan.mixed.fewest
    assert told.bound == 1 <= told.number
    assert told.proven is (told.number == 1)


def test_the_steadiest_recipes_are_each_colours_own(
    demo: Catalogue, cache: Cache, scenario: MakeScenario
) -> None:
    asked = scenario("primrose", budget=900)
    trials = MonteCarlo(draws=20, choose=True, within=0)
    plan = shop(demo, asked, cache=cache, trials=trials)
    assert plan.mixed.puddling is Puddling.EACH_COLOUR
    told = shop(demo, asked, cache=cache, trials=MonteCarlo(draws=20, within=0))
    assert told.mixed.puddling is Puddling.EACH_FLOWER
    assert told.mixed.mixed == shop(demo, asked, cache=cache).mixed.mixed
    assert told.steadiness is not None
    assert told.steadiness.other_recipes == 0


def test_words_will_do_and_others_are_refused(
    demo: Catalogue, cache: Cache, scenario: MakeScenario
) -> None:
    asked = scenario("primrose", budget=900)
    word = "each colour"
    plan = shop(demo, asked, cache=cache, puddling=word)  # type: ignore[arg-type]
    assert plan.mixed.puddling is Puddling.EACH_COLOUR
    with pytest.raises(InputError, match="puddling: holds 'most'; it must be one of 'each flower'"):
        shop(demo, asked, cache=cache, puddling="most")  # type: ignore[arg-type]
