"""`plan.json` holds all of a plan: each field of each of its parts is changed in turn.

A field whose change leaves the text as it was is not written; then it must be listed below with
the reason why it is left out.
"""

from collections.abc import Iterator, Mapping
from dataclasses import fields, is_dataclass, replace
from decimal import Decimal
from enum import Enum
from typing import Any, get_args, get_type_hints

import numpy as np
import pytest
from tests.fitted_tables import likely_about
from tests.unchecked import unchecked

from fewtubes.catalogue.records import Hazard, Lightfastness, Role, Tube
from fewtubes.catalogue.sellers import Seller, SetPack, TubeSet
from fewtubes.mixing.opacity import Transparency
from fewtubes.report.json_values.plan import plan_json
from fewtubes.scenario.class_wish import ClassWish, TubesFor
from fewtubes.scenario.home_box import BoxAtHome
from fewtubes.scenario.own_flowers import OwnFlower, OwnSwatch
from fewtubes.scenario.picture_wish import PictureWish
from fewtubes.scenario.records import Wishes
from fewtubes.scenario.wanted import FlowerWish, OwnColour
from fewtubes.shopping.bought import Bought, BoughtPack, BoughtSet, Parcel, Surplus
from fewtubes.shopping.misses import Misses
from fewtubes.shopping.packs import Pack
from fewtubes.shopping.paint_plan import FewerPictures, PaintOfTube, PaintPlan
from fewtubes.shopping.plan import Plan
from fewtubes.shopping.plan_parts import MoreMoney, Nearer, TradeOff
from fewtubes.shopping.puddles import Addition
from fewtubes.shopping.steadiness import MonteCarlo, Rival, Spread, Steadiness

PAINT = "what the catalogue says of paint, not of this answer; the catalogue is named"

CURRENCY = "every price is in the plan's currency, which is written"

STOCK = "what there is more of at the seller is no part of the answer"

LEFT_OUT = {
    ("Caution", "short"): "the text, which is written, says more",
    ("LikelySpectra", "K"): PAINT,
    ("LikelySpectra", "S"): PAINT,
    ("Offer", "currency"): CURRENCY,
    ("Offer", "price_of_more"): "the price that was paid for each is written",
    ("Offer", "seller"): "packs are written under their seller",
    ("Offer", "stock"): STOCK,
    (
        "PaintOfTube",
        "price",
    ): "packs and sets are written with their prices; what is used is coarse",
    ("Pigment", "K"): PAINT,
    ("Pigment", "S"): PAINT,
    ("Pigment", "blue_wool"): PAINT,
    ("Pigment", "chemical_class"): PAINT,
    ("Pigment", "granulating"): PAINT,
    ("Pigment", "hazard_note"): "the cautions say in words what to take care of",
    ("Pigment", "id"): PAINT,
    ("Pigment", "staining"): PAINT,
    ("Plan", "names"): "the scenario is written with the ids of its tubes",
    ("Sample", "between"): "the name of a step says it",
    ("Seller", "currency"): CURRENCY,
    ("Seller", "note"): "what the price list says of a seller, not of this answer",
    ("Tube", "cm2_per_ml"): "what paint was reckoned with is written beside it",
    ("Tube", "offers"): "those that are bought are written as packs",
    ("Tube", "strength"): PAINT,
    ("TubeSet", "currency"): CURRENCY,
    ("TubeSet", "seller"): "sets are written under their seller",
    ("TubeSet", "stock"): STOCK,
}

Place = tuple[str, str]


