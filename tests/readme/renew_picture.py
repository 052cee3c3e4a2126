"""Put pictures of the present illustrated report and of the page where the README shows them.

Run it by hand after a change that is meant to change them: ``python
tests/readme/renew_picture.py``. It needs what the extra `browser` brings, and Chromium on PATH.
"""

import io
import os
import shutil
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from tempfile import TemporaryDirectory

from PIL import Image
from playwright.sync_api import Page, sync_playwright

ROOT = Path(__file__).parents[2]
SCENARIO = ROOT / "scenarios" / "first-set.toml"
REPORT = ROOT / "scenarios" / "first-set-report.png"
QUESTION = ROOT / "scenarios" / "question-page.png"

WIDTH = 900
"""Of the window [px]."""

TICKED = ("foxglove", "sweet pea, pink")
"""Flowers chosen in the picture of the page."""

SHOWN = 1000
"""Height of the window on the page [px]."""

COLOURS = 256
"""In the file; enough, dithered, for strokes without steps."""


def renew() -> None:
    """Write the pictures: the report down to its first flower, and the top of the page."""
    with window() as page:
        with TemporaryDirectory() as folder:
            report = Path(folder, "report.html")
            subprocess.run(  # noqa: S603  # our own program, arguments of our own
                [sys.executable, "-m", "fewtubes", "shop", str(SCENARIO), "--report", str(report)],
                capture_output=True,
                check=True,
            )
            page.goto(report.as_uri())
            area = {"x": 0, "y": 0, "width": WIDTH, "height": bottom_of_first_flower(page)}
            keep(page.screenshot(full_page=True, clip=area), REPORT)  # type: ignore[arg-type]
        with served() as address:
            page.set_viewport_size({"width": WIDTH, "height": SHOWN})
            page.goto(address)
            for name in TICKED:
                page.get_by_role("checkbox", name=name, exact=True).check()
            keep(page.screenshot(), QUESTION)


@contextmanager
def window() -> Iterator[Page]:
    """Yield a window of a browser."""
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(
            executable_path=shutil.which("chromium"), args=["--no-sandbox"]
        )
        yield browser.new_page(viewport={"width": WIDTH, "height": 800})
        browser.close()


@contextmanager
def served() -> Iterator[str]:
    """Yield the address of a page that is served meanwhile."""
    command = [sys.executable, "-u", "-m", "fewtubes", "page", "--port", "0", "--no-browser"]
    with TemporaryDirectory() as data:  # so that nobody's earlier questions are in the picture
        environment = {**os.environ, "FEWTUBES_DATA": data}
        with subprocess.Popen(  # noqa: S603  # our own program, arguments of our own
            command, stdout=subprocess.PIPE, text=True, env=environment
        ) as process:
            assert process.stdout is not None
            yield process.stdout.readline().split()[-1]
            process.terminate()


def bottom_of_first_flower(page: Page) -> float:
    """Return how far down the first flower of a report reaches [px]."""
    flower = page.locator(".flower").first.bounding_box()
    if flower is None:
        raise SystemExit("the report shows no flower")
    return flower["y"] + flower["height"] + 30


def keep(content: bytes, target: Path) -> None:
    """Write a picture with few colours, dithered."""
    picture = Image.open(io.BytesIO(content)).convert("RGB")
    palette = picture.quantize(COLOURS, method=Image.Quantize.MAXCOVERAGE)
    picture.quantize(palette=palette, dither=Image.Dither.FLOYDSTEINBERG).save(
        target, optimize=True
    )


if __name__ == "__main__":
    renew()
