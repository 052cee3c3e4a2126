"""Draw the worked example of one's own paints anew: its swatches and its card.

Run it by hand after a change of the card or of the invented paints: ``python -m
tests.readme.renew_own_paints``. It needs what the extra `photo` brings. What is painted is invented
(`tests/fitting/invented_paints.py`): other shapes than the demo's profiles, an unsteady hand, and a
camera in a poor light that sees otherwise than the eye.
"""

import csv
import io
from pathlib import Path

import numpy as np
from tests.card.photographed import Shot
from tests.fitting.invented_camera import InventedCamera
from tests.fitting.invented_paints import BLACK, InventedPaints, painted_sheet, screen_colour
from tests.fitting.painted_card import photographed_card

from fewtubes.card.layout_text import LAYOUT_NAME, layout_text
from fewtubes.catalogue.reading import read_catalogue
from fewtubes.coverage.cache import default_cache
from fewtubes.coverage.optics import usual_optics
from fewtubes.fitting.sheet import ScreenColour, Seen, SwatchSheet
from fewtubes.mixing.bare_paper import paper_lab
from fewtubes.mixing.mixture import Optics, reflectance_lab
from fewtubes.mixing.surface import with_surface

FOLDER = Path(__file__).parents[2] / "scenarios" / "own-paints"

SEED = 11

STRONG = 1.8
"""Factor on absorption: artists' paint, which leaves take."""

TUBES = (
    ("own yellow", "PY154"),
    ("own orange", "PO62"),
    ("own red", "PR254"),
    ("own pink", "PR122"),
    ("own warm blue", "PB29"),
    ("own cold blue", "PB15:3"),
    ("own green", "PG36 + PY154"),
    ("old yellow", ""),
)
"""Name and what the label says; one label is gone."""

SHOT = Shot(width=1200, seed=SEED)


def true_paints() -> tuple[InventedPaints, np.random.Generator]:
    """Return the paints of the example, which no painter ever knows, and the luck of painting."""
    random = np.random.default_rng(SEED)
    drawn = InventedPaints.drawn(random, len(TUBES))
    return InventedPaints(STRONG * drawn.K, drawn.S), random


def renew() -> None:
    """Write swatches, card and photograph."""
    optics = usual_optics(read_catalogue(), default_cache())
    paints, random = true_paints()
    sheet = painted_sheet(
        paints, random, optics, strengths=(1.0, 0.5, 0.25), over_black=True, as_hex=True
    )
    FOLDER.mkdir(exist_ok=True)
    (FOLDER / "swatches.csv").write_text(_table(sheet, optics), encoding="utf-8")
    card, pictures = photographed_card(
        paints,
        random,
        optics,
        names=[name for name, _ in TUBES],
        shot=SHOT,
        camera=InventedCamera.made_for(optics),
    )
    layout = layout_text(card)
    for name, codes in TUBES:
        layout = layout.replace(
            f'name = "{name}"\npigments = ""', f'name = "{name}"\npigments = "{codes}"'
        )
    (FOLDER / LAYOUT_NAME).write_text(layout, encoding="utf-8")
    (FOLDER / "card.jpg").write_bytes(pictures[0])


def _table(sheet: SwatchSheet, optics: Optics) -> str:
    """Return the table of swatches as a painter would type it."""
    text = io.StringIO()
    rows = csv.writer(text, lineterminator="\n")
    rows.writerow(("tube", "pigments", "strength", "over", "hex"))
    rows.writerow(("paper", "", "", "", _hex(screen_colour(paper_lab(optics)))))
    line = reflectance_lab(with_surface(np.full_like(optics.ground, BLACK)), optics)
    rows.writerow(("black line", "", "", "", _hex(screen_colour(line))))
    for tube, (name, codes) in zip(sheet.tubes, TUBES, strict=True):
        for swatch in tube.swatches:
            over = "black" if swatch.over_black else "paper"
            rows.writerow((name, codes, f"{swatch.strength:g}", over, _hex(swatch.colour)))
    return text.getvalue()


def _hex(colour: Seen) -> str:
    assert isinstance(colour, ScreenColour)
    return "#{:02x}{:02x}{:02x}".format(*colour.channels)


if __name__ == "__main__":
    renew()
