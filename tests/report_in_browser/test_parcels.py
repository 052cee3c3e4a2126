"""A shopping list by seller, a class and planned pictures, as a browser shows and prints them."""

from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest
from tests.report_in_browser.test_page import AXE_TAGS, PHONE, axe_script

from fewtubes.catalogue.reading import read_catalogue
from fewtubes.catalogue.records import Offer
from fewtubes.catalogue.sellers import Seller, SetPack, TubeSet
from fewtubes.coverage.cache import Cache
from fewtubes.coverage.optics import optics_for
from fewtubes.report.illustrated.page import illustrated_report
from fewtubes.scenario.class_wish import ClassWish, Pupils, TubesFor
from fewtubes.scenario.records import Scenario, Wishes
from fewtubes.shopping.shop import Limits, shop

STALL = Seller("stall", "the stall at the corner of the market", 0, None, 0, "EUR")
POST = Seller("post", "by post", 390, 9000, 500, "EUR")
OFFERS = {
    "ultramarine": (Offer(5, 310, "EUR", "stall"),),
    "lemon": (Offer(5, 450, "EUR", "post"),),
    "magenta": (Offer(5, 620, "EUR", "post"),),
    "yellow-ochre": (),
}
HALF_PANS = (SetPack("magenta", 5, 1), SetPack("yellow-ochre", 1.5, 2))
PAIR = TubeSet("pair", "a pair with a name that runs on", "post", 600, "EUR", HALF_PANS)
MUST_HAVE = ("ultramarine", "lemon", "magenta")


@pytest.fixture(scope="module")
def list_file(browser: Any, tmp_path_factory: pytest.TempPathFactory, shared_cache: Cache) -> Path:
    """Write the report for three who share the tubes of two sellers, one of a set idle."""
    demo = read_catalogue()
    tubes = {id_: replace(demo.tubes[id_], offers=offers) for id_, offers in OFFERS.items()}
    catalogue = replace(
        demo, tubes=tubes, sellers={"stall": STALL, "post": POST}, sets={"pair": PAIR}
    )
    scenario = Scenario(
        budget=60,
        currency="EUR",
        flowers=["primrose"],
        wishes=Wishes(must_have=MUST_HAVE, never=("yellow-ochre",)),
        group=ClassWish(3, TubesFor.SHARED, Pupils.GROWN_UPS, pictures=2),
    )
    plan = shop(catalogue, scenario, limits=Limits(seconds=10), cache=shared_cache)
    optics = optics_for(catalogue, scenario.paper, scenario.light, shared_cache)
    target = tmp_path_factory.mktemp("list") / "list.html"
    target.write_text(illustrated_report(plan, optics), encoding="utf-8")
    return target


@pytest.fixture
def tab(browser: Any) -> Iterator[Any]:
    """Return a fresh tab."""
    opened = browser.new_page(viewport={"width": 1280, "height": 900})
    yield opened
    opened.close()


@pytest.mark.parametrize("width", [PHONE, 390, 1280])
def test_no_width_needs_sideways_scrolling_and_axe_finds_no_barrier(
    tab: Any, list_file: Path, width: int
) -> None:
    tab.set_viewport_size({"width": width, "height": 800})
    tab.goto(list_file.as_uri())
    assert tab.evaluate("document.documentElement.scrollWidth") <= width
    tab.evaluate(axe_script())
    found = tab.evaluate("tags => axe.run({runOnly: {type: 'tag', values: tags}})", AXE_TAGS)
    assert [(one["id"], one["nodes"][0]["html"]) for one in found["violations"]] == []


def test_boxes_to_tick_are_printed(tab: Any, list_file: Path) -> None:
    tab.goto(list_file.as_uri())
    tab.emulate_media(media="print")
    tab.set_viewport_size({"width": 688, "height": 980})  # A4 within its margins [CSS px]
    assert tab.evaluate("document.documentElement.scrollWidth") <= 688
    boxes = tab.locator(".parcels .tick")
    assert boxes.count() == 5  # two packs, the set and two tubes in it
    sizes = [boxes.nth(number).bounding_box() for number in range(5)]
    assert all(size is not None and size["width"] > 12 for size in sizes)
    assert tab.locator(".parcel .seller").count() == 2
