"""Put a picture of the present illustrated report where the README shows it.

Run it by hand after a change that is meant to change the report: ``python
tests/readme/renew_picture.py``. It needs what the extra `browser` brings, and Chromium on PATH.
"""

import io
import shutil
import subprocess
import sys
from pathlib import Path
from tempfile import TemporaryDirectory

from PIL import Image
from playwright.sync_api import sync_playwright

ROOT = Path(__file__).parents[2]
SCENARIO = ROOT / "scenarios" / "first-set.toml"
PICTURE = ROOT / "scenarios" / "first-set-page.png"

WIDTH = 900
"""Of the window [px]."""

COLOURS = 256
"""In the file; enough, dithered, for strokes without steps."""


def renew() -> None:
    """Write the picture: the report down to its first flower."""
    with TemporaryDirectory() as folder:
        report = Path(folder, "report.html")
        subprocess.run(  # noqa: S603  # our own program, arguments of our own
            [sys.executable, "-m", "fewtubes", "shop", str(SCENARIO), "--report", str(report)],
            capture_output=True,
            check=True,
        )
        picture = Image.open(io.BytesIO(photographed(report))).convert("RGB")
    palette = picture.quantize(COLOURS, method=Image.Quantize.MAXCOVERAGE)
    reduced = picture.quantize(palette=palette, dither=Image.Dither.FLOYDSTEINBERG)
    reduced.save(PICTURE, optimize=True)


def photographed(report: Path) -> bytes:
    """Return the top of a report as the content of a PNG file."""
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(
            executable_path=shutil.which("chromium"), args=["--no-sandbox"]
        )
        page = browser.new_page(viewport={"width": WIDTH, "height": 800})
        page.goto(report.as_uri())
        flower = page.locator(".flower").first.bounding_box()
        if flower is None:
            raise SystemExit("the report shows no flower")
        bottom = flower["y"] + flower["height"]
        taken: bytes = page.screenshot(
            full_page=True, clip={"x": 0, "y": 0, "width": WIDTH, "height": bottom + 30}
        )
        browser.close()
    return taken


if __name__ == "__main__":
    renew()
