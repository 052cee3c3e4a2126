"""How near colours read from a photographed card are, and mixtures of tubes fitted to them.

Run it by hand; it is not a test and pytest does not collect it::

    python -m tests.benchmarks.bench_card [CARDS]

Each card has 14 invented paints (`tests/fitting/invented_paints.py`), painted by a hand that strays
by 12 % and photographed in the light of `tests/card/photographed.py`: 0.7 to 1.0 over the card,
channels 1.05 : 1 : 0.86, JPEG 90. Colours that a photograph cannot show are compared as it would
show them. 600 mixtures of two and three fitted tubes are compared with the true ones.
"""

import sys
import time

import numpy as np
from tests.card.photographed import Shot, painted_sheet, photographed
from tests.fitting.invented_paints import BLACK, InventedPaints, loads_of_mixtures

from fewtubes.card.arrangement import arranged_card
from fewtubes.card.layout import CardLayout
from fewtubes.card.reading import read_cards
from fewtubes.catalogue.reading import read_catalogue
from fewtubes.colour.bands import FloatArray
from fewtubes.colour.difference import delta_e_2000
from fewtubes.colour.display import hex_to_lab, lab_to_linear, linear_to_lab
from fewtubes.coverage.cache import default_cache
from fewtubes.coverage.optics import usual_optics
from fewtubes.fitting.fit import fit
from fewtubes.fitting.sheet import ScreenColour, SeenLab, SwatchSheet
from fewtubes.mixing.film import film_reflectance
from fewtubes.mixing.mixture import Optics, film_lab, reflectance_lab
from fewtubes.mixing.surface import with_surface

__all__ = ["main"]

PAINTS = 14

HAND = 0.12
"""Standard deviation of ln(true ÷ meant strength)."""

DOTS_PER_MM = 6.0


def main(cards: int) -> None:
    """Photograph, read and fit so many cards, and print what came of it."""
    optics = usual_optics(read_catalogue(), default_cache())
    colours, mixtures, strong, seconds = [], [], [], []
    for seed in range(cards):
        random = np.random.default_rng(seed)
        paints = InventedPaints.drawn(random, PAINTS)
        card = arranged_card("A4", [f"paint {place + 1}" for place in range(PAINTS)])
        pictures, true = _photographs(card, paints, random, optics, seed=seed)
        began = time.perf_counter()
        sheet = read_cards(pictures, card).sheet
        seconds.append(time.perf_counter() - began)
        colours.append(_colours_off(sheet, true))
        found = fit(sheet, cache=default_cache())
        K, S = (np.array([getattr(tube, part) for tube in found.tubes]) for part in ("K", "S"))
        for off, weakest in ((mixtures, 0.0), (strong, 0.125 - 1e-9)):
            loads = loads_of_mixtures(random, PAINTS, weakest=weakest)
            seen = film_lab(loads @ K, loads @ S, optics)
            off.append(delta_e_2000(paints.labs(loads, optics), seen))
    print(f"{cards} cards of {PAINTS} tubes, two photographs each, read in", end=" ")
    print(f"{np.median(seconds):.2f} s")
    for name, off in (
        ("colours read", colours),
        ("mixtures, all washes", mixtures),
        ("mixtures, an eighth or stronger", strong),
    ):
        middle, most = np.quantile(np.concatenate(off), (0.5, 0.9))
        print(f"  {name}: median {middle:.2f}, 90 % {most:.2f}")


True_ = dict[tuple[str, float, bool], FloatArray]


def _photographs(
    card: CardLayout,
    paints: InventedPaints,
    random: np.random.Generator,
    optics: Optics,
    *,
    seed: int,
) -> tuple[list[bytes], True_]:
    """Return a photograph of each sheet, and CIELAB by tube, strength and whether over black."""
    rows = [row for sheet in card.sheets for row in sheet.rows]
    true = {}
    for row, K, S in zip(rows, paints.K, paints.S, strict=True):
        for box in row.boxes:
            load = box.strength * np.exp(random.normal(0, HAND))
            ground = BLACK if box.over_black else optics.ground
            seen = with_surface(np.asarray(film_reflectance(load * K, load * S, ground)))
            true[row.name, box.strength, box.over_black] = reflectance_lab(seen, optics)
    nothing = np.zeros_like(optics.ground)
    paper = lab_to_linear(film_lab(nothing, nothing, optics))
    pictures = []
    for sheet in card.sheets:
        colours = {
            (place, box_place): lab_to_linear(true[row.name, box.strength, box.over_black])
            for place, row in enumerate(sheet.rows)
            for box_place, box in enumerate(row.boxes)
        }
        painted = painted_sheet(card, sheet, colours, paper, seed=seed, dots_per_mm=DOTS_PER_MM)
        pictures.append(photographed(painted, Shot(seed=seed)))
    return pictures, true


def _colours_off(sheet: SwatchSheet, true: True_) -> FloatArray:
    """Return how far colours are off [ΔE00]."""
    off = []
    for tube in sheet.tubes:
        for swatch in tube.swatches:
            lab = true[tube.name, swatch.strength, swatch.over_black]
            if isinstance(swatch.colour, ScreenColour):
                seen = hex_to_lab("#{:02x}{:02x}{:02x}".format(*swatch.colour.channels))
                lab = linear_to_lab(np.clip(lab_to_linear(lab), 0, 1))
            else:
                assert isinstance(swatch.colour, SeenLab)  # what a card gives
                seen = np.array(swatch.colour.lab)
            off.append(float(delta_e_2000(seen, lab)))
    return np.array(off)


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 10)