@pytest.fixture
def whole(plan: Plan) -> Plan:
    """Return a plan in which no field is empty or None, so that each can be changed."""
    tubes = tuple(planned.tube for planned in plan.tubes)
    scenario = replace(
        plan.scenario,
        flowers=(
            FlowerWish("rose", 2.0, area_cm2=40.0),
            OwnFlower(
                "mine",
                (
                    OwnSwatch("bell", Role.PETAL, lab=(50.0, 20.0, 30.0)),
                    OwnSwatch("leaf", Role.LEAF, reflectance=np.full(36, 0.25)),
                ),
                area_cm2=30.0,
            ),
        ),
        own_colours=(
            OwnColour("screen", 1.0, lab=(1.0, 2.0, 3.0), area_cm2=5.0),
            OwnColour("measured", 0.5, reflectance=np.full(36, 0.5)),
        ),
        group=ClassWish(
            12,
            TubesFor.PANS,
            pictures=1,
            hazards_as_wished=True,
            pan_millilitres=2.0,
            levy=Decimal(3),
        ),
        budget=Decimal(36),
        wishes=Wishes(
            owned=("blue",),
            must_have=("gold",),
            never=("violet",),
            lightfastness_floor=Lightfastness.III,
            transparency_floor=Transparency.SEMI_OPAQUE,
            avoid_hazards=(Hazard.LEAD,),
            millilitres=5.0,
            thinnest_wash=0.1,
            most_in_mix=2,
            least_coverage=0.5,
            box=BoxAtHome({"white": 0.25}, title="tin", catalogue="my-paints"),
        ),
        picture=PictureWish(),
    )
    trade_off = TradeOff(
        Lightfastness.II,
        tubes[:1],
        0.6,
        True,
        spared_tubes=3,
        spared_cost=1250,
        spared_fading=1,
    )
    covered, missed, step = plan.samples
    spread = Spread(expected=0.5, standard_error=0.01, low=0.3, high=0.7)
    rival = Rival(tubes[:1], cost=1250, coverage=0.7, spread=spread, lead=0.1, lead_error=0.08)
    return replace(
        plan,
        scenario=scenario,
        names={"blue": "blue", "gold": "golden yellow"},
        tubes=tuple(
            replace(planned, tube=rich(planned.tube), left=0.5, runs_low=True, again=600)
            for planned in plan.tubes
        ),
        purchase=purchase_of(tubes),
        set_aside=tubes[2:],
        samples=(
            replace(covered, sample=replace(covered.sample, role=Role.PETAL), bare_paper=9.0),
            replace(
                missed,
                bare_paper=9.0,
                nearer=Nearer(tubes[0], cost=300, match=4.5),
                together=missed.remedies,
            ),
            replace(step, bare_paper=9.0),
        ),
        mixed=replace(
            plan.mixed,
            mixed=(replace(plan.mixed.mixed[0], addition=Addition(1, 3, "gold", 1)),),
        ),
        lightfastness=trade_off,
        opacity=replace(trade_off, worst=Transparency.OPAQUE),
        lasting=trade_off,
        paint=PaintPlan(
            picture=PictureWish(pictures=12),
            tubes=(
                PaintOfTube(rich(tubes[0]), ml=0.5, cm2_per_ml=200.0, bought_ml=5.0, price=600),
            ),
            cost=1250,
            fewer=FewerPictures(coverage=0.9, pictures=7),
        ),
        more_money=(MoreMoney(beyond=3, coverage=0.9, tubes=tubes[:1], proven=True),),
        misses=Misses(among=3, complete=False, mean=6.5, without_wish=7.5, extra_cost=360),
        steadiness=Steadiness(
            trials=MonteCarlo(),
            stays=(0.9, 0.1, 0.5),
            spread=spread,
            weighed=3,
            all_weighed=True,
            proven=True,
            rival=rival,
            taken=False,
            ranks_best=True,
            given_up=0.1,
            extra_cost=5,
            other_recipes=1,
        ),
    )


def purchase_of(tubes: tuple[Tube, ...]) -> Bought:
    """Return a purchase of one parcel in which no field is empty or None."""
    packs = (SetPack(tubes[0].id, 5.0, 1), SetPack(tubes[1].id, 2.5, 2))
    box = TubeSet("box", "a box", "post", 900, "EUR", packs, stock=3)
    offer = replace(tubes[0].offers[0], seller="post", stock=5, price_of_more=600)
    return Bought(
        (
            Parcel(
                Seller("post", "by post", 390, 3000, 600, "EUR", "on Mondays"),
                (BoughtPack(tubes[0], Pack(offer, 2), surplus=1, why=Surplus.LEAST_ORDER),),
                (BoughtSet(box, 1, used=tubes[:1], idle=((tubes[1], Surplus.OWNED),)),),
                delivery=390,
            ),
        )
    )


