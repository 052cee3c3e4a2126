"""What a painter does on the page, in a real browser."""

import csv
import io
import re
import struct
import zlib
from collections.abc import Callable, Coroutine
from importlib.resources import files
from pathlib import Path
from typing import Any

import pytest

OpenContext = Callable[..., Coroutine[Any, Any, Any]]

AXE_TAGS = ("wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice")
"""Rules of WCAG 2.2 A and AA as the axe engine groups them, and its further advice."""


def png(pixels: list[list[tuple[int, int, int]]]) -> bytes:
    """Return rows of pixels as a PNG file (W3C PNG specification, colour type 2)."""

    def chunk(kind: bytes, data: bytes) -> bytes:
        check = struct.pack(">I", zlib.crc32(kind + data))
        return struct.pack(">I", len(data)) + kind + data + check

    head = struct.pack(">IIBBBBB", len(pixels[0]), len(pixels), 8, 2, 0, 0, 0)
    rows = b"".join(b"\0" + bytes(value for pixel in row for value in pixel) for row in pixels)
    body = chunk(b"IDAT", zlib.compress(rows))
    return b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", head) + body + chunk(b"IEND", b"")


TWO_COLOURS = png([[(200, 40, 110)] * 180 + [(240, 200, 40)] * 120 for _ in range(200)])
"""Three fifths on the left #c8286e, the rest on the right #f0c828."""

PHOTOGRAPH = {"name": "petal.png", "mimeType": "image/png", "buffer": TWO_COLOURS}


async def tick(page: Any, *flowers: str) -> None:
    for flower in flowers:
        await page.locator(f'input[name=flower][value="{flower}"]').check()


async def choose(page: Any) -> None:
    """Send the question and wait for the answer."""
    await page.get_by_role("button", name="Choose the tubes").click()
    await page.wait_for_url("**/answer")


async def downloaded(page: Any, act: Coroutine[Any, Any, Any]) -> tuple[str, str]:
    """Return name and text of the file that something downloads."""
    async with page.expect_download() as download:
        await act
    file = await download.value
    return file.suggested_filename, Path(await file.path()).read_text(encoding="utf-8")


async def axe(page: Any) -> list[str]:
    """Return what the axe engine finds on the whole page, a line a rule and element."""
    await page.wait_for_load_state("load")  # its styles included
    await page.evaluate((files("axe_playwright_python") / "axe.min.js").read_text("utf-8"))
    found = await page.evaluate(
        "tags => axe.run(document, {runOnly: {type: 'tag', values: tags}})", list(AXE_TAGS)
    )
    return [
        f"{rule['id']}: {node['html'][:120]}"
        for rule in found["violations"]
        for node in rule["nodes"]
    ]


async def said_in(page: Any, place: str, words: str) -> None:
    """Wait until a place of the page says something."""
    await page.locator(place).filter(has_text=words).wait_for()


async def unfold(page: Any, heading: str) -> None:
    """Open what is folded away under a heading."""
    await (
        page.locator("section", has=page.get_by_role("heading", name=heading))
        .locator("summary")
        .click()
    )


async def overflow(page: Any) -> int:
    """Return by how much the page is wider than the window [px], its style sheets being there."""
    await page.wait_for_load_state()
    width: int = await page.evaluate("document.documentElement.scrollWidth - innerWidth")
    return width


async def test_from_flowers_to_the_shopping_list(page: Any) -> None:
    await page.get_by_label("Find a flower").fill("CORN")
    assert await page.locator(".card:visible").count() == 1
    assert await page.locator("#find-flowers-count").text_content() == "1 of 48 shown"
    await tick(page, "cornflower")
    await page.get_by_label("Find a flower").fill("")
    await tick(page, "daffodil")
    await page.get_by_label("Importance of daffodil", exact=True).fill("2")
    assert await page.locator("#chosen").text_content() == "Chosen: 2 flowers"
    await page.get_by_label("Budget", exact=True).fill("12")
    await choose(page)
    assert "Proven best: no choice within EUR 12.00" in await page.inner_text("main")
    name, text = await downloaded(page, page.get_by_role("link", name="shopping-list.csv").click())
    assert name == "shopping-list.csv"
    rows = list(csv.DictReader(io.StringIO(text)))
    listed = await page.locator("#shopping ~ table tbody th").all_inner_texts()
    assert [row["name"] for row in rows] == [name.strip() for name in listed]
    assert len(rows) >= 2
    await unfold(page, "Coverage against cost")
    await said_in(page, "#costs", "Proven: none covers more")
    assert await page.locator("#costs tbody tr").count() >= len(rows)
    assert await page.locator("#report-later").count() == 0
    for wanted in ("recipes.csv", "plan.json", "report.html"):
        name, text = await downloaded(page, page.get_by_role("link", name=wanted).click())
        assert name == wanted
        assert "cornflower" in text


