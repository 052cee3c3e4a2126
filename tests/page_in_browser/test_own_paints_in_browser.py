"""A painter brings in own paints in a real browser."""

import asyncio
from collections.abc import Callable, Coroutine
from pathlib import Path
from typing import Any

import pytest
from tests.page.painter import SWATCHES
from tests.page_in_browser.test_in_browser import axe, overflow

from fewtubes.catalogue.reading import read_catalogue
from fewtubes.files.writing import write_all
from fewtubes.keeping.beginning import begun_catalogue
from fewtubes.keeping.kept_catalogue import changed_files

OpenContext = Callable[..., Coroutine[Any, Any, Any]]

CARD = Path(__file__).parents[2] / "scenarios" / "own-paints" / "card.jpg"

TABLE = {"name": "my.csv", "mimeType": "text/csv", "buffer": SWATCHES.encode()}

FULL, QUARTER, PAPER = (0.353, 0.183), (0.593, 0.187), (0.414, 0.184)
"""Two boxes of the first row of that photograph and paper between them, shares; by eye."""

SPACED = "* { line-height: 1.5 !important; letter-spacing: 0.12em !important;"
SPACED += " word-spacing: 0.16em !important; } p { margin-bottom: 2em !important; }"
"""Text spacing that nothing may be lost by (WCAG 2.2, 1.4.12)."""


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("own") / "my-paints"
    write_all(folder, changed_files(None, begun_catalogue(folder)))
    return folder


@pytest.fixture(scope="module")
def page_options(folder: Path) -> tuple[str, ...]:
    """Return the options that name a catalogue just begun."""
    return ("--catalogue", str(folder))


async def point(page: Any, words: str, share: tuple[float, float]) -> None:
    """Point at a place of the photograph."""
    await page.get_by_label("Point at", exact=True).select_option(words)
    box = await page.locator("#card-picture").bounding_box()
    position = {"x": share[0] * box["width"], "y": share[1] * box["height"]}
    await page.locator("#card-picture").click(position=position)


async def test_pointed_at_fitted_and_added(page: Any, folder: Path) -> None:
    await page.get_by_role("link", name="Your own paints").click()
    await page.set_input_files("#photograph", CARD)
    await page.get_by_text("Without a printed card").click()
    await point(page, "full stroke", FULL)
    assert await page.locator("#pointed-said").text_content() == "Name the tube first."
    await page.get_by_label("Tube", exact=True).fill("warm one")
    await page.get_by_label("Pigments, if known").fill("PY154")
    await point(page, "full stroke", FULL)
    await point(page, "wash at a quarter", QUARTER)
    await point(page, "bare paper", (0.02, 0.02))
    assert await page.locator("#points li").count() == 3
    await page.get_by_role("button", name="Take out").last.click()
    await page.get_by_label("Point at", exact=True).select_option("bare paper")
    await page.locator("#card-picture").focus()
    for _ in range(2):
        await page.keyboard.press("ArrowDown")
    await point(page, "bare paper", PAPER)
    assert not await axe(page)
    await page.get_by_role("button", name="Fit the photograph").click()
    await page.locator("#fitted").wait_for()
    assert "warm one (PY154)" in await page.inner_text("main")
    assert await page.locator(".pairs li").count() == 2
    await page.get_by_role("button", name="Add to my catalogue").click()
    await page.locator("#added").wait_for()
    assert "warm one" in [tube.name for tube in read_catalogue(folder).tubes.values()]


async def test_a_photograph_chosen_before_the_script_came_is_shown(
    open_context: OpenContext, served: Any
) -> None:
    page = await (await open_context()).new_page()
    await page.goto(served.address)
    chosen = asyncio.Event()

    async def late(route: Any) -> None:
        await chosen.wait()
        await route.continue_()

    await page.route("**/paints.js*", late)
    await page.get_by_role("link", name="Bring them in by swatches").click(no_wait_after=True)
    await page.set_input_files("#photograph", CARD)
    assert not await page.locator("#pointing").is_visible()
    chosen.set()
    await page.get_by_text("Without a printed card").click()
    assert await page.locator("#card-picture").is_visible()


@pytest.mark.parametrize("width", [320, 1280])
async def test_accessible_at_every_width(
    open_context: OpenContext, served: Any, width: int
) -> None:
    forced = "active" if width == 320 else None
    context = await open_context(viewport={"width": width, "height": 800}, forced_colors=forced)
    page = await context.new_page()
    await page.goto(served.address)
    await page.get_by_role("link", name="Your own paints").click()
    await page.get_by_role("button", name="Fit the table").click()
    await page.locator("#faults:focus").wait_for()
    assert not await axe(page)
    await page.set_input_files("#swatches", TABLE)
    await page.get_by_role("button", name="Fit the table").click()
    await page.locator("#fitted").wait_for()
    assert await overflow(page) <= 0
    assert not await axe(page)
    await page.evaluate(
        "text => { const sheet = new CSSStyleSheet(); sheet.replaceSync(text);"
        " document.adoptedStyleSheets = [sheet]; }",
        SPACED,
    )
    assert await overflow(page) <= 0


async def test_without_a_script(open_context: OpenContext, served: Any) -> None:
    context = await open_context(java_script_enabled=False)
    page = await context.new_page()
    await page.goto(served.address)
    await page.get_by_role("link", name="Bring them in by swatches").click()
    assert "cannot let you point at swatches" in await page.inner_text("main")
    await page.set_input_files("#swatches", TABLE)
    await page.get_by_role("button", name="Fit the table").click()
    await page.get_by_role("heading", name="2 tubes fitted").wait_for()  # it asks again by itself
    async with page.expect_download() as download:
        await page.get_by_role("button", name="Get the card (PDF)").click()
    file = await download.value
    assert file.suggested_filename == "card.pdf"
