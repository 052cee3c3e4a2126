"""What holds for the answer to every scenario, whatever it is meant to show."""

import math
from collections.abc import Callable
from itertools import product
from pathlib import Path

import numpy as np
import pytest

from fewtubes.catalogue.records import Catalogue
from fewtubes.colour.difference import delta_e_2000
from fewtubes.coverage.cache import Cache
from fewtubes.coverage.optics import optics_for
from fewtubes.mixing.matching import recipe_lab
from fewtubes.mixing.opacity import Transparency
from fewtubes.scenario.reading import scenario_files
from fewtubes.scenario.records import Scenario
from fewtubes.selection.certificate import Status
from fewtubes.shopping.plan import Plan
from fewtubes.shopping.plan_parts import PlannedTube

NAMES = [path.stem for path in scenario_files(Path(__file__).parents[2] / "scenarios")]

LEAST_SCENARIOS = 7
"""So many settings were asked for."""

AnswerNamed = Callable[[str], Plan]

every_scenario = pytest.mark.parametrize("name", NAMES)


def test_there_are_enough() -> None:
    assert len(NAMES) >= LEAST_SCENARIOS


@every_scenario
def test_it_is_proven_best(name: str, plan_of: AnswerNamed) -> None:
    certificate = plan_of(name).certificate
    assert certificate.status is Status.PROVEN
    assert certificate.value == certificate.bound > 0


@every_scenario
def test_it_stays_within_budget_and_number(name: str, plan_of: AnswerNamed) -> None:
    plan = plan_of(name)
    packs = [one.pack for parcel in plan.purchase.parcels for one in parcel.packs]
    cost = sum(pack.offer.price * pack.count for pack in packs if not pack.offer.price_of_more)
    cost += sum(pack.cost for pack in packs if pack.offer.price_of_more)
    for parcel in plan.purchase.parcels:
        cost += sum(one.tube_set.price * one.count for one in parcel.sets) + parcel.delivery
    assert plan.cost == cost <= plan.scenario.budget_hundredths
    assert plan.scenario.most_tubes is None or len(plan.bought) <= plan.scenario.most_tubes


@every_scenario
def test_it_keeps_the_wishes(name: str, plan_of: AnswerNamed) -> None:
    plan = plan_of(name)
    wishes = plan.scenario.wishes
    bought = {planned.tube.id for planned in plan.bought}
    assert bought.isdisjoint(wishes.owned)
    assert bought >= set(wishes.must_have)
    for planned in plan.tubes:
        assert planned.tube.id not in wishes.never
        assert set(planned.tube.hazards).isdisjoint(wishes.avoid_hazards)
        assert planned.tube.lightfastness <= (wishes.lightfastness_floor or 5)
        assert planned.transparency <= (wishes.transparency_floor or Transparency.OPAQUE)
    assert plan.coverage >= wishes.least_coverage


@every_scenario
def test_every_pack_is_the_cheapest_way_to_the_paint_wanted(
    name: str, plan_of: AnswerNamed
) -> None:
    plan = plan_of(name)
    if plan.purchase.by_seller:
        pytest.skip("packs are bought with an eye to sets and deliveries")
    for planned in plan.bought:
        wanted_ml, tubes = wanted(plan.scenario)
        held_ml = sum(pack.offer.ml * pack.count for pack in planned.packs)
        assert held_ml >= wanted_ml
        assert sum(pack.count for pack in planned.packs) >= tubes
        assert planned.cost == cheapest(planned, wanted_ml, tubes)


def wanted(scenario: Scenario) -> tuple[float, int]:
    """Return the paint wanted of each tube [ml], and how many tubes of it, of a class for all."""
    each, group = scenario.wishes.millilitres, scenario.group
    if group is None or group.tubes == "shared":
        return each, 1
    if group.tubes == "one each":
        return each * group.painters, group.painters
    return max(each, group.painters * (group.pan_millilitres or 1.5)), 1  # as the README says


def cheapest(planned: PlannedTube, wanted_ml: float, tubes: int) -> int:
    """Return the least price of enough paint by trying all ways [hundredths of the currency]."""
    offers = planned.tube.offers
    most = [max(tubes, math.ceil(wanted_ml / offer.ml)) for offer in offers]
    counts = [count for count in product(*(range(n + 1) for n in most)) if any(count)]
    return min(
        sum(n * offer.price for n, offer in zip(count, offers, strict=True))
        for count in counts
        if sum(n * offer.ml for n, offer in zip(count, offers, strict=True)) >= wanted_ml
        and sum(count) >= tubes
    )


@every_scenario
def test_every_recipe_mixes_what_it_says_from_the_palette(
    name: str, plan_of: AnswerNamed, demo: Catalogue, memory: Cache
) -> None:
    plan = plan_of(name)
    optics = optics_for(demo, plan.scenario.paper, plan.scenario.light, memory)
    palette = {planned.tube.id for planned in plan.tubes}
    for planned in plan.samples:
        assert planned.recipe is not None
        assert palette.issuperset(planned.recipe.tubes)
        lab = recipe_lab(planned.recipe, demo.tubes, optics)
        match = float(delta_e_2000(lab, np.array(planned.sample.lab)))
        assert match == pytest.approx(planned.match, abs=1e-9)
        assert planned.covered == (match <= plan.scenario.tolerance)


@every_scenario
def test_coverage_is_the_covered_share_of_the_importance(name: str, plan_of: AnswerNamed) -> None:
    plan = plan_of(name)
    weights = np.array([planned.sample.weight for planned in plan.samples])
    covered = np.array([planned.covered for planned in plan.samples])
    assert plan.coverage == pytest.approx(weights[covered].sum() / weights.sum())


@every_scenario
def test_what_is_out_of_reach_has_a_reason(name: str, plan_of: AnswerNamed) -> None:
    for planned in plan_of(name).samples:
        assert (planned.obstacle is None) == planned.covered