async def test_by_keyboard_alone(page: Any) -> None:
    async def tab_to(wanted: str) -> None:
        for _ in range(400):
            await page.keyboard.press("Tab")
            if await page.evaluate("wanted => document.activeElement.matches(wanted)", wanted):
                return
        raise AssertionError(f"{wanted} cannot be reached")

    await tab_to(".skip")
    await tab_to("#find-flowers")
    await page.keyboard.type("gentian")
    await tab_to("input[name=flower]")
    await page.keyboard.press("Space")
    await tab_to(".weight input")
    await page.keyboard.press("Control+A")
    await page.keyboard.type("3")
    await tab_to("#budget")
    await page.keyboard.press("Control+A")
    await page.keyboard.type("9")
    await tab_to("button.main")
    await page.keyboard.press("Enter")
    await page.wait_for_url("**/answer")
    assert "gentian" in await page.inner_text("main")
    await tab_to("a[href$='shopping-list.csv']")
    name, _ = await downloaded(page, page.keyboard.press("Enter"))
    assert name == "shopping-list.csv"


async def test_focus_is_seen_and_not_covered(page: Any) -> None:
    hidden = []
    for _ in range(90):
        await page.keyboard.press("Tab")
        told = await page.evaluate(
            """() => {
              const at = document.activeElement, box = at.getBoundingClientRect();
              const bar = document.querySelector('.go').getBoundingClientRect();
              const outlined = [at, at.parentElement].some(
                  (part) => parseFloat(getComputedStyle(part).outlineWidth) > 0
                      && getComputedStyle(part).outlineStyle !== 'none');
              const covered = !at.closest('.go') && box.top >= bar.top && box.bottom <= bar.bottom;
              const around = at === document.body;  // beyond the last field, before the first
              return {what: at.outerHTML.slice(0, 80), fine: around || (outlined && !covered)};
            }"""
        )
        if not told["fine"]:
            hidden.append(told["what"])
    assert not hidden


async def test_colours_of_a_photograph(page: Any, requests: list[str]) -> None:
    await page.set_input_files("#photograph", PHOTOGRAPH)
    await page.wait_for_selector("#picking:not([hidden])")
    before = len(requests)
    await page.locator("#picture").click(position={"x": 20, "y": 100})
    rows = page.locator("#own-rows .own-row")
    assert await rows.first.locator("input[name=colour-hex]").input_value() == "#c8286e"
    await page.focus("#picture")
    for _ in range(10):
        await page.keyboard.press("Shift+ArrowRight")
    assert "#f0c828" in await page.locator("#under-cross").text_content()
    await page.keyboard.press("Enter")
    assert await rows.nth(1).locator("input[name=colour-hex]").input_value() == "#f0c828"
    assert len(requests) == before  # picking sends nothing
    await page.get_by_role("button", name="Find its main colours").click()
    await page.wait_for_selector("#found li")
    found = await page.locator("#found label").all_inner_texts()
    assert [re.sub(r"\s+", " ", text).strip() for text in found] == [
        "pink (#c8286e), 60 % of the picture",
        "yellow (#f0c828), 40 % of the picture",
    ]
    assert await page.locator("#chosen").text_content() == "Chosen: 2 colours of your own"
    await page.get_by_role("button", name="Add the ticked colours").click()
    assert await rows.count() == 2  # both are there already
    await choose(page)
    assert "picked 2" in await page.inner_text("main")


async def test_what_is_no_photograph(page: Any) -> None:
    other = {"name": "x.png", "mimeType": "image/png", "buffer": b"not a picture"}
    await page.set_input_files("#photograph", other)
    await said_in(page, "#photograph-said", "not a picture the browser can show")
    await page.get_by_role("button", name="Find its main colours").click()
    await said_in(page, "#photograph-said", "is not a whole JPEG, PNG or WebP picture")
    large = {"name": "x.png", "mimeType": "image/png", "buffer": bytes(10 * 1024 * 1024 + 1)}
    await page.set_input_files("#photograph", large)
    await said_in(page, "#photograph-said", "more than 10 MB")


async def test_faults_are_led_to(page: Any) -> None:
    await page.get_by_label("Budget", exact=True).fill("much")
    await page.get_by_role("button", name="Choose the tubes").click()
    await page.wait_for_selector("#faults:focus")  # the script comes after the page itself
    await page.locator("#faults").get_by_role("link", name="Budget").click()
    await page.wait_for_selector("#budget:focus")
    assert not await axe(page)


async def test_two_tabs(page: Any, served: Any) -> None:
    other = await page.context.new_page()
    await other.goto(f"{served.origin}/")
    await tick(page, "primrose")
    await tick(other, "lavender")
    await other.get_by_label("Budget", exact=True).fill("7")
    await choose(page)
    await choose(other)
    assert "primrose" in await page.inner_text("main")
    assert "lavender" not in await page.inner_text("main")
    assert "within EUR 7.00" in await other.inner_text("main")
    for tab, flower in ((page, "primrose"), (other, "lavender")):
        await tab.reload()
        assert flower in await tab.inner_text("main")
        await tab.get_by_role("link", name="Question").click()
        ticked = tab.locator("input[name=flower]:checked")
        assert await ticked.count() == 1
        assert await ticked.get_attribute("value") == flower


