"""The shopping list by seller: grouped, summed, and honest about what lies idle."""

import io
import json
from collections.abc import Callable
from dataclasses import replace
from decimal import Decimal

import pandas as pd
import pytest
from tests.report.conftest import BLUE, GOLD, MAGENTA, VIOLET, Printed
from tests.report.test_why_text import make_why, printed_why

from fewtubes.catalogue.sellers import Seller, SetPack, TubeSet
from fewtubes.report.json_values.plan import plan_json
from fewtubes.report.sentences.purchase import (
    bought_at_words,
    delivery_aside,
    idle_words,
    tube_price_words,
)
from fewtubes.shopping.bought import Bought, BoughtPack, BoughtSet, Parcel, Surplus
from fewtubes.shopping.packs import Pack
from fewtubes.shopping.plan import Plan
from fewtubes.shopping.plan_tables import palette, shopping_list

POST = Seller("post", "by post, north", 390, 3000, 500, "EUR")
STALL = Seller("stall", "market stall", 250, 400, 0, "EUR")

BOX = TubeSet(
    "box",
    "box of three",
    "stall",
    700,
    "EUR",
    (SetPack("gold", 2.0, 1), SetPack("violet", 2.0, 1), SetPack("blue", 2.0, 1)),
)


@pytest.fixture
def grouped(plan: Plan) -> Plan:
    """Return a plan bought of two sellers.

    By post 2 × 6.50 + 3.90 = 16.90, at the stall 7.00, delivered free: 23.90 in all.
    """
    magenta, gold, blue = plan.tubes
    box = BoughtSet(BOX, 1, (GOLD,), ((VIOLET, Surplus.NO_USE), (BLUE, Surplus.OWNED)))
    packs = (Pack(MAGENTA.offers[0], 2),)
    least = BoughtPack(MAGENTA, packs[0], surplus=1, why=Surplus.LEAST_ORDER)
    purchase = Bought((Parcel(STALL, (), (box,), 0), Parcel(POST, (least,), (), 390)))
    tubes = (replace(magenta, packs=packs), replace(gold, packs=(), sets=(box,)), blue)
    scenario = replace(plan.scenario, budget=Decimal(24))
    return replace(plan, scenario=scenario, tubes=tubes, purchase=purchase, cost=2390)


def rows(plan: Plan) -> pd.DataFrame:
    text = shopping_list(plan).csv_text()
    return pd.read_csv(io.StringIO(text, newline=""), keep_default_na=False, dtype=str)


def test_prices_of_the_file_are_what_leaves_the_purse(grouped: Plan) -> None:
    frame = rows(grouped)
    assert sum(Decimal(price) for price in frame["price"] if price) == Decimal("23.90")
    assert list(frame["row"]) == [
        "set",
        *["in the set"] * 3,
        "delivery",
        "pack",
        "delivery",
    ]
    by_seller = frame.groupby("seller")["seller_total"].unique()
    assert list(by_seller["market stall"]) == ["7.00"]
    assert list(by_seller["by post, north"]) == ["16.90"]
    assert list(frame["needed"]) == ["", "yes", "no", "no", "", "yes", ""]
    assert list(frame.loc[frame["why"] != "", "why"]) == [
        "the palette has no use for it",
        "you have it already",
        "it meets the least order",
    ]
    assert list(frame["set"][:4]) == ["box"] * 4


def test_the_frame_is_the_same(grouped: Plan) -> None:
    frame = grouped.shopping_list()
    assert round(float(frame["price"].sum()), 2) == 23.90
    assert set(frame["row"]) == {"set", "in the set", "delivery", "pack"}
    meanings = frame.attrs["meanings"]
    assert "delivery included" in meanings["seller_total"]


def test_without_sellers_the_file_is_as_it_was(plan: Plan) -> None:
    assert list(rows(plan).columns) == [
        "name",
        "pigments",
        "ml",
        "packs",
        "price_each",
        "price",
        "currency",
        "lightfastness",
        "transparency",
        "hazards",
        "mixes",
        "only_it_brings",
        "tube",
    ]


def test_a_tube_in_a_set_has_no_price_of_its_own(grouped: Plan) -> None:
    assert palette(grouped).frame().set_index("tube").loc["gold", "price"] == 0
    magenta, gold, _ = grouped.tubes
    assert tube_price_words(gold, "EUR") == "in box of three"
    assert tube_price_words(magenta, "EUR") == "EUR 13.00"


def test_a_tube_is_told_with_who_sells_it(grouped: Plan, plan: Plan) -> None:
    """As a tube in the place of another is; where sellers are not told apart by price alone."""
    magenta, gold, _ = grouped.tubes
    assert bought_at_words(magenta, grouped) == "by post, north; EUR 13.00"
    assert bought_at_words(gold, grouped) == "market stall, in box of three"
    for planned in plan.bought:
        assert bought_at_words(planned, plan) == tube_price_words(planned, "EUR")


