"""Every scenario's answer really shows what its text `shows` says.

Numbers below repeat those of the texts; the rest are properties, not pins.
"""

from collections.abc import Callable
from dataclasses import replace
from decimal import Decimal
from pathlib import Path

import numpy as np
import pytest

from fewtubes.catalogue.price_list import with_prices
from fewtubes.catalogue.records import Catalogue, Lightfastness, Role
from fewtubes.colour.difference import delta_e_2000
from fewtubes.coverage.cache import Cache
from fewtubes.coverage.optics import optics_for
from fewtubes.mixing.covering_power import covering_power
from fewtubes.mixing.matching import best_matches, recipe_lab
from fewtubes.mixing.opacity import Transparency
from fewtubes.mixing.recipes import Recipe, RecipeSpace
from fewtubes.scenario.class_wish import Pupils
from fewtubes.scenario.overrides import with_overrides
from fewtubes.scenario.records import Scenario
from fewtubes.selection.certificate import Status
from fewtubes.shopping.plan import Plan
from fewtubes.shopping.plan_parts import Obstacle, PlannedSample, PlannedTube
from fewtubes.shopping.shop import shop

SCENARIOS = Path(__file__).parents[2] / "scenarios"

ReadScenario = Callable[[str], Scenario]
Answer = Callable[[Scenario], Plan]
AnswerNamed = Callable[[str], Plan]


def sample_of(plan: Plan, flower: str, swatch: str) -> PlannedSample:
    """Return one sample of a plan."""
    (found,) = [p for p in plan.samples if (p.sample.flower, p.sample.name) == (flower, swatch)]
    return found


def out_of_reach(plan: Plan) -> list[PlannedSample]:
    """Return the samples that are not covered."""
    return [planned for planned in plan.samples if not planned.covered]


def kinds(plan: Plan) -> list[str]:
    """Return the letters of the Colour Index names of the tubes bought, sorted, e.g. PY."""
    codes = [pigment.code for planned in plan.bought for pigment, _ in planned.tube.pigments]
    return sorted(code.rstrip("0123456789:") for code in codes)


def hue(lab: np.ndarray[tuple[int], np.dtype[np.float64]]) -> float:
    """Return the hue angle of CIELAB [°], 0–360."""
    return float(np.degrees(np.arctan2(lab[2], lab[1])) % 360)


def holds_white(planned: PlannedTube) -> bool:
    return any(pigment.code.startswith("PW") for pigment, _ in planned.tube.pigments)


def test_first_set_is_a_yellow_a_red_a_violet_and_a_green_leaning_blue(
    plan_of: AnswerNamed, demo: Catalogue, memory: Cache
) -> None:
    plan = plan_of("first-set")
    assert plan.scenario.budget_hundredths == 12_00
    assert len(plan.bought) == 4
    optics = optics_for(demo, plan.scenario.paper, plan.scenario.light, memory)
    hues = {
        planned.tube.id: hue(recipe_lab(Recipe((planned.tube.id,), (1,), 0.25), demo.tubes, optics))
        for planned in plan.bought
    }
    # 270° is the hue of a blue that leans neither way: −b* alone.
    ranges = ((0, 50), (75, 105), (220, 270), (290, 330))
    for value, (low, high) in zip(sorted(hues.values()), ranges, strict=True):
        assert low <= value <= high, hues
    (violet,) = [p for p in plan.bought if len(p.tube.pigments) > 1]  # "ready-mixed"
    assert hues[violet.tube.id] == max(hues.values())
    assert plan.coverage == pytest.approx(0.9, abs=0.03)  # "nine tenths"


def test_first_set_names_tubes_for_everything_that_is_missing(plan_of: AnswerNamed) -> None:
    missing = out_of_reach(plan_of("first-set"))
    flowers_roles = [(planned.sample.flower, planned.sample.role) for planned in missing]
    # "The depths of the red rose, a leaf and two leaf shadows"
    assert {role for flower, role in flowers_roles if flower == "rose, red"} == {
        Role.PETAL_SHADE,
        Role.CENTRE,
        Role.LEAF_SHADE,
    }
    roles = [role for _, role in flowers_roles]
    assert (roles.count(Role.LEAF), roles.count(Role.LEAF_SHADE), len(roles)) == (1, 2, 5)
    assert all(planned.remedies for planned in missing)


