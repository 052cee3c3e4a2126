"""A flower of the painter's own is made, changed and asked about, in a real browser."""

from typing import Any

import pytest
from tests.colour.painted_flowers import Painted, painted, photographed
from tests.page_in_browser.test_in_browser import (
    OpenContext,
    axe,
    choose,
    downloaded,
    overflow,
    said_in,
)

PHOTOGRAPH = {
    "name": "mallow.jpg",
    "mimeType": "image/jpeg",
    "buffer": photographed(painted(Painted("table", side=320))),
}
"""Invented: a pink flower with a leaf on a table of wood."""


async def hexes(page: Any) -> list[str]:
    """Return the colours in the rows of the flowers."""
    fields = await page.locator(".own-flower input[name^=swatch-hex-]").all()
    return [await field.input_value() for field in fields]


async def ticks(page: Any) -> list[bool]:
    fields = await page.locator(".own-flower input[name^=swatch-taken-]").all()
    return [await field.is_checked() for field in fields]


async def test_a_flower_from_a_photograph(page: Any) -> None:
    await page.get_by_role("button", name="Make a flower of it").click()
    await said_in(page, "#photograph-said", "Choose a photograph first.")
    await page.set_input_files("#photograph", PHOTOGRAPH)
    await page.wait_for_selector("#picking:not([hidden])")
    await page.get_by_role("button", name="Make a flower of it").click()
    await page.wait_for_selector(".own-flower")
    assert await page.locator("#chosen").text_content() == "Chosen: 1 flower"
    assert not (await ticks(page))[-1]  # the background
    assert await page.locator("#picking").is_visible()  # the picture is still there
    await page.get_by_label("Name of the flower").fill("my mallow")
    count = len(await hexes(page))
    await page.get_by_role("button", name="Another colour").click()
    await page.wait_for_selector(f"#swatch-hex-0-{count}")
    assert await page.get_by_label("Name of the flower").input_value() == "my mallow"
    # What is pointed at fills the row without a colour, and then makes rows.
    await page.locator("#picture").click(position={"x": 20, "y": 20})
    await said_in(page, "#under-cross", "as colour")
    await page.locator("#picture").click(position={"x": 24, "y": 20})
    found = await hexes(page)
    assert len(found) == count + 2
    assert all(found)
    assert await page.locator("#own-rows input[name=colour-hex]").first.input_value() == ""
    await page.get_by_label("Pick colour 1", exact=True).fill("#fad2e6")
    assert (await hexes(page))[0] == "#fad2e6"
    name, text = await downloaded(
        page, page.get_by_role("button", name="Keep them as a table").click()
    )
    assert name == "my-flowers.csv"
    assert "my mallow,light edge,petal light,#fad2e6,2" in text
    await choose(page)
    assert "my mallow" in await page.inner_text("main")
    await page.get_by_role("link", name="Question").click()
    assert (await hexes(page))[0] == "#fad2e6"
    await page.get_by_role("button", name="Take this flower out").click()
    await page.wait_for_selector(".own-flower", state="detached")
    assert await page.locator("#chosen").text_content() == "Nothing is chosen yet"


@pytest.mark.parametrize("width", [1280, 320])
async def test_accessible_at_every_width(
    open_context: OpenContext, served: Any, width: int
) -> None:
    context = await open_context(viewport={"width": width, "height": 800})
    page = await context.new_page()
    await page.goto(served.address)
    await page.set_input_files("#photograph", PHOTOGRAPH)
    await page.get_by_role("button", name="Make a flower of it").click()
    await page.wait_for_selector(".own-flower")
    await page.get_by_role("button", name="Make a flower by hand").click()
    await page.wait_for_selector("#own-flower-1")
    assert not await page.locator("#own-flower-0 .picker.unset").count()
    unset = page.locator("#own-flower-1 .picker.unset")
    blank = await unset.count()
    await page.locator("#own-flower-1 .picker").first.fill("#3355aa")
    assert await unset.count() == blank - 1 > 0
    assert await overflow(page) <= 0
    assert not await axe(page)
    await page.get_by_role("button", name="Choose the tubes").click()
    await page.wait_for_selector("#own-flower-0 .fault")  # it has no name yet
    assert await overflow(page) <= 0
    assert not await axe(page)


async def test_without_a_script(open_context: OpenContext, served: Any) -> None:
    context = await open_context(java_script_enabled=False)
    page = await context.new_page()
    await page.goto(served.address)
    await page.set_input_files("#photograph", PHOTOGRAPH)
    await page.get_by_role("button", name="Make a flower of it").click()
    await page.wait_for_url("**#own-flower-0")
    assert not (await ticks(page))[-1]
    await page.get_by_label("Name of the flower").fill("my mallow")
    await page.get_by_role("button", name="Make a flower by hand").click()
    await page.wait_for_url("**#own-flower-1")
    await page.locator("#own-flower-1").get_by_role("button", name="Take this flower out").click()
    await page.get_by_role("button", name="Choose the tubes").click()
    await page.wait_for_url("**/answer")  # the page asks again by itself
    assert "my mallow" in await page.inner_text("main")
