"""The pigments: properties from `pigments.csv`, K and S from `spectra.csv`, how sure they are."""

import re
from collections.abc import Collection, Mapping
from dataclasses import replace

import numpy as np

from fewtubes.catalogue.likely import read_likely_spectra
from fewtubes.catalogue.limits import COEFFICIENT, shown
from fewtubes.catalogue.records import CODE_JOINT, Hazard, Lightfastness, Pigment, Trait
from fewtubes.catalogue.repeats import Sightings
from fewtubes.catalogue.rows import BAND_COLUMNS, Row, is_identifier
from fewtubes.catalogue.tables import ReadTable
from fewtubes.colour.bands import BAND_COUNT, FloatArray

__all__ = [
    "CATEGORIES",
    "CODE",
    "HAZARDS",
    "PIGMENT_COLUMNS",
    "SPECTRUM_COLUMNS",
    "has_colour",
    "read_pigments",
    "written_codes",
]

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

LEAST_COLOUR = 1e-3
"""K + S [1/load] below which a film is not seen: it takes or adds a five-hundredth of the light.

Over paper R = Rg exp(−2K), over black about S (see `fewtubes.mixing.film`).
"""

Spectra = Mapping[tuple[str, str], FloatArray]


def read_pigments(pigments: ReadTable, spectra: ReadTable, likely: ReadTable) -> dict[str, Pigment]:
    """Return the pigments by id; a pigment without its two spectra is a fault.

    Parameters
    ----------
    pigments, spectra, likely
        The three tables.
    """
    seen = Sightings()
    # First, so that a fault is told before what follows from it.
    found = [
        (row, pigment)
        for row in pigments.rows
        for pigment in [_pigment(row)]
        if seen.is_new(row, (pigment.id,), f"the pigment {shown(pigment.id)}")
    ]
    known = [row.cells["pigment"] for row in pigments.rows] if pigments.readable else None
    curves = _read_spectra(spectra, known)
    if spectra.readable:
        for row, pigment in found:
            _check_spectra(row, pigment.id, curves)
    as_likely = read_likely_spectra(likely, known)
    nothing = np.zeros(BAND_COUNT)
    return {
        pigment.id: replace(
            pigment,
            K=curves.get((pigment.id, "K"), nothing),
            S=curves.get((pigment.id, "S"), nothing),
            likely=as_likely.get(pigment.id),
        )
        for _, pigment in found
    }


def written_codes(text: str) -> tuple[tuple[str, ...], str | None]:
    """Return the Colour Index names of a label, each once, and the first that is none.

    Parameters
    ----------
    text
        Names joined by plus signs, commas, strokes or blanks, in any capitals.

    Examples
    --------
    >>> written_codes("PR122 + PB29")
    (('PR122', 'PB29'), None)
    >>> written_codes("pbr7, rose")
    (('PBr7', 'rose'), 'rose')
    """
    words = re.split(r"[\s+,/]+", text)
    codes = tuple(dict.fromkeys(_as_spelt(word) for word in words if word))
    wrong = [code for code in codes if not CODE.fullmatch(code)]
    return codes, wrong[0] if wrong else None if codes else text


def _as_spelt(code: str) -> str:
    """Return a Colour Index name with its capitals, as in PBr7, however it was typed."""
    family = code.rstrip("0123456789:")
    spelt = family[:2].upper() + family[2:].lower() + code[len(family) :]
    return spelt if CODE.fullmatch(spelt) else code


def has_colour(K: FloatArray, S: FloatArray) -> bool:
    """Return whether a full-strength film can be seen; also where a value could not be read.

    Parameters
    ----------
    K, S
        Absorption and scattering [1/load], shapes (bands,).
    """
    return not bool((K + S < LEAST_COLOUR).all())


def _read_spectra(spectra: ReadTable, known: Collection[str] | None) -> Spectra:
    """Return the spectra by pigment and quantity; one of a faulty quantity stands for both."""
    curves: dict[tuple[str, str], FloatArray] = {}
    seen = Sightings()
    unread = np.full(BAND_COUNT, np.nan)
    for row in spectra.rows:
        pigment = row.reference("pigment", known, "pigments.csv")
        quantity = row.word("quantity", QUANTITIES)
        curve = row.spectrum(COEFFICIENT)
        if row.cells["quantity"] not in QUANTITIES:
            for either in QUANTITIES:
                curves.setdefault((pigment, either), unread)
        elif seen.is_new(row, (pigment, quantity), f"{quantity} of the pigment {shown(pigment)}"):
            curves[pigment, quantity] = curve
    return curves


def _check_spectra(row: Row, pigment: str, curves: Spectra) -> None:
    """Note a pigment that lacks a spectrum, or whose spectra are nothing."""
    missing = [quantity for quantity in QUANTITIES if (pigment, quantity) not in curves]
    for quantity in missing if is_identifier(pigment) else ():
        row.note(
            f"the pigment {shown(pigment)} has no {quantity} in spectra.csv; add a row with"
            f" quantity {quantity} there"
        )
    if not missing and not has_colour(curves[pigment, "K"], curves[pigment, "S"]):
        row.note(
            f"the pigment {shown(pigment)} has no colour: K and S in spectra.csv are below"
            f" {LEAST_COLOUR:g} on every band; give what was measured"
        )


def _pigment(row: Row) -> Pigment:
    """Return a pigment with what its own row tells, its spectra zero."""
    nothing = np.zeros(BAND_COUNT)
    return Pigment(
        id=row.identifier("pigment"),
        code=_code(row),
        name=row.text("name"),
        chemical_class=row.text("class"),
        lightfastness=row.word("lightfastness", CATEGORIES),
        blue_wool=row.word("blue_wool", BLUE_WOOL) if row.cells["blue_wool"] else None,
        staining=_trait(row, "staining"),
        granulating=_trait(row, "granulating"),
        hazards=_hazards(row),
        hazard_note=row.remark("hazard_note"),
        K=nothing,
        S=nothing,
    )


def _code(row: Row) -> str:
    """Return the Colour Index names as they are joined; blank where they are not known."""
    code = row.cells["code"]
    names = code.split(CODE_JOINT) if code else []
    for name in names:
        if not CODE.fullmatch(name):
            row.note(
                f"code {shown(name)} is not a Colour Index generic name; write P or N (natural),"
                " one of Y O R V B G Br Bk W, and a number, such as PB29 or PV23:1; join several"
                f" as in PR122{CODE_JOINT}PB29, or leave it blank where it is not known"
            )
            break
    else:
        if len(set(names)) < len(names):
            row.note(f"code {shown(code)} names a pigment twice; keep one of them")
    return code


def _trait(row: Row, column: str) -> Trait | None:
    """Return how strong a trait is, None where the cell is blank: that is not known."""
    return row.word(column, TRAITS) if row.cells[column] else None


def _hazards(row: Row) -> tuple[Hazard, ...]:
    """Return the hazards; a note alone tells of one that has no word of its own."""
    word, note = row.cells["hazard"], row.cells["hazard_note"]
    if word and not note:
        row.note(f"hazard is {shown(word)} but hazard_note is blank; say what care it calls for")
    if word:
        return row.several_words("hazard", HAZARDS)
    return (Hazard.OTHER,) if note else ()
