"""The report pinned to a wall: type to be read from an arm's length, boxes to paint in."""

import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

LEAST_POINTS = 12
"""What the recipes are printed in at least; CSS: 1 pt = 4/3 px."""

PX_PER_MM = 96 / 25.4

TYPE_SIZES = """() => [...document.querySelectorAll('.flower, .shopping')].flatMap(part =>
    [...part.querySelectorAll('p, b, h3, li, td, th, caption, span, .bar text')]
        .filter(it => [...it.childNodes].some(n => n.nodeType === 3 && n.data.trim()))
        .map(it => {
            const drawn = it.closest('svg');
            const wide = drawn && drawn.getBoundingClientRect().width;
            const scale = drawn ? wide / drawn.viewBox.baseVal.width : 1;
            return [it.textContent.trim().slice(0, 40), parseFloat(getComputedStyle(it).fontSize)
                * scale * 3 / 4]; }))"""

TITLED = rb"/Title \(%s\)\s*/Dest \[(\d+) 0 R"
"""A heading in the outline of a PDF, and the object that is the sheet it is on (ISO 32000-1,
12.3.3)."""

BOXES = """selector => [...document.querySelectorAll(selector)].map(it => {
    const box = it.getBoundingClientRect(); return [box.width, box.height]; })"""


@pytest.fixture
def tab(browser: Any, page_file: Path) -> Iterator[Any]:
    """Return a tab that shows the page as it is printed on A4 within its margins of 14 mm."""
    opened = browser.new_page(viewport={"width": int((210 - 28) * PX_PER_MM), "height": 1000})
    opened.emulate_media(media="print")
    opened.goto(page_file.as_uri())
    yield opened
    opened.close()


def test_recipes_and_the_shopping_list_are_large_enough(tab: Any) -> None:
    sizes = tab.evaluate(TYPE_SIZES)
    assert len(sizes) > 30
    small = [(text, size) for text, size in sizes if size < LEAST_POINTS - 0.01]
    assert small == []


def test_beside_each_mix_is_a_box_to_paint_in(tab: Any) -> None:
    boxes = tab.evaluate(BOXES, ".to-paint")
    assert len(boxes) == tab.locator(".flower .bar").count() > 0
    for width, height in boxes:
        assert width / PX_PER_MM >= 18
        assert height / PX_PER_MM >= 12


def test_every_tube_to_buy_can_be_ticked(tab: Any) -> None:
    ticks = tab.evaluate(BOXES, ".shopping .tick")
    assert len(ticks) == tab.locator(".shopping tbody th").count() > 0
    assert all(width / PX_PER_MM >= 4 for width, _ in ticks)


def test_a_mix_is_not_parted_nor_a_heading_from_what_follows(tab: Any) -> None:
    parted = tab.evaluate(
        """() => ['.puddle', '.recipes > li', '.top', '.shopping tbody'].flatMap(selector =>
            [...document.querySelectorAll(selector)])
            .filter(it => getComputedStyle(it).breakInside !== 'avoid').length"""
    )
    assert parted == 0
    for heading in (".puddle", "h2", ".flower h3", "caption"):
        first = tab.locator(heading).first
        assert first.evaluate("it => getComputedStyle(it).breakAfter") == "avoid"


def test_the_heading_of_the_strokes_is_printed_with_the_first_of_them(tab: Any) -> None:
    """However far down a sheet of A4 it comes: the list before it is made longer step by step."""
    name = tab.locator(".tube h3").first.evaluate("it => it.firstChild.data.trim()")
    tab.evaluate(
        """() => [...document.querySelectorAll('section[aria-labelledby]')]
            .filter(it => !['shopping', 'tubes'].includes(it.getAttribute('aria-labelledby')))
            .forEach(it => it.remove())"""
    )
    sheets = set()
    for longer in range(0, 900, 75):  # [CSS px]; a stroke alone is higher than one step
        tab.evaluate(
            "px => { document.querySelector('section').style.paddingBottom = `${px}px`; }", longer
        )
        printed = tab.pdf(format="A4", outline=True, tagged=True)
        heading, first = (_sheet(printed, title) for title in ("The tubes, painted out", name))
        assert heading == first
        sheets.add(heading)
    assert len(sheets) > 1


def _sheet(printed: bytes, title: str) -> bytes:
    """Return the object that is the sheet a heading is printed on."""
    escaped = title.replace("(", r"\(").replace(")", r"\)")
    found = re.search(TITLED % re.escape(escaped.encode()), printed)
    assert found is not None
    return found[1]
