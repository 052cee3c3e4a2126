"""The page's search boxes keep to the rule of the command line, in a browser."""

import json
from pathlib import Path
from typing import Any

CASES = Path(__file__).parents[1] / "comparison" / "search_cases.json"


async def test_the_page_finds_what_the_command_line_finds(page: Any) -> None:
    held = json.loads(CASES.read_text(encoding="utf-8"))
    for case in held["cases"]:
        it = await page.evaluate(
            "([asked, texts]) => search(asked, texts)", [case["asked"], held["texts"]]
        )
        assert it["hits"] == case["hits"], case
        assert it["nearest"] == case.get("nearest", []), case
        assert it["readAs"] == case.get("read_as", []), case


async def test_slips_and_plurals_are_forgiven_while_one_types(page: Any) -> None:
    box, said = page.get_by_label("Find a flower"), page.locator("#find-flowers-count")
    await box.fill("dafodils")
    assert await page.locator(".card:visible").count() == 2
    assert await said.text_content() == "2 of 48 shown; read dafodils as daffodil"
    await box.fill("violet roses")
    assert await page.locator(".card:visible").count() == 0
    told = await said.text_content()
    assert told.startswith("0 of 48 shown; nearest: rose, ")
    await box.fill(" ")
    assert await said.text_content() == ""
    assert await page.locator(".card:visible").count() == 48
