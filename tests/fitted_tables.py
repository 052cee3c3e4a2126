"""Tables with fitted pigments in them, for tests: likely spectra made from a seed."""

import csv
from collections.abc import Mapping
from pathlib import Path

import numpy as np

from fewtubes.catalogue.likely import LIKELY_COLUMNS
from fewtubes.catalogue.reading import LIKELY_TABLE, read_catalogue
from fewtubes.catalogue.records import LikelySpectra, Pigment

DRAWS = 24
SPREAD = 0.08
"""Standard deviation of the natural logarithm of each likely spectrum's strength."""


def likely_about(pigment: Pigment, *, draws: int = DRAWS, spread: float = SPREAD) -> LikelySpectra:
    """Return likely spectra of a pigment: its own, somewhat stronger or weaker, K and S apart."""
    normals = np.random.default_rng(len(pigment.id)).standard_normal((2, draws, 1))
    K, S = np.exp(spread * normals)
    return LikelySpectra(K * pigment.K, S * pigment.S)


def write_likely(folder: Path, likely: Mapping[str, LikelySpectra]) -> None:
    """Write the table of likely spectra into a catalogue's folder."""
    with (folder / LIKELY_TABLE).open("w", encoding="utf-8", newline="") as file:
        table = csv.writer(file, lineterminator="\n")
        table.writerow(LIKELY_COLUMNS)
        for pigment, spectra in likely.items():
            for draw, (K, S) in enumerate(zip(spectra.K, spectra.S, strict=True), start=1):
                table.writerow([pigment, draw, "K", *(f"{value:.6g}" for value in K)])
                table.writerow([pigment, draw, "S", *(f"{value:.6g}" for value in S)])


def fit(folder: Path, *pigments: str) -> None:
    """Give pigments of the catalogue in a folder likely spectra, as if they had been fitted."""
    held = read_catalogue(folder).pigments
    write_likely(folder, {id_: likely_about(held[id_]) for id_ in pigments})
