"""The illustrated report of buying bit by bit as a browser shows and prints it."""

import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from tests.report_in_browser.test_page import AXE_TAGS, PHONE, axe_script

from fewtubes.catalogue.reading import read_catalogue
from fewtubes.comparison.instalments import instalments
from fewtubes.coverage.cache import Cache
from fewtubes.report.illustrated.instalments_page import InstalmentsReport
from fewtubes.scenario.reading import read_scenario

FIRST_SET = Path(__file__).parents[2] / "scenarios" / "first-set.toml"


@pytest.fixture(scope="module")
def order_file(browser: Any, tmp_path_factory: pytest.TempPathFactory, shared_cache: Cache) -> Path:
    """Write the report of three sums, and one with the longest names that a table may hold."""
    folder = tmp_path_factory.mktemp("order")
    catalogue = read_catalogue()
    asked = read_scenario(FIRST_SET, catalogue)
    found = instalments(catalogue, asked, sums=[6, 5, 5], cache=shared_cache)
    target = folder / "order.html"
    text = InstalmentsReport(found).page()
    target.write_text(text, encoding="utf-8")
    long = text.replace("daffodil", "d" * 200).replace(found.purchases[0].tube.name, "t" * 160)
    (folder / "long.html").write_text(long, encoding="utf-8")
    return target


@pytest.fixture
def tab(browser: Any) -> Iterator[Any]:
    """Return a fresh tab."""
    opened = browser.new_page(viewport={"width": 1280, "height": 900})
    yield opened
    opened.close()


@pytest.mark.parametrize("name", ["order.html", "long.html"])
@pytest.mark.parametrize("width", [PHONE, 1280])
def test_no_width_needs_sideways_scrolling(
    tab: Any, order_file: Path, width: int, name: str
) -> None:
    tab.set_viewport_size({"width": width, "height": 800})
    tab.goto(order_file.with_name(name).as_uri())
    assert tab.evaluate("document.documentElement.scrollWidth") <= width


def test_it_asks_for_nothing_and_whoever_cannot_see_it_is_told(tab: Any, order_file: Path) -> None:
    asked: list[str] = []
    complaints: list[str] = []
    tab.on("request", lambda request: asked.append(request.url))
    tab.on("console", lambda message: complaints.append(message.text))
    tab.goto(order_file.as_uri(), wait_until="networkidle")
    assert asked == [order_file.as_uri()]
    assert complaints == []
    session = tab.context.new_cdp_session(tab)  # the page's policy binds its own scripts alone
    session.send("Page.setBypassCSP", {"enabled": True})
    tab.reload()
    tab.evaluate(axe_script())
    found = tab.evaluate("tags => axe.run({runOnly: tags})", AXE_TAGS)["violations"]
    assert [(one["id"], one["nodes"][0]["html"]) for one in found] == []


def test_it_prints_on_a4_and_no_flower_is_cut(tab: Any, order_file: Path, tmp_path: Path) -> None:
    tab.goto(order_file.as_uri())
    tab.emulate_media(media="print")
    tab.set_viewport_size({"width": 688, "height": 980})  # A4 within its margins [CSS px]
    assert tab.evaluate("document.documentElement.scrollWidth") <= 688
    kept = tab.evaluate(
        "[...document.querySelectorAll('.grown, .pinned')]"
        ".map(e => getComputedStyle(e).breakInside)"
    )
    assert kept
    assert set(kept) == {"avoid"}
    assert tab.evaluate("getComputedStyle(document.querySelector('nav')).display") == "none"
    made = tab.pdf(format="A4", prefer_css_page_size=True)
    assert len(re.findall(rb"/Type\s*/Page\b(?!s)", made)) >= 3