@pytest.mark.parametrize("full", [True, False])
def test_what_hangs_on_a_tube_is_headed_with_who_sells_it(grouped: Plan, *, full: bool) -> None:
    reasons = make_why(grouped)
    told = printed_why(replace(reasons, plan=grouped), full=full)
    assert "magenta (by post, north; EUR 13.00)" in " ".join(told.split())


@pytest.mark.parametrize("full", [True, False])
@pytest.mark.parametrize("width", [120, 80, 50])
def test_the_list_is_grouped_by_seller_with_sums(
    grouped: Plan, printed: Printed, flat: Callable[[str], str], width: int, full: bool
) -> None:
    text = printed(grouped, width=width, full=full)
    told = flat(text)
    assert "EUR 23.90, EUR 3.90 of it for delivery" in told
    places = [
        text.index(word)
        for word in ("market stall", "box of three", "by post, north", "magenta\n", "total")
        if word in text
    ]
    assert places == sorted(places)
    assert "7.00" in told
    assert "3.90" in told
    assert "free from" in told
    assert (
        "Box of three also holds deep violet (this palette has no use for it) and blue (you have it"
        " already: second one)." in told
    )
    least = "1 of the 2 packs of magenta is bought because by post, north sells nothing below EUR"
    assert f"{least} 5.00." in told
    assert "Every price is what leaves the purse, delivery included" in told


def test_goods_and_delivery_stand_below_each_other(grouped: Plan, printed: Printed) -> None:
    lines = [" ".join(line.split()) for line in printed(grouped, full=False).splitlines()]
    start = lines.index("by post, north")
    ends = [line.rpartition(" ")[2] for line in lines[start + 1 : start + 5]]
    assert ends == ["13.00", "13.00", "3.90", "23.90"]
    assert lines[start + 2 : start + 4] == ["goods 13.00", "delivery (free from 30.00) 3.90"]


def test_what_is_delivered_free_costs_nothing(grouped: Plan, printed: Printed) -> None:
    lines = [" ".join(line.split()) for line in printed(grouped, full=False).splitlines()]
    assert "delivery (free from 4.00) 0.00" in lines


def test_why_a_delivery_is_free(grouped: Plan) -> None:
    stall, post = grouped.purchase.parcels
    (pack,) = post.packs
    idle = replace(pack.tube, id="of-no-use")
    free = replace(pack, tube=idle, surplus=2, why=Surplus.FREE_DELIVERY)
    other = replace(grouped, purchase=Bought((stall, replace(post, packs=(free,), delivery=0))))
    assert [*idle_words(other)][1] == (
        "2 packs of magenta, in no mix of this plan, are bought because the goods then come to EUR"
        " 30.00, from which the delivery (EUR 3.90) is free."
    )
    assert delivery_aside(other) == ""


def test_a_pack_too_many_of_a_tube_in_use_is_not_called_idle(grouped: Plan) -> None:
    """A tube of the palette may be had elsewhere, in a set, say, and once more for a sum."""
    stall, post = grouped.purchase.parcels
    (pack,) = post.packs
    used = replace(pack, tube=grouped.bought[0].tube, surplus=2, why=Surplus.LEAST_ORDER)
    other = replace(grouped, purchase=Bought((stall, replace(post, packs=(used,)))))
    said = [*idle_words(other)][1]
    assert "of which enough is bought without, are bought because by post, north sells" in said
    assert "in no mix" not in said


def test_several_deliveries_are_counted(grouped: Plan) -> None:
    stall, post = grouped.purchase.parcels
    other = replace(grouped, purchase=Bought((replace(stall, delivery=250), post)))
    assert delivery_aside(other) == ", EUR 6.40 of it for 2 deliveries"


def test_plan_json_tells_the_purchase(grouped: Plan, plan: Plan) -> None:
    told = json.loads(plan_json(grouped))
    sellers = told["purchase"]["sellers"]
    sums = [Decimal(one["goods"]) + Decimal(one["delivery"]) for one in sellers]
    assert sum(sums) == Decimal(told["cost"]) == Decimal("23.90")
    assert told["purchase"]["deliveries"] == "3.90"
    assert [one["seller"] for one in sellers] == ["market stall", "by post, north"]
    (box,) = sellers[0]["sets"]
    assert [held["why_not_needed"] for held in box["holds"]] == [
        None,
        "the palette has no use for it",
        "you have it already",
    ]
    assert told["tubes"][1]["sets"] == ["box"]
    assert "purchase" not in json.loads(plan_json(plan))
