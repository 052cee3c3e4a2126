"""The wish for nearness to what stays out of reach: ticked, kept, and told in the answer."""

from typing import Any

from tests.page_in_browser.test_in_browser import OpenContext, axe, choose, tick


async def test_the_tick_is_kept_and_told(open_context: OpenContext, served: Any) -> None:
    context = await open_context(viewport={"width": 1000, "height": 900})
    page = await context.new_page()
    await page.goto(served.address)
    await tick(page, "cornflower", "rose, red")
    await page.get_by_label("Budget", exact=True).fill("8")
    await page.locator("#finer > summary").click()
    wish = page.locator("#nearer")
    assert not await wish.is_checked()
    await page.get_by_label("what comes nearest to what stays out of reach").check()
    assert await wish.is_checked()
    await choose(page)
    text = await page.inner_text("main")
    assert "comes nearest to what is out of reach" in text or "No other choice equals" in text
    assert not await axe(page)
    await page.get_by_role("link", name="Question").click()
    assert await page.locator("#nearer").is_checked()
    assert "changed" in await page.inner_text("#finer > summary")
