"""How near the colours are that are read from a photographed card, and how long that takes.

Run it by hand; it is not a test and pytest does not collect it::

    python -m tests.benchmarks.bench_card [CARDS]

A card of 14 tubes of the demo is photographed by computation (`tests/card/photographed.py`): light
of 0.7 to 1.0 over the card, channels 1.05 : 1 : 0.86, JPEG 90, and worse ones. Colours that a
photograph cannot show are left out. What mixtures come of it is told by `bench_fit`.
"""

import resource
import sys
import time
from dataclasses import replace

import numpy as np
from tests.card.painted import PaintedCard, painted_card
from tests.card.photographed import Shot, photographed

from fewtubes.card.reading import read_cards
from fewtubes.colour.difference import delta_e_2000
from fewtubes.coverage.cache import default_cache
from fewtubes.fitting.sheet import SeenLab, SwatchSheet

__all__ = ["main"]

TUBES = 14

SHOTS = {
    "as above, 1800 × 2540 pixels": Shot(),
    "900 × 1270 pixels": Shot(width=900),
    "light from 0.4 to 1, channels 1.25 : 1 : 0.75": Shot(
        darkest=0.4, channels=(1.25, 1.0, 0.75), exposure=0.7
    ),
    "a third of the exposure": Shot(exposure=0.3),
    "four times the noise": Shot(noise=4.0),
    "blurred by half a millimetre": Shot(blur=3.6),
    "JPEG 60": Shot(quality=60),
}


def main(cards: int) -> None:
    """Photograph and read so many cards of each kind, and print what came of it."""
    painted = painted_card("A4", TUBES, default_cache())
    for name, shot in SHOTS.items():
        off: list[float] = []
        seconds = []
        for seed in range(cards):
            pictures = [photographed(sheet, replace(shot, seed=seed)) for sheet in painted.sheets]
            began = time.perf_counter()
            sheet = read_cards(pictures, painted.card).sheet
            seconds.append(time.perf_counter() - began)
            off += _off(sheet, painted)
        middle, most = np.quantile(off, (0.5, 0.9))
        print(
            f"{name}: median {middle:.2f}, 90 % {most:.2f}, most {max(off):.2f}"
            f" ({np.median(seconds):.2f} s for {len(painted.sheets)} photographs)"
        )
    peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
    print(f"peak memory, making the photographs included: {peak:.0f} MiB")


def _off(sheet: SwatchSheet, painted: PaintedCard) -> list[float]:
    """Return how far colours are off [ΔE00]."""
    return [
        float(
            delta_e_2000(
                np.array(swatch.colour.lab),
                painted.labs[tube.name, swatch.strength, swatch.over_black],
            )
        )
        for tube in sheet.tubes
        for swatch in tube.swatches
        if isinstance(swatch.colour, SeenLab)
    ]


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 10)