async def test_a_run_that_is_stopped(page: Any, served: Any) -> None:
    await page.evaluate("document.querySelectorAll('input[name=flower]').forEach(i => i.click())")
    await page.get_by_role("button", name="Choose the tubes").click()
    await page.wait_for_selector("#work")
    await said_in(page, "#stage", "mixing")
    assert working(served.process_id) == 1
    await page.get_by_role("button", name="Stop").click()
    await page.wait_for_selector(".notice")
    assert "Stopped; nothing was changed." in await page.inner_text("main")
    assert working(served.process_id) == 0
    assert await page.locator("input[name=flower]:checked").count() == 48


def working(process_id: int) -> int:
    """Return how many processes do the long work of another (Linux only)."""
    count = 0
    for stat in Path("/proc").glob("[0-9]*/stat"):
        try:
            parent = int(stat.read_text().rpartition(")")[2].split()[1])
            line = stat.with_name("cmdline").read_bytes()
        except OSError:
            continue  # it ended meanwhile
        count += parent == process_id and b"spawn_main" in line
    return count


async def test_one_answer_beside_another(page: Any) -> None:
    await tick(page, "pansy")
    await page.get_by_label("Budget", exact=True).fill("5")
    await choose(page)
    await page.get_by_role("button", name="Keep this as A").click()
    await page.get_by_label("Budget", exact=True).fill("25")
    await choose(page)
    await page.get_by_role("link", name="A beside B").click()
    text = await page.inner_text("main")
    assert "EUR 5.00" in text
    assert "EUR 25.00" in text
    assert not await axe(page)
    await page.get_by_role("link", name="Question").click()
    await choose(page)  # the same again: nothing new
    await page.get_by_role("button", name="Keep this as A").click()
    await choose(page)
    await page.get_by_role("link", name="A beside B").click()
    folded = page.locator("details table")
    assert not await folded.is_visible()
    await page.locator("summary").click()
    assert await folded.is_visible()
    assert not await axe(page)


@pytest.mark.parametrize("width", [320, 640, 1280])
async def test_accessible_at_every_width(
    open_context: OpenContext, served: Any, width: int
) -> None:
    # 640 px is what a window of 1280 px shows at a zoom of 200 %; 320 px is WCAG's reflow width.
    scale = 2 if width == 640 else 1
    context = await open_context(
        viewport={"width": width, "height": 800}, device_scale_factor=scale
    )
    page = await context.new_page()
    await page.goto(served.address)
    await tick(page, "cornflower", "rose, red")
    await page.set_input_files("#photograph", PHOTOGRAPH)
    await page.get_by_role("button", name="Find its main colours").click()
    await page.wait_for_selector("#found li")
    for summary in await page.locator("form summary").all():
        await summary.click()
    assert await overflow(page) <= 0
    assert not await axe(page)
    for budget in ("4", "14"):
        await page.get_by_label("Budget", exact=True).fill(budget)
        await choose(page)
        assert not await axe(page)  # while palettes are still compared
        await unfold(page, "Coverage against cost")
        await said_in(page, "#costs", "The ring is the plan")
        assert await overflow(page) <= 0
        assert not await axe(page)
        if budget == "4":
            await page.get_by_role("button", name="Keep this as A").click()
    await page.goto(page.url.replace("/answer", "/compare"))
    assert await overflow(page) <= 0
    assert not await axe(page)


async def test_without_a_script(open_context: OpenContext, served: Any) -> None:
    context = await open_context(java_script_enabled=False)
    page = await context.new_page()
    await page.goto(served.address)
    await tick(page, "crocus")
    await page.set_input_files("#photograph", PHOTOGRAPH)
    await page.get_by_role("button", name="Find its main colours").click()
    await page.get_by_role("button", name="Add the ticked colours").click()
    own = page.locator("#own-rows input[name=colour-hex]")
    assert await own.nth(0).input_value() == "#c8286e"
    assert await page.locator("input[value=crocus]").is_checked()
    await page.get_by_role("button", name="Choose the tubes").click()
    await page.wait_for_url("**/answer")  # the page asks again by itself
    assert "photo, yellow" in await page.inner_text("main")
    await unfold(page, "Coverage against cost")
    again = page.get_by_role("link", name="Look again")
    for _ in range(300):
        if not await again.count():
            break
        await again.click()
        await unfold(page, "Coverage against cost")
    assert "Proven: none covers more" in await page.inner_text("#costs")


async def test_hostile_names(page: Any) -> None:
    name = "<img src=x onerror=alert(1)><script>alert(2)</script>"
    await page.get_by_label("Name of the plan").fill(name)
    await page.locator("#own-name-new").fill(name + "=1+1")
    await page.locator("#own-hex-new").fill("#8844aa")
    asked: list[str] = []
    page.on("dialog", lambda dialog: asked.append(dialog.message))
    await choose(page)
    assert name in await page.inner_text("main")
    assert await page.locator("main img, main script").count() == 0
    assert not asked
