"""What is told of paint: in the terminal, as a table, in JSON.

The plan of `conftest.py` with paint made up here: magenta 0.2 ml a picture of 10 ml (two packs of 5
for 13.00), gold 0.45 ml of 5 ml (6.00), of the owned blue 0.004 ml; twelve pictures.
Magenta lasts for 10 ÷ 0.2 = 50 pictures, gold for 5 ÷ 0.45 = 11.1.
Used up in one: 13.00 × 0.2 ÷ 10 = 0.26, and 6.00 × 0.45 ÷ 5 = 0.54; 0.80 together.
"""

import csv
import io
import json
from collections.abc import Callable
from dataclasses import replace
from typing import Any

import pytest
from tests.report.conftest import BLUE, GOLD, MAGENTA

from fewtubes.report.json_values.plan import plan_json
from fewtubes.report.plan_files import plan_files
from fewtubes.scenario.home_box import BoxAtHome
from fewtubes.scenario.picture_wish import PictureWish
from fewtubes.scenario.records import Wishes
from fewtubes.shopping.paint_plan import FewerPictures, PaintOfTube, PaintPlan
from fewtubes.shopping.plan import Plan

Printed = Callable[..., str]

PAINT = PaintPlan(
    picture=PictureWish(pictures=12),
    tubes=(
        PaintOfTube(MAGENTA, ml=0.2, cm2_per_ml=217.0, bought_ml=10.0, price=1300),
        PaintOfTube(GOLD, ml=0.45, cm2_per_ml=183.0, bought_ml=5.0, price=600),
        PaintOfTube(BLUE, ml=0.004, cm2_per_ml=200.0, bought_ml=0.0, price=0),
    ),
    cost=1900,
)


@pytest.fixture
def painted(plan: Plan) -> Plan:
    return replace(
        plan, paint=PAINT, scenario=replace(plan.scenario, picture=PictureWish(pictures=12))
    )


def flat(text: str) -> str:
    return " ".join(text.split())


@pytest.mark.parametrize("full", [False, True])
def test_the_terminal_tells_it(painted: Plan, printed: Printed, *, full: bool) -> None:
    text = printed(painted, width=100, full=full)
    told = text.partition("\nPaint\n")[2]
    assert "Paint is to be enough for 12 pictures." in flat(text)
    assert "50 % more is mixed than painted, and no puddle for less than 10 cm²" in flat(told)
    rows = [line.split("  ") for line in told.splitlines()]
    cells = [[cell.strip() for cell in row if cell.strip()] for row in rows]
    assert ["magenta", "about 0.2 ml", "about 2 ml", "10 ml", "about 50 pictures"] in cells
    # 5.4 ml do not fit into a pack of 5 ml, and the words do not say that they do.
    assert ["golden yellow", "about 0.4 ml", "just over 5 ml", "5 ml", "about 10 pictures"] in (
        cells
    )
    assert ["blue", "less than 0.01 ml", "about 0.05 ml", "your own", "not known"] in cells
    said = flat(told)
    assert "What is bought lasts for about 10 such pictures." in said
    # 19.00 ÷ 12 = 1.583
    assert "EUR 1.58 a picture as bought, EUR 19.00 in all, and about EUR 0.80 a picture" in said
    assert "right to a factor of two at best" in said
    assert "To be on the safe side, plan twice as many pictures." in said
    assert ("magenta: 5 ml for about 20, each about EUR 0.30." in said) is full


def test_a_narrow_terminal_tells_a_tube_below_the_other(painted: Plan, printed: Printed) -> None:
    text = flat(printed(painted, width=40, full=False))
    assert "a picture about 0.2 ml; 12 pictures about 2 ml; 10 ml; lasts for about 50" in text


def test_one_picture_is_told_without_a_share_of_it(painted: Plan, printed: Printed) -> None:
    one = replace(PAINT, picture=PictureWish(1))
    text = flat(printed(replace(painted, paint=one), full=False))
    assert "Paint costs EUR 19.00 as bought, and about EUR 0.80 a picture as used up." in text


def test_fewer_pictures_are_told(painted: Plan, printed: Printed) -> None:
    fewer = replace(PAINT, fewer=FewerPictures(coverage=0.9, pictures=7))
    text = flat(printed(replace(painted, paint=fewer), full=False))
    assert "if any pack would do, 90 % would be covered instead of 70 %" in text
    assert "enough of that paint can be bought for 7 such pictures." in text
    none = replace(PAINT, fewer=FewerPictures(coverage=0.9, pictures=0))
    text = flat(printed(replace(painted, paint=none), full=False))
    assert "can be bought for not one such picture." in text