def test_cottage_border_is_done_with_five_lasting_tubes(plan_of: AnswerNamed) -> None:
    plan = plan_of("cottage-border")
    assert (len(plan.flowers), len(plan.samples), len(plan.bought)) == (12, 93, 5)
    assert all(p.tube.lightfastness <= Lightfastness.II for p in plan.tubes)
    assert [planned.sample.role for planned in out_of_reach(plan)] == [Role.LEAF_SHADE]


def test_class_kit_holds_no_hazard(plan_of: AnswerNamed, demo: Catalogue) -> None:
    plan = plan_of("class-kit")
    assert len(plan.bought) == 6
    assert not any(
        pigment.hazards for planned in plan.bought for pigment, _ in planned.tube.pigments
    )
    # The wish has something to do: cadmium and other hazards are on offer.
    assert sum(bool(tube.hazards) for tube in demo.tubes.values()) > 10


def test_class_kit_buys_two_packs_where_none_is_large_enough(plan_of: AnswerNamed) -> None:
    packs = [planned.packs for planned in plan_of("class-kit").bought]
    assert any(pack.count == 2 and pack.offer.ml < 15 for some in packs for pack in some)
    assert any(pack.count == 1 and pack.offer.ml == 15 for some in packs for pack in some)


def test_exhibition_rules_out_the_fugitive_pink(plan_of: AnswerNamed) -> None:
    plan = plan_of("exhibition")
    assert all(p.tube.lightfastness <= Lightfastness.II for p in plan.tubes)
    edge = sample_of(plan, "petunia, neon pink", "light edge")
    assert edge.obstacle is Obstacle.WISHES
    (remedy,) = edge.remedies  # "a vivid pink"
    assert not remedy.allowed
    assert remedy.tube.id == "vivid-pink"
    assert remedy.tube.lightfastness is Lightfastness.V


def test_exhibition_cannot_reach_the_glowing_petal(plan_of: AnswerNamed) -> None:
    glow = sample_of(plan_of("exhibition"), "petunia, neon pink", "glowing petal")
    assert glow.obstacle is Obstacle.CATALOGUE
    assert glow.remedies == ()


def test_half_owned_box_sets_the_fading_crimson_aside(plan_of: AnswerNamed) -> None:
    plan = plan_of("half-owned-box")
    assert [tube.id for tube in plan.set_aside] == ["cool-crimson"]
    assert plan.set_aside[0].lightfastness > Lightfastness.II


def test_half_owned_box_uses_what_is_there_and_buys_none_of_it_again(plan_of: AnswerNamed) -> None:
    plan = plan_of("half-owned-box")
    owned = [planned for planned in plan.tubes if planned.owned]
    assert len(owned) == len(plan.scenario.wishes.owned) - 1
    assert all(planned.cost == 0 and planned.recipes > 0 for planned in owned)
    have = {pigment.code for planned in owned for pigment, _ in planned.tube.pigments}
    new = {pigment.code for planned in plan.bought for pigment, _ in planned.tube.pigments}
    assert have.isdisjoint(new)
    assert len(plan.bought) == 3
    assert plan.coverage == 1.0  # "all the rest"


def test_small_purse_names_tubes_that_really_bring_the_pinks(
    plan_of: AnswerNamed, demo: Catalogue, memory: Cache
) -> None:
    plan = plan_of("small-purse")
    assert kinds(plan) == ["PB", "PV", "PY"]  # quinacridone rose bears a violet's code, PV19
    optics = optics_for(demo, plan.scenario.paper, plan.scenario.light, memory)
    palette = [planned.tube for planned in plan.tubes]
    for swatch in ("petal shadow", "mouth"):
        pink = sample_of(plan, "cyclamen", swatch)
        assert pink.obstacle is Obstacle.BUDGET
        assert pink.remedies
        for remedy in pink.remedies:
            assert remedy.cost > plan.scenario.budget_hundredths - plan.cost
            ((best,),) = best_matches(
                {tube.id: tube for tube in (*palette, remedy.tube)},
                np.array([pink.sample.lab]),
                optics=optics,
                space=RecipeSpace(),
                tolerance=plan.scenario.tolerance,
            )
            assert best.difference <= plan.scenario.tolerance