def rich(tube: Tube) -> Tube:
    """Return a tube whose pigment has every trade_off."""
    pigments = tuple(
        (
            replace(
                pigment,
                hazards=(Hazard.NICKEL,),
                hazard_note="a note",
                blue_wool=7,
                likely=likely_about(pigment),
            ),
            share,
        )
        for pigment, share in tube.pigments
    )
    return replace(tube, pigments=pigments, cm2_per_ml=250.0)


def other(leaf: Any) -> Any:
    """Return another value of the same kind."""
    if isinstance(leaf, Enum):
        return next(member for member in type(leaf) if member is not leaf)
    if isinstance(leaf, bool):
        return not leaf
    if isinstance(leaf, str):
        return f"{leaf}x"
    if isinstance(leaf, int):
        return leaf + 1
    if isinstance(leaf, Decimal):
        return leaf + Decimal("0.25")
    return leaf + 0.125  # exact in binary, and more than the decimals cut off


def changed(value: Any) -> Iterator[tuple[Place | None, Any]]:
    """Yield the value with one field in it changed, and where; a leaf has no place of its own."""
    if is_dataclass(value) and not isinstance(value, type):
        for field in fields(value):
            for place, new in changed(getattr(value, field.name)):
                own = (type(value).__name__, field.name)
                yield place or own, unchecked(value, **{field.name: new})
    elif isinstance(value, tuple):
        for number, item in enumerate(value):
            for place, new in changed(item):
                yield place, (*value[:number], new, *value[number + 1 :])
    elif isinstance(value, Mapping):
        for key, item in value.items():
            for place, new in changed(item):
                yield place, {**value, key: new}
    elif value is not None:
        yield None, other(value)


def parts_of(kind: Any) -> Iterator[type]:
    """Yield the dataclasses that a type hint names, at any depth."""
    if isinstance(kind, type) and is_dataclass(kind):
        yield kind
    for argument in get_args(kind):
        yield from parts_of(argument)


def all_parts(kind: type) -> set[type]:
    """Return a dataclass with all it is made of."""
    found, waiting = set[type](), [kind]
    while waiting:
        part = waiting.pop()
        if part not in found:
            found.add(part)
            hints = get_type_hints(part)
            waiting += [inner for field in fields(part) for inner in parts_of(hints[field.name])]
    return found


def test_every_field_is_written_or_left_out_for_a_reason(whole: Plan) -> None:
    text = plan_json(whole)
    every = {(part.__name__, field.name) for part in all_parts(Plan) for field in fields(part)}
    written = set[Place]()
    tried = set[Place]()
    for place, new in changed(whole):
        assert place is not None
        tried.add(place)
        if place not in written and plan_json(new) != text:
            written.add(place)
    # A field that holds parts is tried through them.
    hints = {part.__name__: get_type_hints(part) for part in all_parts(Plan)}
    leaves = {(part, name) for part, name in every if not list(parts_of(hints[part][name]))}
    assert leaves <= tried
    assert tried - written - set(LEFT_OUT) == set()
    assert set(LEFT_OUT) <= every
    assert all(LEFT_OUT.values())


def test_a_field_nobody_wrote_would_be_noticed(whole: Plan) -> None:
    """The walk reaches the fields that once were missing, and sees that they are written."""
    text = plan_json(whole)
    places = {place for place, new in changed(whole) if plan_json(new) != text}
    assert {("TradeOff", "spared_tubes"), ("TradeOff", "spared_cost"), ("Sample", "role")} <= places
    assert plan_json(replace(whole, lasting=None)) != text
