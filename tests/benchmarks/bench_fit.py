"""How near mixtures of fitted tubes come to those of the true ones, and how long a fit takes.

Run it by hand; it is not a test and pytest does not collect it::

    python -m tests.benchmarks.bench_fit [SHEETS]

Paints are invented from a seed (`tests/fitting/invented_paints.py`): other shapes than the demo's,
which the fit knows. Each sheet has 14 paints in four strengths, seen with a standard deviation of
1.5 in each of L*, a* and b* and painted by a hand that strays by 12 %; 600 mixtures of two and
three are compared (ΔE00), first of all washes that recipes are made of, then of those of an eighth
or stronger only. "Within" is the share of true mixtures that lie within the 90 % told for them.
"""

import sys
import time
from collections.abc import Callable
from functools import partial

import numpy as np
from tests.fitting.invented_camera import InventedCamera
from tests.fitting.invented_paints import (
    InventedPaints,
    loads_of_mixtures,
    painted_sheet,
)
from tests.fitting.painted_card import photographed_card

from fewtubes.card.reading import read_cards
from fewtubes.catalogue.reading import read_catalogue
from fewtubes.colour.bands import FloatArray
from fewtubes.colour.difference import delta_e_2000
from fewtubes.coverage.cache import default_cache
from fewtubes.coverage.optics import usual_optics
from fewtubes.fitting.fit import Fit, fit
from fewtubes.fitting.sheet import SwatchSheet
from fewtubes.mixing.bare_paper import paper_lab
from fewtubes.mixing.mixture import Optics, film_lab

__all__ = ["main"]

PAINTS = 14

Compared = tuple[FloatArray, float]
"""Differences of mixtures, and the share that lies within what was told."""

Sheet = Callable[[InventedPaints, np.random.Generator, Optics], SwatchSheet]


def _of_card(
    paints: InventedPaints,
    random: np.random.Generator,
    optics: Optics,
    *,
    as_cameras_see: bool = False,
) -> SwatchSheet:
    """Return what is read from photographs of a card; light from 0.7 to 1, 1.05 : 1 : 0.86."""
    camera = InventedCamera.made_for(optics) if as_cameras_see else None
    names = [f"paint {number}" for number in range(1, PAINTS + 1)]
    card, pictures = photographed_card(paints, random, optics, names=names, camera=camera)
    L, a, b = paper_lab(optics).tolist()
    return read_cards(pictures, card, paper_lab=(L, a, b)).sheet


WAYS: dict[str, Sheet] = {
    "CIELAB": painted_sheet,
    "CIELAB, and a stroke over black": partial(painted_sheet, over_black=True),
    "screen colours": partial(painted_sheet, as_hex=True),
    "a photographed card": _of_card,
    "the same, by a camera that sees otherwise than the eye": partial(
        _of_card, as_cameras_see=True
    ),
}


def main(sheets: int) -> None:
    """Fit so many sheets in each way and print what came of it."""
    cache = default_cache()
    optics = usual_optics(read_catalogue(), cache)
    for name, way in WAYS.items():
        found = [_one(seed, optics, way) for seed in range(sheets)]
        seconds = float(np.median([item[1] for item in found]))
        print(f"{name}: {PAINTS} tubes in {seconds:.1f} s")
        for place, washes in enumerate(("all washes", "an eighth or stronger")):
            off = np.concatenate([item[0][place][0] for item in found])
            within = np.mean([item[0][place][1] for item in found])
            median, most = np.quantile(off, (0.5, 0.9))
            print(f"  {washes}: median {median:.2f}, 90 % {most:.2f}, within {within:.0%}")


def _one(seed: int, optics: Optics, way: Sheet) -> tuple[tuple[Compared, Compared], float]:
    """Return what came of all washes and of the strong ones, and the seconds of the fit."""
    random = np.random.default_rng(seed)
    paints = InventedPaints.drawn(random, PAINTS)
    sheet = way(paints, random, optics)
    began = time.perf_counter()
    found = fit(sheet, cache=default_cache())
    seconds = time.perf_counter() - began
    everything = loads_of_mixtures(random, PAINTS)
    strong = loads_of_mixtures(random, PAINTS, weakest=0.125 - 1e-9)
    both = (
        _compared(paints, found, everything, optics),
        _compared(paints, found, strong, optics),
    )
    return both, seconds


def _compared(paints: InventedPaints, found: Fit, loads: FloatArray, optics: Optics) -> Compared:
    """Return the differences of mixtures and the share that lies within what was told."""
    K, S = (np.array([getattr(tube, part) for tube in found.tubes]) for part in ("K", "S"))
    computed = film_lab(loads @ K, loads @ S, optics)
    off = delta_e_2000(paints.labs(loads, optics), computed)
    draws = [
        film_lab(
            loads @ np.array([tube.likely.K[draw] for tube in found.tubes]),
            loads @ np.array([tube.likely.S[draw] for tube in found.tubes]),
            optics,
        )
        for draw in range(len(found.tubes[0].likely.K))
    ]
    told = np.quantile(delta_e_2000(np.array(draws), computed), 0.9, axis=0)
    return off, float(np.mean(off <= told))


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 10)
