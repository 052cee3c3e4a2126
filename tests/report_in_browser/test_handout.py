"""The hand-out as a browser prints it: on one sheet of A4, with boxes of true size."""

import re
from pathlib import Path
from typing import Any

import pytest

from fewtubes.catalogue.reading import read_catalogue
from fewtubes.coverage.cache import Cache
from fewtubes.coverage.optics import optics_for
from fewtubes.report.illustrated.basis import Basis
from fewtubes.report.illustrated.handout_page import handout_page
from fewtubes.scenario.overrides import with_overrides
from fewtubes.scenario.reading import read_scenario
from fewtubes.shopping.shop import Limits, shop

ROOT = Path(__file__).parents[2]

PX_PER_MM = 96 / 25.4
"""CSS Values and Units Level 4, absolute lengths: 1 in = 96 px = 25.4 mm."""

SHEET = re.compile(rb"/Type\s*/Page[^s]")
"""One a page in a PDF (ISO 32000)."""

SIZES = """selector => [...document.querySelectorAll(selector)].map(it => {
    const box = it.getBoundingClientRect(); return [box.width, box.height]; })"""


def written(folder: Path, name: str, *more_flowers: str) -> Path:
    """Write the hand-out of a demo scenario, with further flowers if wanted."""
    catalogue, cache = read_catalogue(None), Cache(folder / "cache")
    scenario = read_scenario(ROOT / "scenarios" / f"{name}.toml", catalogue)
    if more_flowers:
        flowers = [*(wish.name for wish in scenario.flowers), *more_flowers]
        scenario = with_overrides(scenario, catalogue=catalogue, flowers=flowers)
    plan = shop(catalogue, scenario, limits=Limits(seconds=20), cache=cache)
    optics = optics_for(catalogue, scenario.paper, scenario.light, cache)
    target = folder / f"{name}.html"
    target.write_text(handout_page(Basis(plan, optics)), encoding="utf-8")
    return target


def sheets(browser: Any, page: Path) -> int:
    """Return how many sheets of paper a page takes."""
    opened = browser.new_page()
    opened.goto(page.as_uri())
    printed = opened.pdf(prefer_css_page_size=True)
    opened.close()
    return len(SHEET.findall(printed))


@pytest.mark.parametrize("name", ["village-class", "children-at-school"])
def test_a_usual_class_has_one_sheet(browser: Any, tmp_path: Path, name: str) -> None:
    assert sheets(browser, written(tmp_path, name)) == 1


def test_many_flowers_run_on_to_further_sheets(browser: Any, tmp_path: Path) -> None:
    more = ("pansy", "foxglove", "sunflower", "cornflower")
    assert sheets(browser, written(tmp_path, "village-class", *more)) > 1


def test_boxes_are_large_enough_to_paint_and_nothing_is_wider_than_the_sheet(
    browser: Any, tmp_path: Path
) -> None:
    opened = browser.new_page(viewport={"width": 794, "height": 1123})
    opened.emulate_media(media="print")
    opened.goto(written(tmp_path, "children-at-school").as_uri())
    for selector, size in ((".paints .box", (16, 9)), (".washes .box", (15, 8))):
        found = opened.evaluate(SIZES, selector)
        assert found
        for box in found:
            assert [side / PX_PER_MM for side in box] == pytest.approx(size, abs=0.05)
    wide = opened.evaluate("document.documentElement.scrollWidth")
    assert wide <= 794
    opened.close()