@pytest.mark.parametrize("full", [False, True])
def test_without_pictures_nothing_is_told(plan: Plan, printed: Printed, *, full: bool) -> None:
    assert "\nPaint\n" not in printed(plan, full=full)
    assert "paint.csv" not in plan_files(plan)
    assert plan.paint_taken().empty
    assert json.loads(plan_json(plan))["paint"] is None


def test_the_table(painted: Plan) -> None:
    text = plan_files(painted)["paint.csv"]
    rows = [*csv.DictReader(io.StringIO(text))]
    assert [row["name"] for row in rows] == ["magenta", "golden yellow", "blue"]
    magenta, gold, blue = rows
    assert (magenta["ml_a_picture"], magenta["ml_planned"]) == ("0.2", "2.4")
    assert (gold["ml_bought"], gold["pictures"]) == ("5", "11")
    assert (gold["used_a_picture"], gold["currency"]) == ("0.54", "EUR")
    assert (blue["owned"], blue["ml_a_picture"], blue["pictures"]) == ("yes", "0.004", "")
    assert (magenta["cm2_per_ml"], magenta["guessed"]) == ("220", "yes")
    told = replace(PAINT.tubes[0], tube=replace(MAGENTA, cm2_per_ml=217.0))
    known = replace(painted, paint=replace(PAINT, tubes=(told, *PAINT.tubes[1:])))
    frame = known.paint_taken()
    assert (frame["cm2_per_ml"][0], bool(frame["guessed"][0])) == (217, False)


def test_json(painted: Plan) -> None:
    fewer = FewerPictures(coverage=0.9, pictures=7)
    read: dict[str, Any] = json.loads(
        plan_json(replace(painted, paint=replace(PAINT, fewer=fewer)))
    )["paint"]
    assert {key: read[key] for key in ("pictures", "waste", "lasts", "bought")} == {
        "pictures": 12,
        "waste": 0.5,
        "lasts": 11,
        "bought": "19.00",
    }
    assert (read["bought_a_picture"], read["used_a_picture"]) == ("1.58", "0.8")
    assert read["fewer"] == {"coverage": 0.9, "pictures": 7}
    assert read["tubes"][0] == {
        "id": "magenta",
        "ml_a_picture": 0.2,
        "ml_planned": 2.4,
        "ml_bought": 10,
        "lasts": 50,
        "used_a_picture": "0.26",
        "cm2_per_ml": 220,
        "cm2_per_ml_guessed": True,
    }
    assert read["tubes"][2]["lasts"] is None
    assert set(read) == {
        *("pictures", "waste", "least_puddle_cm2", "flower_cm2", "colour_cm2", "tubes", "lasts"),
        *("bought_a_picture", "bought", "used_a_picture", "fewer"),
    }, "regression pin, as for all of plan.json"


def test_an_idle_tube_lasts_for_any_number(painted: Plan, printed: Printed) -> None:
    idle = replace(PAINT, tubes=(replace(PAINT.tubes[0], ml=0.0), *PAINT.tubes[1:]))
    text = printed(replace(painted, paint=idle), width=100, full=False)
    assert "any number" in text
    assert json.loads(plan_json(replace(painted, paint=idle)))["paint"]["tubes"][0]["lasts"] is None


def test_what_is_short_at_home_is_told(painted: Plan, printed: Printed) -> None:
    """Half of the smallest pack, 2.5 ml, of which twelve pictures would take 12 × 0.3 = 3.6."""
    blue = replace(painted.tubes[2], left=0.5, runs_low=True, again=650)
    scenario = replace(painted.scenario, wishes=Wishes(box=BoxAtHome({"blue": 0.5})))
    paint = replace(PAINT, tubes=(*PAINT.tubes[:2], replace(PAINT.tubes[2], ml=0.3)))
    plan = replace(painted, tubes=(*painted.tubes[:2], blue), scenario=scenario, paint=paint)
    text = flat(printed(plan, full=False))
    assert "half full, maybe less than the about 4 ml that the pictures take" in text
    assert "What runs low is used like a full tube, and buying it again is in neither" in text
    assert "not reckoned" not in text
    without = flat(printed(replace(plan, paint=None), full=False))
    assert "How much paint a mix takes is not reckoned, so what runs low is used like a" in without
