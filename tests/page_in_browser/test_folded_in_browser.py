"""The answer's page is short, and unfolds for whoever is led there and for the printer."""

from typing import Any

from tests.page_in_browser.test_in_browser import OpenContext, axe, choose, overflow, tick

PHONE = 390
"""Width of a phone [px]."""

HALF = 2

SPACED = """
* { line-height: 1.5 !important; word-spacing: 0.16em !important; }
* { letter-spacing: 0.12em !important; }
p { margin-bottom: 2em !important }
"""
"""WCAG 2.2, success criterion 1.4.12, text spacing."""


async def height(page: Any) -> int:
    found: int = await page.evaluate("document.documentElement.scrollHeight")
    return found


async def opened(page: Any) -> list[bool]:
    found: list[bool] = await page.evaluate(
        "[...document.querySelectorAll('main details')].map(part => part.open)"
    )
    return found


async def test_the_answer_is_short_until_it_is_unfolded(
    open_context: OpenContext, served: Any
) -> None:
    context = await open_context(viewport={"width": PHONE, "height": 844})
    page = await context.new_page()
    await page.goto(served.address)
    await tick(page, "cornflower", "rose, red")
    await page.get_by_label("Budget", exact=True).fill("8")
    await choose(page)
    folded = await height(page)
    assert not any(await opened(page))
    text = await page.inner_text("main")
    for said in ("To buy", "Take care", "Covered", "Out of reach", "Puddles", "would bring it"):
        assert said in text
    for summary in await page.locator("main summary").all():
        await summary.click()
    assert all(await opened(page))
    assert HALF * folded <= await height(page)
    assert await overflow(page) <= 0
    assert not await axe(page)
    await page.evaluate(
        """css => { const sheet = new CSSStyleSheet(); sheet.replaceSync(css);
             document.adoptedStyleSheets = [sheet]; }""",
        SPACED,
    )
    assert await overflow(page) <= 0


async def test_links_and_the_printer_unfold(page: Any) -> None:
    await tick(page, "primrose")
    await page.get_by_label("Budget", exact=True).fill("6")
    await choose(page)
    assert not any(await opened(page))
    await page.get_by_role("link", name="colour by colour").click()
    flowers = page.locator("section.folded", has=page.locator("#flowers"))
    await flowers.locator(".recipes").first.wait_for()
    assert sum(await opened(page)) == 1
    await page.get_by_role("link", name="How sure that is").first.click()
    await page.locator("section", has=page.locator("#sure")).locator("details[open]").wait_for()
    assert sum(await opened(page)) == 2
    await page.evaluate("dispatchEvent(new Event('beforeprint'))")
    assert all(await opened(page))
    await page.emulate_media(media="print")
    tops = await page.locator(".flower .top, section > .top").all()
    assert tops
    assert all([await top.is_visible() for top in tops])
    for left_out in ("header", ".contents", ".take", ".of-the-page"):
        assert not await page.locator(left_out).first.is_visible()
    assert "describe no maker's product" in await page.inner_text("footer")
    await page.emulate_media(media="screen")
    await page.evaluate("dispatchEvent(new Event('afterprint'))")
    assert sum(await opened(page)) == 2


async def test_unfolded_by_keyboard_and_seen_in_forced_colours(
    open_context: OpenContext, served: Any
) -> None:
    context = await open_context(forced_colors="active")
    page = await context.new_page()
    await page.goto(served.address)
    await tick(page, "primrose")
    await choose(page)
    await page.locator("#tubes + details summary").focus()
    await page.keyboard.press("Enter")
    assert await page.locator("article.tube").first.is_visible()
    assert not await axe(page)
