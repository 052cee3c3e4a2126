"""The page of all answers on a telephone, on a desk and on paper: nothing runs out of sight."""

from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from fewtubes.errors import Fault
from fewtubes.term.answers_page import answers_page
from fewtubes.term.findings import Batch, BatchRow

ROW = BatchRow(
    name="week-1",
    file="week-1.toml",
    title="Week 1: tulips",
    currency="EUR",
    coverage=0.943,
    cost=1234,
    bought=("middle yellow (arylide)", "ultramarine blue, study strength"),
    most=0.958,
    worst_lightfastness="II",
    out_of_reach=119,
    colours=229,
)

OUTSIDE = """() => [...document.querySelectorAll('body *:not(thead *)')].filter(it => {
    const box = it.getBoundingClientRect();
    return box.width > 1 && (box.right > innerWidth + 0.5 || box.left < -0.5);
}).map(it => it.outerHTML.slice(0, 80))"""

SHOWN = """() => [...document.querySelectorAll('td')].map(
    it => getComputedStyle(it, '::before').content)"""


@pytest.fixture
def pages(browser: Any, tmp_path: Path) -> Iterator[Any]:
    """Open the page of thirty scenarios: some of long words, missed flowers, or not answered."""
    rows = [replace(ROW, name=f"week-{n}", proven=n % 2 == 0) for n in range(24)]
    rows += [
        replace(ROW, title="W" * 120, unreached=("poppy" * 30, "fern")),
        replace(ROW, title="Late tulips in the long border, for the second and third year " * 2),
        *[BatchRow(name="x" * 90, file="x" * 90, faults=(Fault("x" * 90, "y" * 300),))] * 4,
    ]
    path = tmp_path / "answers.html"
    path.write_text(answers_page(Batch(tuple(rows)), reports=True), encoding="utf-8")
    page = browser.new_page()
    page.goto(path.as_uri())
    yield page
    page.close()


@pytest.mark.parametrize("width", [320, 390, 700, 900, 1400])
def test_nothing_runs_out_of_sight(pages: Any, width: int) -> None:
    pages.set_viewport_size({"width": width, "height": 800})
    assert pages.evaluate(OUTSIDE) == []  # titles of columns are hidden where rows have their own
    assert pages.evaluate("document.documentElement.scrollWidth") <= width


def test_on_a_telephone_each_figure_has_its_title(pages: Any) -> None:
    pages.set_viewport_size({"width": 390, "height": 800})
    assert {'"Covered"', '"Cost"', '"To buy"', '"Proof"'} < set(pages.evaluate(SHOWN))
    pages.set_viewport_size({"width": 1400, "height": 800})
    assert set(pages.evaluate(SHOWN)) == {"none"}