def test_small_purse_leaves_the_darkest_greens(plan_of: AnswerNamed) -> None:
    greens = [p for p in out_of_reach(plan_of("small-purse")) if p.sample.role is Role.LEAF_SHADE]
    assert greens


def test_white_filled_pink_is_wanted_only_where_washes_are_thick(
    plan_of: AnswerNamed, scenario_of: ReadScenario, answer: Answer
) -> None:
    thick = plan_of("pale-petals-laid-thick")
    white_filled = [planned for planned in thick.bought if planned.white_filled]
    assert [planned.tube.id for planned in white_filled] == ["pale-pink"]
    assert white_filled[0].recipes > 0
    assert any(planned.tube.id == "titanium-white" for planned in thick.bought)
    assert all(p.recipe is not None and p.recipe.strength >= 0.5 for p in thick.samples)
    scenario = scenario_of("pale-petals-laid-thick")
    thin = answer(replace(scenario, wishes=replace(scenario.wishes, thinnest_wash=0.0)))
    assert thin.coverage == thick.coverage == 1.0
    assert len(thin.bought) == 4
    assert not any(holds_white(planned) for planned in thin.tubes)
    assert all(planned.transparency <= Transparency.SEMI_TRANSPARENT for planned in thin.tubes)


def test_a_box_and_one_tube_more_beat_tubes_bought_singly(
    plan_of: AnswerNamed, scenario_of: ReadScenario, demo: Catalogue, memory: Cache
) -> None:
    plan, first_set = plan_of("box-or-parcel"), scenario_of("first-set")
    assert plan.scenario.flowers == first_set.flowers  # "the five flowers of the first set"
    (parcel,) = plan.purchase.parcels
    assert parcel.seller is not None
    assert (parcel.seller.name, plan.purchase.deliveries) == ("corner shop", 0)
    (box,), (single,) = parcel.sets, parcel.packs
    assert (len(box.used), len(box.idle), single.pack.count) == (5, 1, 1)
    assert [pack.ml for pack in box.tube_set.packs] == [1.5] * 6  # half pans
    priced = with_prices(demo, SCENARIOS / plan.scenario.prices)
    assert len(priced.sellers) == 4
    singly = shop(replace(priced, sets={}), plan.scenario, cache=memory)
    assert singly.certificate.status is Status.PROVEN
    assert singly.coverage < plan.coverage
    assert singly.purchase.deliveries == 390


def test_own_flowers_come_whole_and_in_all_ways(
    plan_of: AnswerNamed, scenario_of: ReadScenario, demo: Catalogue
) -> None:
    scenario = scenario_of("own-flowers")
    columbine, poppy = scenario.own_flowers
    assert scenario.flowers == scenario.own_flowers
    assert not {columbine.name, poppy.name} & set(demo.flowers)  # "that no catalogue has"
    assert [swatch.reflectance is None for swatch in poppy.swatches] == [True] * 4 + [False]
    plan = plan_of("own-flowers")
    steps = {p.sample.between for p in plan.samples if p.sample.flower == columbine.name} - {None}
    # "the columbine's violet ones and its yellow ones each in itself"
    assert steps == {
        ("outer petal's edge", "outer petal"),
        ("outer petal", "spur"),
        ("inner petal", "inner petal's fold"),
    }
    # "Four tubes that last paint all of both."
    assert (len(plan.bought), plan.coverage) == (4, 1.0)
    assert all(planned.tube.lightfastness <= Lightfastness.II for planned in plan.tubes)


def test_own_colours_come_in_all_three_ways(
    plan_of: AnswerNamed, scenario_of: ReadScenario
) -> None:
    own = scenario_of("own-colours").own_colours
    assert {colour.lab is None for colour in own} == {True, False}
    plan = plan_of("own-colours")
    named = [planned for planned in plan.samples if planned.sample.flower in {c.name for c in own}]
    assert [p.sample.flower for p in named if not p.covered] == ["glowing sign"]
    assert sample_of(plan, "glowing sign", "own colour").obstacle is Obstacle.CATALOGUE


