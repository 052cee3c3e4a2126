"""The lights, from `lights.csv`: relative spectral power, one row per wavelength."""

import re
from collections import defaultdict

import numpy as np

from fewtubes.catalogue.limits import POWER, NumberRange, shown
from fewtubes.catalogue.records import Light
from fewtubes.catalogue.repeats import Namesakes
from fewtubes.catalogue.rows import Row
from fewtubes.catalogue.tables import ReadTable
from fewtubes.colour.bands import WAVELENGTH_NM, FloatArray

__all__ = ["LIGHT_COLUMNS", "read_lights"]

LIGHT_COLUMNS = ("light", "name", "nm", "power")

LIGHT_IDENTIFIER = re.compile(r"[A-Za-z0-9]+(-[A-Za-z0-9]+)*", re.ASCII)
"""Illuminants carry the CIE's own capitals: D65, LED-B3."""

WAVELENGTH = NumberRange(200, 2000)
"""Wavelength of a light [nm]; what lies beyond the visible is allowed and does nothing."""

WIDEST_STEP_NM = 10.0
"""Widest step between wavelengths [nm]; CIE tables have 1 or 5, and the bands are 10 apart."""

WHITE_NEEDS_NM = ((400, 500), (500, 600), (600, 700))
"""A white point needs some blue, green and red light, or CIELAB would divide by nothing."""

LEAST_POWER = 1e-6
"""Greatest power of a light in the visible, at least; smaller figures lose digits in sums."""

LEAST_SHARE = 1e-3
"""Mean power of each third of the visible ÷ the greatest power; candles have a hundredth in the
blue (from memory)."""


def read_lights(table: ReadTable) -> dict[str, Light]:
    """Return the lights by id; a light's rows stand in the order of their wavelengths."""
    rows: dict[str, list[Row]] = defaultdict(list)
    for row in table.rows:
        rows[row.identifier("light", LIGHT_IDENTIFIER)].append(row)
    names, ids = Namesakes(), Namesakes()
    for light, own_rows in rows.items():
        ids.note_any(own_rows[0], light, "the light")
        names.note_any(own_rows[0], own_rows[0].cells["name"], "the light's name")
    return {light: _light(light, own_rows) for light, own_rows in rows.items()}


def _light(light: str, rows: list[Row]) -> Light:
    names = [row.text("name") for row in rows]
    for row, name in zip(rows, names, strict=True):
        if name and names[0] and name != names[0]:
            row.note(f"name is {shown(name)}, but {shown(names[0])} in the light's first row")
            break
    wavelength_nm = np.array([row.number("nm", WAVELENGTH) for row in rows])
    power = np.array([row.number("power", POWER) for row in rows])
    wavelength_nm.setflags(write=False)
    power.setflags(write=False)
    if np.isfinite(wavelength_nm).all() and np.isfinite(power).all():
        fault = _span_fault(wavelength_nm) or _power_fault(wavelength_nm, power)
        if fault:
            rows[0].note(f"the light {shown(light)} {fault}")
    return Light(id=light, name=names[0], wavelength_nm=wavelength_nm, power=power)


def _span_fault(wavelength_nm: FloatArray) -> str | None:
    """Return what is wrong with a light's wavelengths, as the end of a sentence, or None."""
    fractional = wavelength_nm % 1 != 0
    if fractional.any():
        at = wavelength_nm[fractional][0]
        return f"has {at:g} nm; only whole nanometres can be brought onto the observer's table"
    first, last = WAVELENGTH_NM[0], WAVELENGTH_NM[-1]
    if wavelength_nm.min() > first or wavelength_nm.max() < last:
        return (
            f"goes from {wavelength_nm.min():g} to {wavelength_nm.max():g} nm; it must span"
            f" {first:g} to {last:g} nm"
        )
    steps = np.diff(wavelength_nm)
    if (steps <= 0).any():
        at = wavelength_nm[1:][steps <= 0][0]
        return f"has {at:g} nm out of order or twice; sort its rows by nm, each once"
    odd = steps != steps[0]
    if odd.any():
        at = wavelength_nm[1:][odd][0]
        return f"has uneven steps (at {at:g} nm); give every step the same width"
    if steps[0] > WIDEST_STEP_NM:
        return f"has steps of {steps[0]:g} nm; at most {WIDEST_STEP_NM:g} nm are allowed"
    return None


def _power_fault(wavelength_nm: FloatArray, power: FloatArray) -> str | None:
    """Return what is wrong with a light's power, as the end of a sentence, or None."""
    thirds = [
        power[(wavelength_nm >= low) & (wavelength_nm < high)] for low, high in WHITE_NEEDS_NM
    ]
    greatest = max(third.max() for third in thirds)
    for (low, high), third in zip(WHITE_NEEDS_NM, thirds, strict=True):
        if not third.any():
            return f"has no power from {low} to {high} nm; a light to judge colour by needs some"
    if greatest < LEAST_POWER:
        return (
            f"has no power above {greatest:g}; multiply all its powers by one number, so that the"
            " greatest is about 100"
        )
    for (low, high), third in zip(WHITE_NEEDS_NM, thirds, strict=True):
        if third.mean() < LEAST_SHARE * greatest:
            return (
                f"has hardly any power from {low} to {high} nm, on average {third.mean():g} where"
                f" the greatest is {greatest:g}; a light to judge colour by needs a thousandth"
            )
    return None
