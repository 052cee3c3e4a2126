"""The illustrated report as a browser shows and prints it."""

import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from fewtubes.picture.contrast import text_contrast

PHONE = 320
"""CSS pixels: WCAG 2.2, success criterion 1.4.10 (reflow); also 1280 at a zoom of 400 %."""

AXE_TAGS = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]

POINTS = {"A4": (595, 842), "Letter": (612, 792)}
"""Width and height in PDF points, ISO 216 and ANSI/ASME Y14.1, to the nearest whole."""


@pytest.fixture
def tab(browser: Any) -> Iterator[Any]:
    """Return a fresh tab."""
    opened = browser.new_page(viewport={"width": 1280, "height": 900})
    yield opened
    opened.close()


def axe_script() -> str:
    """Return axe-core as the package carries it."""
    package = pytest.importorskip("axe_playwright_python", reason="axe-core is not installed")
    return (Path(package.__path__[0]) / "axe.min.js").read_text(encoding="utf-8")


def test_nothing_but_the_file_itself_is_asked_for_and_nothing_is_refused(
    tab: Any, page_file: Path
) -> None:
    requests: list[str] = []
    complaints: list[str] = []
    tab.on("request", lambda request: requests.append(request.url))
    tab.on("console", lambda message: complaints.append(message.text))
    tab.on("pageerror", lambda error: complaints.append(str(error)))
    tab.goto(page_file.as_uri(), wait_until="networkidle")
    assert requests == [page_file.as_uri()]
    # A style that the page's own policy refused would be told here.
    assert complaints == []
    assert tab.evaluate("getComputedStyle(document.body).maxWidth") != "none"


@pytest.mark.parametrize("name", ["page.html", "long.html"])
@pytest.mark.parametrize("width", [PHONE, 390, 640, 1280])
def test_no_width_needs_sideways_scrolling(
    tab: Any, page_file: Path, width: int, name: str
) -> None:
    tab.set_viewport_size({"width": width, "height": 800})
    tab.goto(page_file.with_name(name).as_uri())
    assert tab.evaluate("document.documentElement.scrollWidth") <= width
    outside = tab.evaluate(
        """width => [...document.querySelectorAll('body *')]
            .filter(e => e.getBoundingClientRect().right > width + 0.5)
            .map(e => e.tagName)""",
        width,
    )
    assert outside == []


def test_text_spacing_may_be_widened_without_loss(tab: Any, page_file: Path) -> None:
    # WCAG 2.2, success criterion 1.4.12, with its own figures.
    tab.set_viewport_size({"width": PHONE, "height": 800})
    tab.goto(page_file.as_uri())
    tab.evaluate(
        """() => { for (const e of document.querySelectorAll('body, body *')) {
            e.style.lineHeight = '1.5'; e.style.letterSpacing = '0.12em';
            e.style.wordSpacing = '0.16em'; } }"""
    )
    assert tab.evaluate("document.documentElement.scrollWidth") <= PHONE


def test_writing_in_pictures_stays_on_its_ground_in_forced_colours(
    tab: Any, page_file: Path
) -> None:
    tab.emulate_media(forced_colors="active", color_scheme="dark")
    tab.goto(page_file.as_uri())
    said = tab.evaluate(
        """() => [...document.querySelectorAll('figure svg')].map(e => {
            const style = getComputedStyle(e);
            return [style.forcedColorAdjust, style.backgroundColor]; })"""
    )
    assert said
    assert {tuple(pair) for pair in said} == {("none", "rgb(244, 243, 238)")}


@pytest.mark.parametrize("size", ["A4", "Letter"])
def test_it_prints_on_either_paper(tab: Any, page_file: Path, size: str) -> None:
    tab.goto(page_file.as_uri())
    pdf = tab.pdf(format=size)
    assert len(re.findall(rb"/Type\s*/Page\b", pdf)) >= 3
    boxes = {
        tuple(round(float(number)) for number in box.split())
        for box in re.findall(rb"/MediaBox\s*\[([^\]]+)\]", pdf)
    }
    (box,) = boxes
    assert box[2:] == pytest.approx(POINTS[size], abs=1)


@pytest.mark.parametrize("width", [PHONE, 1280])
def test_axe_finds_no_barrier(tab: Any, page_file: Path, width: int) -> None:
    tab.set_viewport_size({"width": width, "height": 900})
    tab.goto(page_file.as_uri())
    tab.evaluate(axe_script())
    found = tab.evaluate("tags => axe.run({runOnly: {type: 'tag', values: tags}})", AXE_TAGS)
    told = [
        (item["id"], [node["html"][:200] for node in item["nodes"]]) for item in found["violations"]
    ]
    assert told == []
    passed = {item["id"] for item in found["passes"]}
    # Otherwise it would have looked at nothing.
    assert {"color-contrast", "heading-order", "landmark-one-main", "svg-img-alt"} <= passed


def test_our_contrast_is_that_of_axe(tab: Any, page_file: Path) -> None:
    tab.goto(page_file.as_uri())
    tab.evaluate(axe_script())
    for one, other in (("#2b2622", "#f4f3ee"), ("#5c5248", "#c0c0c0"), ("#0a0b0c", "#030201")):
        theirs = tab.evaluate(
            """([one, other]) => { const made = hex => { const c = new axe.commons.color.Color();
                c.parseString(hex); return c; };
                return axe.commons.color.getContrast(made(one), made(other)); }""",
            [one, other],
        )
        assert text_contrast(one, other) == pytest.approx(theirs, rel=1e-3)


def test_every_picture_is_drawn_at_a_size_to_be_seen(tab: Any, page_file: Path) -> None:
    tab.set_viewport_size({"width": PHONE, "height": 800})
    tab.goto(page_file.as_uri())
    sizes = tab.evaluate(
        """() => [...document.querySelectorAll('svg')].map(e => {
            const box = e.getBoundingClientRect(); return [box.width, box.height]; })"""
    )
    assert len(sizes) > 10
    assert all(width >= 12 and height >= 12 for width, height in sizes)
