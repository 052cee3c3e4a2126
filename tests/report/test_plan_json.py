"""`plan.json`: its keys are pinned (schema 1), its values are those of the plan."""

import json
from dataclasses import replace
from decimal import Decimal
from typing import Any

import numpy as np

from fewtubes.catalogue.records import Role
from fewtubes.report.json_values.plan import SCHEMA, plan_json
from fewtubes.scenario.class_wish import ClassWish
from fewtubes.scenario.home_box import BoxAtHome
from fewtubes.scenario.own_flowers import OwnFlower, OwnSwatch
from fewtubes.scenario.records import Wishes
from fewtubes.scenario.wanted import FlowerWish, OwnColour
from fewtubes.shopping.misses import Misses
from fewtubes.shopping.plan import Plan
from fewtubes.shopping.plan_parts import MoreMoney, Nearer

KEYS = {
    "class share": "painters a_head a_head_together back_a_head owned tubes",
    "class tube": "id needed bought needed_ml bought_ml counted",
    "": "schema program catalogue scenario currency cost budget_left coverage tubes set_aside"
    " flowers samples puddles class paint lightfastness lasting opacity cautions certificate"
    " more_money equals_nearest_to_what_is_missed recipe_space",
    "scenario": "title shows currency budget most_tubes tolerance paper light prefer nearer"
    " flowers own_colours wishes class picture",
    "class": "painters pictures tubes pan_millilitres levy pupils hazards_as_wished",
    "wishes": "owned must_have never lightfastness transparency avoid_hazards millilitres"
    " thinnest_wash most_in_mix least_coverage box",
    "box": "title catalogue tubes",
    "boxed": "id left",
    "tubes": "id name pigments fitted lightfastness hazards owned packs cost contrast_ratio"
    " transparency white_filled mixes only_it_brings left runs_low again",
    "packs": "ml count price_each price",
    "pigments": "code name share",
    "flowers": "name importance coverage covered total",
    "samples": "flower name role step weight lab covered recipe match match_if_unsteady mix_lab"
    " bare_paper obstacle"
    " remedies nearer together puddle",
    "puddles": "shared_for mixed fewest one_sitting",
    "mixed": "flower own_colours number tubes mix_L samples addition",
    "fewest": "flower own_colours puddles bound proven",
    "one_sitting": "flower own_colours puddles bound proven",
    "nearer": "id cost match",
    "recipe": "tubes strength",
    "remedies": "id cost allowed",
    "lightfastness": "worst limited_by coverage_without coverage_without_proven"
    " tubes_without cost_without fading_without",
    "opacity": "worst limited_by coverage_without coverage_without_proven"
    " tubes_without cost_without fading_without",
    "cautions": "text tubes",
    "certificate": "status proven method value bound total importances_exact for_fitted_paints"
    " coverage_bound gap nodes seconds equal_palettes equal_palettes_complete",
    "more_money": "beyond_budget coverage tubes proven",
    "nearest": "equals proven mean_match mean_match_without_the_wish costs_more",
    "recipe_space": "recipes parts strengths tolerance one_of_each_paint",
}
"""Regression pin: whoever changes a key here asks whether the schema number must rise."""


def values(plan: Plan) -> dict[str, Any]:
    def refuse(constant: str) -> None:
        raise AssertionError(f"{constant} is not JSON")

    read: dict[str, Any] = json.loads(plan_json(plan), parse_constant=refuse)
    return read


MISSES = Misses(among=3, complete=True, mean=6.5, without_wish=7.5, extra_cost=360)


