"""What can be asked beside the choice of tubes, and what is remembered, in a real browser."""

from pathlib import Path
from typing import Any

from tests.page_in_browser.test_in_browser import (
    OpenContext,
    axe,
    choose,
    downloaded,
    overflow,
    said_in,
    tick,
)

PHONE = 390
"""Width of a phone [px]."""


async def mark_at_home(page: Any) -> None:
    """Mark a tube; what another test marked is unfolded already."""
    await page.locator("#tubes ~ details").evaluate("part => { part.open = true; }")
    await page.locator("select[name=tube-lemon]").select_option(label="at home: half full")


async def test_beside_the_choice_on_a_phone(
    open_context: OpenContext, served: Any, tmp_path: Path
) -> None:
    context = await open_context(viewport={"width": PHONE, "height": 844})
    page = await context.new_page()
    await page.goto(served.address)
    await tick(page, "primrose")
    await page.get_by_label("Budget", exact=True).fill("6")
    await mark_at_home(page)
    await page.get_by_role("button", name="Look into the box").click()
    await page.wait_for_url("**/box")
    assert "half full" in await page.inner_text("main")
    assert await overflow(page) <= 0
    assert not await axe(page)
    await page.get_by_role("link", name="Question", exact=True).click()
    await choose(page)
    await page.get_by_role("button", name="Why these tubes?").click()
    await page.wait_for_url("**/why")
    assert await overflow(page) <= 0
    assert not await axe(page)
    await page.get_by_role("button", name="decimal commas").click()
    await page.get_by_role("button", name="commas and decimal points").wait_for()
    link = page.get_by_role("link", name="why-tubes.csv")
    name, text = await downloaded(page, link.click())
    assert name == "why-tubes.csv"
    assert ";" in text.splitlines()[0]
    await page.get_by_role("link", name="Back to the answer").click()
    await page.get_by_text("Buy it bit by bit").click()
    await page.get_by_label("Now", exact=True).fill("a little")
    assert await overflow(page) <= 0
    await page.get_by_role("button", name="What to buy when").click()
    await said_in(page, "#fault-sum-1", "give an amount")
    assert await overflow(page) <= 0
    assert not await axe(page)
    await page.get_by_label("Now", exact=True).fill("4")
    await page.get_by_label("Then, 2", exact=True).fill("3")
    await page.get_by_role("button", name="What to buy when").click()
    await page.wait_for_selector(".buying")
    await page.locator("section details").evaluate_all("all => all.map(it => { it.open = true; })")
    assert await overflow(page) <= 0
    assert not await axe(page)
    await page.get_by_role("link", name="Mix a colour").click()
    await page.wait_for_selector("#mix-picked")
    await page.locator("#mix-picked").fill("#3355aa")
    assert await page.locator("#mix-picked-by").is_checked()
    await page.get_by_label("A flower's colour, or a number").fill("primrose / petal")
    assert await page.locator("#mix-named").is_checked()
    await page.get_by_label("Mixed from").select_option(label="the tubes marked as at home")
    await page.get_by_role("button", name="Mix it").click()
    await page.wait_for_selector(".mixes li")
    assert await overflow(page) <= 0
    assert not await axe(page)


async def test_a_question_is_remembered_saved_opened_and_forgotten(
    page: Any, served: Any, tmp_path: Path
) -> None:
    await tick(page, "primrose")
    await mark_at_home(page)
    await page.get_by_label("Budget", exact=True).fill("6")
    await choose(page)
    await page.goto(f"{served.origin}/")  # a new tab knows the question, and the tube at home
    await page.locator("#earlier summary").click()
    await page.get_by_role("button", name="My flowers").first.click()
    await said_in(page, ".notice", "Opened.")
    assert await page.locator("input[value=primrose]").is_checked()
    assert await page.locator("select[name=tube-lemon]").input_value() == "owned 0.5"
    assert await overflow(page) <= 0
    assert not await axe(page)
    name, text = await downloaded(
        page, page.get_by_role("button", name="Save as a scenario file").click()
    )
    assert name == "my-flowers.toml"
    path = tmp_path / name
    path.write_text(text.replace("6", "7.25", 1), encoding="utf-8")
    await page.locator("#earlier summary").click()
    await page.set_input_files("#scenario", path)
    await page.get_by_role("button", name="Open it").click()
    await said_in(page, ".notice", "Opened: my-flowers.toml.")
    assert await page.locator("#budget").input_value() == "7.25"
    await page.locator("#earlier summary").click()
    await page.get_by_role("button", name="Forget all that is remembered").click()
    await said_in(page, ".notice", "Forgotten")
    assert await page.locator("select[name=tube-lemon]").input_value() == ""


async def test_a_class_is_asked_for_on_a_phone(open_context: OpenContext, served: Any) -> None:
    context = await open_context(viewport={"width": PHONE, "height": 844})
    page = await context.new_page()
    await page.goto(served.address)
    await tick(page, "primrose")
    await page.locator("#planned summary").click()
    await page.get_by_label("How many paint").fill("1")
    await page.get_by_label("What each pays").fill("8")
    await said_in(page, "#chosen-budget", "for what all of the class pay")
    assert await overflow(page) <= 0
    await page.get_by_role("button", name="Choose the tubes").last.click()
    await said_in(page, "#fault-class_painters-1", "from 2 to 500")
    assert await overflow(page) <= 0
    assert not await axe(page)
    await page.get_by_label("How many paint").fill("3")
    await choose(page)
    await said_in(page, "#class", "For 3 beginners")
    assert "EUR 24.00" in await page.inner_text(".proof")
    assert await overflow(page) <= 0
    assert not await axe(page)
