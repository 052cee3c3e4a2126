"""The page in a browser that is on this machine, driven from a thread of its own.

Needs `playwright` (its driver only, no browser of its own), and Chromium under one of its usual
names on PATH; without them these tests are passed over with the reason. The tests are coroutines
and run in the thread in which the driver lives, so that other tests may drive a browser as well.

Whatever a test does, at its end no request has left the machine and the console is clean.
"""

import inspect
import os
import re
import shutil
import signal
import subprocess
import sys
from collections.abc import Iterator
from dataclasses import dataclass
from functools import partial
from typing import Any

import pytest
from anyio.from_thread import BlockingPortal, start_blocking_portal

BROWSERS = ("chromium", "chromium-browser", "google-chrome")
ARGUMENTS = (
    "--no-sandbox",  # the tests may run as root, and open no page but their own
    "--disable-gpu",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    "--host-resolver-rules=MAP * ~NOTFOUND, EXCLUDE 127.0.0.1",  # no name leads anywhere
)

PATIENCE_MS = 60_000
"""For one step on a busy machine [ms]."""


@dataclass(frozen=True)
class Served:
    """The command that serves the page."""

    process_id: int
    address: str
    origin: str


@pytest.hookimpl(tryfirst=True)
def pytest_pyfunc_call(pyfuncitem: pytest.Function) -> bool | None:
    """Run a test that is a coroutine in the thread of the driver."""
    test = pyfuncitem.obj
    if not inspect.iscoroutinefunction(test):
        return None
    arguments = {name: pyfuncitem.funcargs[name] for name in inspect.signature(test).parameters}
    portal: Any = pyfuncitem.funcargs["portal"]
    portal.call(partial(test, **arguments))
    return True


@pytest.fixture(scope="module")
def portal() -> Iterator[BlockingPortal]:
    with start_blocking_portal() as opened:
        yield opened


@pytest.fixture(scope="module")
def driven(portal: BlockingPortal) -> Iterator[Any]:
    """Start the browser once."""
    path = next((found for name in BROWSERS if (found := shutil.which(name))), None)
    if path is None:
        pytest.skip(f"no browser on PATH under any of the names {', '.join(BROWSERS)}")
    driver = pytest.importorskip("playwright.async_api", reason="playwright is not installed")
    playwright = portal.call(driver.async_playwright().start)
    launch = partial(playwright.chromium.launch, executable_path=path, args=list(ARGUMENTS))
    started = portal.call(launch)
    yield started
    portal.call(started.close)
    portal.call(playwright.stop)


@pytest.fixture(scope="module")
def page_options() -> tuple[str, ...]:
    """Return what the command is started with besides."""
    return ()


@pytest.fixture(scope="module")
def served(
    tmp_path_factory: pytest.TempPathFactory, driven: object, page_options: tuple[str, ...]
) -> Iterator[Served]:
    """Start the command as a painter does; asks for the browser to skip early."""
    cache, data = tmp_path_factory.mktemp("cache"), tmp_path_factory.mktemp("data")
    with subprocess.Popen(  # noqa: S603  # the options are those of a test
        [sys.executable, "-m", "fewtubes", "page", "--no-browser", *page_options],
        stdout=subprocess.PIPE,
        text=True,
        env={**os.environ, "FEWTUBES_CACHE": str(cache), "FEWTUBES_DATA": str(data)},
    ) as process:
        assert process.stdout is not None
        found = re.search(r"(http://127\.0\.0\.1:\d+)/open/\S+", process.stdout.readline())
        assert found is not None
        yield Served(process.pid, found[0], found[1])
        process.send_signal(signal.SIGTERM)
        process.wait(timeout=30)


@pytest.fixture
def requests() -> list[str]:
    """Return the addresses that pages of this test ask for."""
    return []


@pytest.fixture
def open_context(
    portal: BlockingPortal, driven: Any, served: Served, requests: list[str]
) -> Iterator[Any]:
    """Return a coroutine that opens a fresh browser profile; see the module for what is held."""
    contexts: list[Any] = []
    said: list[str] = []

    async def opened(**options: Any) -> Any:
        context = await driven.new_context(**options)
        context.set_default_timeout(PATIENCE_MS)
        context.on("request", lambda request: requests.append(request.url))
        context.on("console", lambda message: said.append(f"{message.type}: {message.text}"))
        context.on("weberror", lambda error: said.append(f"error: {error.error}"))
        contexts.append(context)
        return context

    yield opened
    for context in contexts:
        portal.call(context.close)
    assert requests
    assert not [url for url in requests if not url.startswith(f"{served.origin}/")]
    # A refused form (422) is told by the browser's console as well, and means no harm.
    assert not [line for line in said if "422" not in line]


@pytest.fixture
def page(portal: BlockingPortal, open_context: Any, served: Served) -> Any:
    """Return a page with the question of a new tab."""

    async def opened() -> Any:
        context = await open_context(viewport={"width": 1280, "height": 900})
        page = await context.new_page()
        await page.goto(served.address)
        return page

    return portal.call(opened)