def test_the_keys_of_schema_1(plan: Plan) -> None:
    more = MoreMoney(beyond=3, coverage=1.0, tubes=(plan.tubes[0].tube,), proven=True)
    nearer = Nearer(plan.tubes[0].tube, cost=300, match=4.5)
    covered, missed_one, *rest = plan.samples
    samples = (covered, replace(missed_one, nearer=nearer), *rest)
    plan = replace(plan, more_money=(more,), samples=samples, misses=MISSES)
    wishes = Wishes(box=BoxAtHome(["blue"]))
    scenario = replace(plan.scenario, wishes=wishes, group=ClassWish(12))
    read = values(replace(plan, scenario=scenario))
    assert SCHEMA == 1
    tube, missed = read["tubes"][0], read["samples"][1]
    found = {
        "": read,
        "scenario": read["scenario"],
        "wishes": read["scenario"]["wishes"],
        "box": read["scenario"]["wishes"]["box"],
        "class": read["scenario"]["class"],
        "class share": read["class"],
        "class tube": read["class"]["tubes"][0],
        "boxed": read["scenario"]["wishes"]["box"]["tubes"][0],
        "tubes": tube,
        "packs": tube["packs"][0],
        "pigments": tube["pigments"][0],
        "flowers": read["flowers"][0],
        "samples": missed,
        "recipe": missed["recipe"],
        "puddles": read["puddles"],
        "mixed": read["puddles"]["mixed"][0],
        "fewest": read["puddles"]["fewest"][0],
        "one_sitting": read["puddles"]["one_sitting"],
        "remedies": missed["remedies"][0],
        "nearer": missed["nearer"],
        "lightfastness": read["lightfastness"],
        "opacity": read["opacity"],
        "cautions": read["cautions"][0],
        "certificate": read["certificate"],
        "more_money": read["more_money"][0],
        "nearest": read["equals_nearest_to_what_is_missed"],
        "recipe_space": read["recipe_space"],
    }
    assert {place: set(item) for place, item in found.items()} == {
        place: set(keys.split()) for place, keys in KEYS.items()
    }


def test_prices_are_decimals_that_add_up(plan: Plan) -> None:
    read = values(plan)
    packs = [pack for tube in read["tubes"] for pack in tube["packs"]]
    assert sum(Decimal(pack["price"]) for pack in packs) == Decimal(read["cost"]) == Decimal("19")
    assert Decimal(read["cost"]) + Decimal(read["budget_left"]) == Decimal("20")


def test_numbers_without_value_are_null(empty_plan: Plan) -> None:
    sample = values(empty_plan)["samples"][0]
    assert sample["match"] is None
    assert sample["match_if_unsteady"] is None
    assert sample["recipe"] is None
    assert values(empty_plan)["lightfastness"]["worst"] is None


def test_the_certificate_is_whole(plan: Plan) -> None:
    certificate = values(plan)["certificate"]
    assert certificate["proven"] is True
    assert (certificate["value"], certificate["total"]) == (7000, 10_000)
    assert certificate["coverage_bound"] == 0.7  # 7000 of 10,000


def test_own_colours_come_with_their_numbers(plan: Plan) -> None:
    colours = (
        OwnColour("hex", 1.0, lab=(1.0, 2.0, 3.0)),
        OwnColour("measured", 0.5, reflectance=np.linspace(0, 1, 36)),
    )
    scenario = replace(plan.scenario, own_colours=colours)
    first, second = values(replace(plan, scenario=scenario))["scenario"]["own_colours"]
    assert first["lab"] == [1, 2, 3]
    assert first["reflectance"] is None
    assert second["reflectance"][::35] == [0, 1]
    assert len(second["reflectance"]) == 36


def test_hostile_names_cannot_break_it(hostile: tuple[str, Plan]) -> None:
    name, plan = hostile
    shown = values(plan)["samples"][0]["name"]
    assert shown == name or "\\x1b" in shown or shown.endswith("…")
    plan_json(plan).encode("utf-8")


def test_the_same_plan_gives_the_same_text(plan: Plan) -> None:
    assert plan_json(plan) == plan_json(plan)
    assert plan_json(plan).endswith("}\n")


def test_own_flowers_come_with_their_colours(plan: Plan) -> None:
    flower = OwnFlower(
        "mine",
        (
            OwnSwatch("edge", Role.PETAL_LIGHT, lab=(1.0, 2.0, 3.0)),
            OwnSwatch("leaf", Role.LEAF, reflectance=np.full(36, 0.5), importance=0.5),
        ),
        importance=2,
    )
    scenario = replace(plan.scenario, flowers=(FlowerWish("foxglove"), flower))
    listed, own = values(replace(plan, scenario=scenario))["scenario"]["flowers"]
    assert listed == {"name": "foxglove", "importance": 1, "area_cm2": None, "swatches": None}
    assert (own["name"], own["importance"]) == ("mine", 2)
    assert own["swatches"] == [
        {
            "name": "edge",
            "role": "petal light",
            "importance": 2,
            "lab": [1, 2, 3],
            "reflectance": None,
        },
        {
            "name": "leaf",
            "role": "leaf",
            "importance": 0.5,
            "lab": None,
            "reflectance": [0.5] * 36,
        },
    ]
