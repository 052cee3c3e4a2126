"""A browser that is on this machine, and a page of the demo catalogue to look at with it.

Needs `playwright` (its driver only, no browser of its own), and Chromium under one of its usual
names on PATH; without them these tests are passed over with the reason.
"""

import shutil
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from fewtubes.catalogue.reading import read_catalogue
from fewtubes.comparison.compare import compare
from fewtubes.comparison.extent import extent_for
from fewtubes.coverage.cache import Cache
from fewtubes.coverage.optics import optics_for
from fewtubes.report.illustrated.page import illustrated_report
from fewtubes.scenario.reading import read_scenario
from fewtubes.shopping.shop import Limits, shop

SCENARIO = """\
title = "A window box in June"
shows = "A page with something of everything: colours covered and missed, tubes bought and owned."
currency = "EUR"
budget = 12.00
owned = ["ultramarine"]
[[flower]]
name = "bluebell"
importance = 2
[[flower]]
name = "petunia, neon pink"
[[colour]]
name = "a glowing green"
hex = "#00ff55"
"""

BROWSERS = ("chromium", "chromium-browser", "google-chrome")
ARGUMENTS = (
    "--no-sandbox",  # the tests may run as root, and open no page but their own
    "--disable-gpu",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
)


@pytest.fixture(scope="session")
def browser() -> Iterator[Any]:
    """Start the browser once."""
    path = next((found for name in BROWSERS if (found := shutil.which(name))), None)
    if path is None:
        pytest.skip(f"no browser on PATH under any of the names {', '.join(BROWSERS)}")
    driver = pytest.importorskip("playwright.sync_api", reason="playwright is not installed")
    with driver.sync_playwright() as playwright:
        started = playwright.chromium.launch(executable_path=path, args=list(ARGUMENTS))
        yield started
        started.close()


@pytest.fixture(scope="session")
def page_file(browser: Any, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Write the illustrated report of a small scenario; asks for the browser to skip early."""
    folder = tmp_path_factory.mktemp("page")
    (folder / "box.toml").write_text(SCENARIO, encoding="utf-8")
    catalogue = read_catalogue(None)
    scenario = read_scenario(folder / "box.toml", catalogue)
    cache = Cache(folder / "cache")
    plan = shop(catalogue, scenario, limits=Limits(seconds=20), cache=cache)
    optics = optics_for(catalogue, scenario.paper, scenario.light, cache)
    target = folder / "page.html"
    comparison = compare(catalogue, scenario, extent=extent_for(plan, seconds=20), cache=cache)
    target.write_text(illustrated_report(plan, optics, comparison=comparison), encoding="utf-8")
    long = folder / "long.html"
    name = plan.bought[0].tube.name
    text = target.read_text(encoding="utf-8").replace("bluebell", "b" * 200)
    long.write_text(text.replace(name, "t" * 160), encoding="utf-8")
    return target
