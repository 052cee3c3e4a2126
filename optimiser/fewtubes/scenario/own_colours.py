"""The painter's own colours: as a screen colour, as CIELAB, or as a measured reflectance."""

from pathlib import Path
from typing import Any

import numpy as np

from fewtubes.catalogue.files import shown_name
from fewtubes.catalogue.limits import IMPORTANCE, LIGHTNESS, OPPONENT, REFLECTANCE, NumberRange
from fewtubes.catalogue.sizes import LARGEST_MEASUREMENT, MOST_MEASURED
from fewtubes.catalogue.tables import TableSize, read_table
from fewtubes.colour.bands import BAND_COUNT, WAVELENGTH_NM, FloatArray
from fewtubes.colour.display import hex_to_lab
from fewtubes.scenario.entries import Entries, as_written, is_number, to_float, unquoted
from fewtubes.scenario.keys import COLOUR_KEYS, TOP_KEYS
from fewtubes.scenario.picture_entries import area_value

__all__ = ["given_colour", "own_colour_values"]

GIVEN_AS = ("hex", "lab", "reflectance")

MEASURED_COLUMNS = ("nm", "reflectance")

MEASURED_NM = NumberRange(200, 2500)
"""Wavelength of a measurement [nm]; instruments may reach beyond the visible."""

MEASUREMENT_SIZE = TableSize(LARGEST_MEASUREMENT, MOST_MEASURED)

WIDEST_GAP_NM = 10.0
"""Widest gap between measured wavelengths [nm], the width of a band."""

Lab = tuple[float, float, float]


def own_colour_values(entries: Entries, folder: Path) -> dict[str, Any]:
    """Return what one own colour is made of (see `OwnColour`).

    Parameters
    ----------
    entries
        Its table in the scenario's file.
    folder
        Where a reflectance file is looked for: the folder of the scenario's file.
    """
    entries.check_keys(COLOUR_KEYS, elsewhere=TOP_KEYS)
    name = entries.text("name")
    colour = given_colour(entries, folder)
    importance = entries.fraction("importance", IMPORTANCE, 1)
    return {"name": name, "importance": importance, **colour, **area_value(entries)}


def given_colour(entries: Entries, folder: Path) -> dict[str, Any]:
    """Return a colour as `lab` or as `reflectance`, given in exactly one of three ways.

    Parameters
    ----------
    entries
        The table that holds ``hex``, ``lab`` or ``reflectance``.
    folder
        As of `own_colour_values`.
    """
    given = [key for key in GIVEN_AS if key in entries.values]
    if len(given) != 1:
        entries.note(
            " or ".join(GIVEN_AS),
            f"{len(given)} of these are given; give the colour in exactly one of the three ways",
        )
    return {
        "lab": _lab_of_hex(entries)
        if "hex" in given
        else _lab(entries)
        if "lab" in given
        else None,
        "reflectance": _reflectance(entries, folder) if "reflectance" in given else None,
    }


def _lab_of_hex(entries: Entries) -> Lab | None:
    text = entries.text("hex")
    if not text:
        return None
    try:
        lightness, a, b = hex_to_lab(text).tolist()
    except ValueError:
        entries.note(
            "hex", f"is {as_written(text)}; it must be written as #rrggbb, such as #c21e56"
        )
        return None
    return lightness, a, b


def _lab(entries: Entries) -> Lab | None:
    value = entries.values["lab"]
    if not isinstance(value, list) or len(value) != 3:
        entries.note(
            "lab", f"is {as_written(value)}; it must be three numbers, such as [45, 60, 5]"
        )
        return None
    numbers = [to_float(item) if is_number(item) else float("nan") for item in value]
    limits = (("L*", LIGHTNESS), ("a*", OPPONENT), ("b*", OPPONENT))
    for item, number, (axis, allowed) in zip(value, numbers, limits, strict=True):
        fault = allowed.fault(number, shown_as=as_written(item), named=True)
        if fault:
            entries.note("lab", f"{axis} {fault}{unquoted(item)}")
    return numbers[0], numbers[1], numbers[2]


def _reflectance(entries: Entries, folder: Path) -> FloatArray | None:
    """Return a measured reflectance on the bands, read-only, shape (bands,)."""
    if not entries.text("reflectance"):
        return None
    path = folder / str(entries.values["reflectance"])  # as written, since files are found so
    where = f"{entries.where}, reflectance {shown_name(path)}"
    table = read_table(
        path, MEASURED_COLUMNS, entries.collector, where=where, size=MEASUREMENT_SIZE
    )
    if not table.readable:
        return None
    measured_nm = np.array([row.number("nm", MEASURED_NM) for row in table.rows])
    measured = np.array([row.number("reflectance", REFLECTANCE) for row in table.rows])
    if not (np.isfinite(measured_nm).all() and np.isfinite(measured).all()):
        return None
    fault = _coverage_fault(measured_nm)
    if fault:
        entries.collector.note(table.file, fault)
        return None
    return _on_bands(measured_nm, measured)


def _coverage_fault(measured_nm: FloatArray) -> str | None:
    """Return why the wavelengths do not serve, as a sentence, or None."""
    steps = np.diff(measured_nm)
    if (steps <= 0).any():
        at = measured_nm[1:][steps <= 0][0]
        return f"has {at:g} nm out of order or twice; sort the rows by nm, each once."
    first, last = WAVELENGTH_NM[0], WAVELENGTH_NM[-1]
    if measured_nm[0] > first or measured_nm[-1] < last:
        return (
            f"goes from {measured_nm[0]:g} to {measured_nm[-1]:g} nm; it must cover {first:g} to"
            f" {last:g} nm."
        )
    if (steps > WIDEST_GAP_NM).any():
        at = measured_nm[:-1][steps > WIDEST_GAP_NM][0]
        return f"has a gap after {at:g} nm; at most {WIDEST_GAP_NM:g} nm are allowed between rows."
    return None


def _on_bands(measured_nm: FloatArray, measured: FloatArray) -> FloatArray:
    """Return the values at the bands by straight lines, which never leave 0–1, shape (bands,)."""
    values: FloatArray = np.interp(WAVELENGTH_NM, measured_nm, measured).reshape(BAND_COUNT)
    values.setflags(write=False)
    return values
