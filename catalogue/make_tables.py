"""Regenerate the computed tables of the demo catalogue.

- `spectra.csv` from the absorption bands in `bands.csv`,
- `papers.csv` from the reflectance shapes in `paper_shapes.csv`,
- `lights.csv` from the CIE illuminants held by colour-science (CIE 015:2018).

Run ``python catalogue/make_tables.py`` to write them beside this file, with ``--folder`` to write
elsewhere, with ``--check`` to compare only (exit code 1 when a table is stale).
"""

import argparse
import csv
import io
import sys
from collections.abc import Callable, Iterable, Mapping
from pathlib import Path

import numpy as np

from fewtubes.colour.bands import WAVELENGTH_NM, FloatArray

__all__ = ["TABLES", "main", "shape_curve", "tables_from"]

HERE = Path(__file__).parent

BAND_NAMES = [f"nm{wavelength:.0f}" for wavelength in WAVELENGTH_NM]

QUANTITIES = ("K", "S")

LIGHTS = {
    "D65": "daylight, north sky (CIE D65)",
    "D50": "daylight, warm (CIE D50)",
    "A": "filament lamp (CIE A)",
    "LED-B3": "white LED lamp, 4103 K (CIE LED-B3)",
}
"""Lights to take from the CIE tables, with the names they go by here."""

LIGHT_RANGE_NM = (380, 780, 5)
"""First and last wavelength and step of `lights.csv` [nm]."""

Row = Mapping[str, str]


def shape_curve(shape: str, centre_nm: float, width_nm: float) -> FloatArray:
    """Return one smooth shape of height 1 on the bands, shape (bands,).

    Parameters
    ----------
    shape
        ``peak``, exp(−½((λ − centre)/width)²); ``below``, 1/(1 + exp((λ − centre)/width)), which
        is 1 at short wavelengths; ``above``, its mirror image; ``even``, 1 everywhere (centre and
        width are not used).
    """
    if shape == "even":
        return np.ones_like(WAVELENGTH_NM)
    distance = (WAVELENGTH_NM - centre_nm) / width_nm
    if shape == "peak":
        return np.exp(-0.5 * distance**2)
    if shape == "below":
        return 1 / (1 + np.exp(distance))
    if shape == "above":
        return 1 / (1 + np.exp(-distance))
    raise ValueError(f"shape '{shape}' is none of even, peak, below, above")


def spectra_table(folder: Path) -> str:
    """Return `spectra.csv`: per pigment, K and S as the sum of its shapes [1/load]."""
    sums: dict[tuple[str, str], FloatArray] = {}
    for row in _rows(folder / "bands.csv"):
        curve = shape_curve(row["shape"], float(row["centre_nm"] or 0), float(row["width_nm"] or 1))
        key = row["pigment"], row["quantity"]
        sums[key] = sums.get(key, np.zeros_like(WAVELENGTH_NM)) + float(row["height"]) * curve
    pigments = dict.fromkeys(pigment for pigment, _ in sums)
    lines = (
        [pigment, quantity, *(f"{value:.5f}" for value in sums[pigment, quantity])]
        for pigment in pigments
        for quantity in QUANTITIES
    )
    return _csv_text(["pigment", "quantity", *BAND_NAMES], lines)


def papers_table(folder: Path) -> str:
    """Return `papers.csv`: a plateau less a drop in the violet and a drop that gives warmth."""
    lines = (
        [row["paper"], row["name"], *(f"{value:.4f}" for value in _paper_reflectance(row))]
        for row in _rows(folder / "paper_shapes.csv")
    )
    return _csv_text(["paper", "name", *BAND_NAMES], lines)


def _paper_reflectance(row: Row) -> FloatArray:
    """Return the reflectance [0–1] of one paper, shape (bands,)."""
    reflectance = np.full_like(WAVELENGTH_NM, float(row["plateau"]))
    for drop in ("violet", "warmth"):
        centre_nm, width_nm = float(row[f"{drop}_centre_nm"]), float(row[f"{drop}_width_nm"])
        reflectance -= float(row[f"{drop}_drop"]) * shape_curve("below", centre_nm, width_nm)
    return reflectance


def lights_table(_folder: Path) -> str:
    """Return `lights.csv`: relative spectral power of the CIE illuminants, long format."""
    import colour

    first, last, step = LIGHT_RANGE_NM
    wavelengths = np.arange(first, last + 1, step)
    lines = (
        [light, name, str(wavelength), f"{colour.SDS_ILLUMINANTS[light][wavelength]:.6g}"]
        for light, name in LIGHTS.items()
        for wavelength in wavelengths
    )
    return _csv_text(["light", "name", "nm", "power"], lines)


TABLES: dict[str, Callable[[Path], str]] = {
    "spectra.csv": spectra_table,
    "papers.csv": papers_table,
    "lights.csv": lights_table,
}
"""File name → the function that computes its text from the folder of hand-written tables."""


def tables_from(folder: Path) -> dict[str, str]:
    """Return the text of every computed table, from the hand-written tables in `folder`."""
    return {name: compute(folder) for name, compute in TABLES.items()}


def _rows(path: Path) -> list[dict[str, str]]:
    """Return the rows of a table by column name."""
    with path.open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def _csv_text(header: list[str], lines: Iterable[list[str]]) -> str:
    """Return a table as CSV text."""
    text = io.StringIO()
    writer = csv.writer(text, lineterminator="\n")
    writer.writerow(header)
    writer.writerows(lines)
    return text.getvalue()


def main(arguments: list[str] | None = None) -> int:
    """Write or check the computed tables; return the exit code, 1 when a table is stale."""
    parser = argparse.ArgumentParser(description="Regenerate the computed tables.")
    parser.add_argument("--folder", type=Path, default=HERE, help="where the tables go")
    parser.add_argument("--check", action="store_true", help="compare only")
    options = parser.parse_args(arguments)
    stale = 0
    for name, text in tables_from(HERE).items():
        path = options.folder / name
        if not options.check:
            path.write_text(text, encoding="utf-8", newline="")
        elif not path.is_file() or path.read_text(encoding="utf-8") != text:
            sys.stderr.write(f"{path} is stale; run python catalogue/make_tables.py\n")
            stale = 1
    return stale


if __name__ == "__main__":
    sys.exit(main())
