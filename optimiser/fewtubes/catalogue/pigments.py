"""The pigments: their properties from `pigments.csv`, their K and S from `spectra.csv`."""

import re
from collections.abc import Mapping

import numpy as np

from fewtubes.catalogue.limits import COEFFICIENT, shown
from fewtubes.catalogue.records import Hazard, Lightfastness, Pigment, Trait
from fewtubes.catalogue.rows import BAND_COLUMNS, Row, Sightings
from fewtubes.catalogue.tables import Table
from fewtubes.colour.bands import BAND_COUNT, FloatArray

__all__ = ["PIGMENT_COLUMNS", "SPECTRUM_COLUMNS", "read_pigments"]

PIGMENT_COLUMNS = (
    "pigment",
    "code",
    "name",
    "class",
    "lightfastness",
    "blue_wool",
    "staining",
    "granulating",
    "hazard",
    "hazard_note",
)

SPECTRUM_COLUMNS = ("pigment", "quantity", *BAND_COLUMNS)

CODE = re.compile(r"[PN](Y|O|R|V|B|G|Br|Bk|W)\d{1,4}(:\d{1,2})?", re.ASCII)
"""Colour Index generic names, P for pigment and N for natural, as in ASTM D5067, 3.1.1."""

CATEGORIES = {category.name: category for category in Lightfastness}
TRAITS = {trait.value: trait for trait in Trait}
HAZARDS = {hazard.value: hazard for hazard in Hazard}
QUANTITIES = {"K": "K", "S": "S"}

BLUE_WOOL = {str(reference): reference for reference in range(1, 9)}
"""References of ISO 105-B: 1 fades fastest, 8 lasts longest."""

Spectra = Mapping[tuple[str, str], FloatArray]


def read_pigments(pigments: Table, spectra: Table) -> dict[str, Pigment]:
    """Return the pigments by id; a pigment without its two spectra is a fault."""
    known = [row.cells["pigment"] for row in pigments.rows] if pigments.readable else None
    curves = _read_spectra(spectra, known)
    seen = Sightings()
    return {
        pigment.id: pigment
        for row in pigments.rows
        for pigment in [_pigment(row, curves, spectra_are_readable=spectra.readable)]
        if seen.is_new(row, pigment.id, f"the pigment {shown(pigment.id)}")
    }


def _read_spectra(spectra: Table, known: list[str] | None) -> Spectra:
    """Return the spectra by pigment and quantity."""
    curves: dict[tuple[str, str], FloatArray] = {}
    seen = Sightings()
    for row in spectra.rows:
        pigment = row.reference("pigment", known, "pigments.csv")
        quantity = row.word("quantity", QUANTITIES)
        curve = row.spectrum(COEFFICIENT)
        if seen.is_new(row, (pigment, quantity), f"{quantity} of the pigment {shown(pigment)}"):
            curves[pigment, quantity] = curve
    return curves


def _pigment(row: Row, curves: Spectra, *, spectra_are_readable: bool) -> Pigment:
    identifier = row.identifier("pigment")
    for quantity in QUANTITIES:
        if spectra_are_readable and (identifier, quantity) not in curves:
            row.note(
                f"the pigment {shown(identifier)} has no {quantity} in spectra.csv; add a row with"
                f" quantity {quantity} there"
            )
    hazard = row.word("hazard", HAZARDS) if row.cells["hazard"] else None
    return Pigment(
        id=identifier,
        code=_code(row),
        name=row.text("name"),
        chemical_class=row.text("class"),
        lightfastness=row.word("lightfastness", CATEGORIES),
        blue_wool=row.word("blue_wool", BLUE_WOOL) if row.cells["blue_wool"] else None,
        staining=row.word("staining", TRAITS),
        granulating=row.word("granulating", TRAITS),
        hazard=hazard,
        hazard_note=_hazard_note(row, hazard),
        K=curves.get((identifier, "K"), np.zeros(BAND_COUNT)),
        S=curves.get((identifier, "S"), np.zeros(BAND_COUNT)),
    )


def _code(row: Row) -> str:
    code = row.text("code")
    if code and not CODE.fullmatch(code):
        row.note(
            f"code {shown(code)} is not a Colour Index generic name; write P or N (natural), one of"
            " Y O R V B G Br Bk W, and a number, such as PB29 or PV23:1"
        )
    return code


def _hazard_note(row: Row, hazard: Hazard | None) -> str:
    note = row.remark("hazard_note")
    if hazard is not None and not note:
        row.note(f"hazard is '{hazard}' but hazard_note is blank; say what care it calls for")
    return note
