"""The sheet to paint as a browser prints it: true lengths, on A4 and on Letter."""

import re
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from fewtubes.catalogue.reading import read_catalogue
from fewtubes.coverage.cache import Cache
from fewtubes.coverage.optics import optics_for
from fewtubes.report.illustrated.basis import Basis
from fewtubes.report.illustrated.chart_page import chart_page
from fewtubes.scenario.reading import read_scenario
from fewtubes.shopping.shop import Limits, shop

PX_PER_MM = 96 / 25.4
"""CSS Values and Units Level 4, absolute lengths: 1 in = 96 px = 25.4 mm."""

POINTS_PER_MM = 72 / 25.4

SIZES = """selector => [...document.querySelectorAll(selector)].map(it => {
    const box = it.getBoundingClientRect(); return [box.width, box.height]; })"""

NINE_TUBES = 36
"""Pairs of nine tubes, 9 · 8 ÷ 2."""


@pytest.fixture(scope="module")
def chart_file(page_file: Path) -> Path:
    """Write the chart of the scenario that the report's tests look at, with nine tubes in all."""
    catalogue, cache = read_catalogue(None), Cache(page_file.parent / "cache")
    scenario = read_scenario(page_file.parent / "box.toml", catalogue)
    plan = shop(catalogue, scenario, limits=Limits(seconds=20), cache=cache)
    held = {planned.tube.id for planned in plan.tubes}
    others = [tube for id_, tube in catalogue.tubes.items() if id_ not in held]
    more = [replace(plan.tubes[0], tube=tube) for tube in others[: 9 - len(held)]]
    plan = replace(plan, tubes=(*plan.tubes, *more))
    optics = optics_for(catalogue, scenario.paper, scenario.light, cache)
    target = page_file.parent / "chart.html"
    target.write_text(chart_page(Basis(plan, optics)), encoding="utf-8")
    return target


@pytest.fixture
def tab(browser: Any, chart_file: Path) -> Iterator[Any]:
    """Return a tab that shows the chart as it is printed."""
    opened = browser.new_page(viewport={"width": 794, "height": 1123})
    opened.emulate_media(media="print")
    opened.goto(chart_file.as_uri())
    yield opened
    opened.close()


@pytest.mark.parametrize(
    ("selector", "width_mm", "height_mm"),
    [
        (".two .box", 17, 12),
        (".puddles .box", 20, 13),
        (".chip svg", 17, 4),
        (".rule svg", 100, 1),
    ],
)
def test_lengths_are_true(tab: Any, selector: str, width_mm: float, height_mm: float) -> None:
    found = tab.evaluate(SIZES, selector)
    assert found
    for width, height in found:
        assert width / PX_PER_MM == pytest.approx(width_mm, abs=0.05)
        assert height / PX_PER_MM == pytest.approx(height_mm, abs=0.05)


@pytest.mark.parametrize(("size", "width_mm"), [("A4", 210.0), ("Letter", 215.9)])
def test_it_fits_the_sheet_unshrunk_on_few_pages(tab: Any, size: str, width_mm: float) -> None:
    """A browser shrinks a page whose content is wider than the sheet: it must not be."""
    room = (width_mm - 2 * 11) * PX_PER_MM
    tab.set_viewport_size({"width": int(room), "height": 1000})
    assert tab.evaluate("document.documentElement.scrollWidth") <= room
    pdf = tab.pdf(format=size)
    (box, *_) = re.findall(rb"/MediaBox\s*\[([^\]]+)\]", pdf)
    assert float(box.split()[2]) == pytest.approx(width_mm * POINTS_PER_MM, abs=1)
    assert tab.locator("#pairs ~ .two article").count() == NINE_TUBES
    # Two columns of five pairs to a page: 36 ÷ 10, four pages; tubes, puddles, words the rest.
    assert len(re.findall(rb"/Type\s*/Page\b", pdf)) <= 9


def test_a_box_is_never_parted_from_its_words(tab: Any) -> None:
    """Where a puddle is longer than what is left of a page, browsers break it all the same."""
    boxes = "[...document.querySelectorAll('.line li')]"
    kept = tab.evaluate(f"() => {boxes}.map(it => getComputedStyle(it).breakInside)")
    assert set(kept) == {"avoid"}


@pytest.mark.parametrize("width", [320, 640, 1280])
def test_no_width_of_a_screen_needs_sideways_scrolling(tab: Any, width: int) -> None:
    tab.emulate_media(media="screen")
    tab.set_viewport_size({"width": width, "height": 800})
    assert tab.evaluate("document.documentElement.scrollWidth") <= width