def test_lamplight_plan_would_miss_by_daylight(
    plan_of: AnswerNamed, demo: Catalogue, memory: Cache
) -> None:
    plan = plan_of("evening-lamp")
    assert plan.scenario.light == "A"
    day = optics_for(demo, plan.scenario.paper, "D65", memory)
    missed = [
        planned
        for planned in plan.samples
        if planned.covered
        and planned.recipe is not None
        and float(
            delta_e_2000(recipe_lab(planned.recipe, demo.tubes, day), np.array(planned.sample.lab))
        )
        > plan.scenario.tolerance
    ]
    assert missed


def test_evening_lamp_must_have_matters(
    plan_of: AnswerNamed, scenario_of: ReadScenario, answer: Answer
) -> None:
    plan = plan_of("evening-lamp")
    assert "ultramarine" in {planned.tube.id for planned in plan.bought}
    scenario = scenario_of("evening-lamp")
    free = answer(replace(scenario, wishes=replace(scenario.wishes, must_have=(), never=())))
    assert free.coverage >= plan.coverage
    assert (len(free.bought), free.cost) < (len(plan.bought), plan.cost)


def test_more_money_never_covers_less(
    scenario_of: ReadScenario, answer: Answer, demo: Catalogue
) -> None:
    coverages = [
        answer(with_overrides(scenario_of("small-purse"), catalogue=demo, budget=budget)).coverage
        for budget in map(Decimal, ("5.00", "8.00", "12.00", "20.00"))
    ]
    assert coverages == sorted(coverages)
    assert coverages[0] < coverages[-1]


def test_twenty_cards_take_a_yellow_that_goes_further(
    plan_of: AnswerNamed, scenario_of: ReadScenario, answer: Answer, demo: Catalogue
) -> None:
    plan = plan_of("twenty-cards")
    any_pack = answer(replace(scenario_of("twenty-cards"), picture=None))
    (middle,) = [it for it in any_pack.bought if it.tube.id == "arylide-yellow"]
    assert [pack.offer.ml for pack in middle.packs] == [5]
    assert "arylide-yellow" not in {it.tube.id for it in plan.bought}
    (nickel,) = [it for it in plan.bought if it.tube.id == "nickel-yellow"]
    assert [pack.offer.ml for pack in nickel.packs] == [5]
    large = next(offer for offer in middle.tube.offers if offer.ml == 15)
    assert nickel.cost < large.price < 2 * nickel.cost
    assert covering_power(nickel.tube) > covering_power(middle.tube)
    # What the palette of any pack would take of the middle yellow, by the same plan, one picture.
    one = with_overrides(scenario_of("twenty-cards"), catalogue=demo, paint_for=1)
    paint = answer(one).paint
    assert paint is not None
    assert 20 * paint.planned_ml("arylide-yellow") > 5
    assert (any_pack.coverage, plan.coverage) == (1, 1)


def test_the_village_class_has_a_tube_of_each_paint_for_everybody(plan_of: AnswerNamed) -> None:
    """12 × EUR 12 = EUR 144 pay for it."""
    plan = plan_of("village-class")
    share = plan.class_share
    assert share is not None
    assert plan.scenario.budget_hundredths == 144_00
    assert {tube.bought for tube in share.tubes} == {12}
    assert share.a_head <= 12_00
    assert 0 <= share.together - plan.cost < 12  # rounded up by less than a hundredth a head
    assert not any(planned.tube.hazards for planned in plan.tubes)
    assert plan.coverage > 0.9


def test_children_at_school_mix_two_tubes_and_fill_pans(
    plan_of: AnswerNamed, answer: Answer
) -> None:
    """24 × 1.5 ml = 36 ml of each."""
    plan = plan_of("children-at-school")
    share = plan.class_share
    assert share is not None
    assert all(tube.needed_ml == 36 <= tube.bought_ml for tube in share.tubes)
    assert share.a_head <= 3_00
    mixes = [planned.recipe.tubes for planned in plan.samples if planned.recipe is not None]
    assert max(map(len, mixes)) == 2
    assert not any(planned.tube.hazards for planned in plan.tubes)
    assert any(planned.sample.role is Role.LEAF for planned in out_of_reach(plan))
    group = plan.scenario.group
    assert group is not None
    others = replace(
        plan.scenario,
        group=replace(group, pupils=Pupils.BEGINNERS),
        wishes=replace(plan.scenario.wishes, most_in_mix=3),
    )
    assert answer(others).coverage > plan.coverage
