"""Reads a table of painted swatches, ``SWATCHES.csv``.

A row a swatch. Its colour is given in one of three ways: as a screen colour, as CIELAB in daylight,
or as a measured spectrum. Two names are kept for what is not painted: ``paper``, the bare paper,
and ``black line``, the bare line beneath the swatches over black.
"""

import math
from collections.abc import Iterable, Sequence
from dataclasses import replace
from os import PathLike

from fewtubes import defaults
from fewtubes.catalogue.collector import FaultCollector
from fewtubes.catalogue.files import HeldFile, shown_name, source_of
from fewtubes.catalogue.flowers import lab_of
from fewtubes.catalogue.limits import (
    REFLECTANCE,
    NumberRange,
    parsed_number,
    shown,
)
from fewtubes.catalogue.names import alike_key
from fewtubes.catalogue.pigments import CATEGORIES, HAZARDS, written_codes
from fewtubes.catalogue.records import Hazard
from fewtubes.catalogue.rows import BAND_COLUMNS, Row
from fewtubes.catalogue.tables import read_table
from fewtubes.colour.colour_cells import LAB_COLUMNS, one_way, screen_colour
from fewtubes.fitting.sheet import (
    LabelSays,
    PaintedSwatch,
    PaintedTube,
    ScreenColour,
    Seen,
    SeenLab,
    SeenReflectance,
    SwatchSheet,
)

__all__ = ["BLACK_LINE", "NOISE", "PAPER", "SWATCH_COLUMNS", "read_swatches"]

PAPER, BLACK_LINE = "paper", "black line"
"""Names in the column ``tube`` of what lies beneath the swatches."""

NEEDED_COLUMNS = ("tube", "strength")
LABEL_COLUMNS = ("pigments", "lightfastness", "hazard", "hazard_note")
SWATCH_COLUMNS = (*NEEDED_COLUMNS, "over", "hex", *LAB_COLUMNS, *LABEL_COLUMNS, *BAND_COLUMNS)
"""All columns that a table of swatches may have; the first two it must have."""

NUMBERS = ("strength", *LAB_COLUMNS, *BAND_COLUMNS)
"""Columns that may have decimal commas where semicolons or tabs part the cells."""

WAYS = {"hex": ("hex",), "L, a, b": LAB_COLUMNS, "nm380 … nm730": BAND_COLUMNS}
"""In which a colour may be given, and their columns."""

NO_HAZARD = "none"
"""Written where the label names no hazard, which overrules what is known of the pigments."""

GROUNDS = {"paper": False, "black": True}

STRENGTH = NumberRange(0.01, 1)
"""Share of a full-strength stroke; thinner washes cannot be told from the paper."""

NOISE = NumberRange(0.05, 10)
"""Standard deviation of each of L*, a*, b*; an instrument repeats to 0.1."""

MEASURED_NOISE = 0.5
"""The same where a spectrum was measured: what two instruments differ by; our own assumption."""


def read_swatches(
    path: str | PathLike[str] | HeldFile, *, colour_noise: float = defaults.COLOUR_NOISE
) -> SwatchSheet:
    """Return the swatches of a table.

    Parameters
    ----------
    path
        The CSV file, or what is held of one in memory; its columns are `SWATCH_COLUMNS`. Cells may
        be parted by semicolons or tabs as well, decimals then stand after a comma or a point.
    colour_noise
        How far a screen colour or CIELAB value may be off, as a standard deviation of each of L*,
        a* and b*, 0.05 to 10.

    Raises
    ------
    InputError
        With every fault of the table.

    Examples
    --------
    >>> import tempfile
    >>> from pathlib import Path
    >>> import fewtubes
    >>> with tempfile.TemporaryDirectory() as folder:
    ...     file = Path(folder) / "swatches.csv"
    ...     rows = ["tube,strength,hex", "paper,,#f4f1e8", "rose,1,#b3204f", "rose,0.25,#e2a3b4"]
    ...     _ = file.write_text(chr(10).join(rows))
    ...     sheet = fewtubes.read_swatches(file)
    >>> [swatch.strength for swatch in sheet.tubes[0].swatches]
    [1.0, 0.25]
    """
    collector = FaultCollector()
    collector.note_fault("colour_noise", NOISE.fault(colour_noise))
    file = source_of(path)
    table = read_table(
        file,
        NEEDED_COLUMNS,
        collector,
        optional=SWATCH_COLUMNS[len(NEEDED_COLUMNS) :],
        numbers=NUMBERS,
    )
    sheet = _sheet(shown_name(file), table.rows, colour_noise)
    if table.readable and sheet.paper is None:
        collector.note(
            table.file,
            f"has no row for the bare paper; add one with tube {shown(PAPER)}, its strength blank,"
            " and the colour of the paper beside the swatches.",
        )
    if table.readable and not sheet.tubes:
        collector.note(table.file, "has no swatch of any tube; add a row for each.")
    collector.raise_if_any()
    return sheet


def _sheet(label: str, rows: Sequence[Row], noise: float) -> SwatchSheet:
    """Return what the rows say; faults are noted."""
    tubes: dict[str, PaintedTube] = {}
    grounds: dict[str, Seen | None] = {}
    spelt: dict[str, str] = {}
    for row in rows:
        name = row.text("tube")
        name = spelt.setdefault(alike_key(name), name)
        colour = _colour(row)
        ground = alike_key(name)
        if ground in (PAPER, BLACK_LINE):
            if ground in grounds:
                row.note(f"{shown(name)} is given twice; keep one row, the mean of the two")
            grounds[ground] = colour
            continue
        before = tubes.get(name, PaintedTube(name, (), ()))
        swatch = _swatch(row, colour, noise)
        swatches = before.swatches if swatch is None else (*before.swatches, swatch)
        tubes[name] = replace(_with_label(row, before), swatches=_strongest_first(swatches))
    return SwatchSheet(label, grounds.get(PAPER), tuple(tubes.values()), grounds.get(BLACK_LINE))


def _strongest_first(swatches: Iterable[PaintedSwatch]) -> tuple[PaintedSwatch, ...]:
    return tuple(sorted(swatches, key=lambda swatch: (swatch.over_black, -swatch.strength)))


def _swatch(row: Row, colour: Seen | None, noise: float) -> PaintedSwatch | None:
    """Return the swatch of a row, or None where its colour could not be read."""
    strength = _strength(row)
    over = row.cells.get("over", "")
    over_black = row.word("over", GROUNDS) if over else False
    if colour is None:
        return None
    measured = isinstance(colour, SeenReflectance)
    sure = min(noise, MEASURED_NOISE) if measured else noise
    return PaintedSwatch(row.where, strength, over_black, colour, sure)


def _strength(row: Row) -> float:
    """Return the share of a full-strength stroke [0–1]; NaN after a fault."""
    value = parsed_number(row.cells["strength"])
    if value is not None and STRENGTH.admits(value):
        return value
    text = row.as_written("strength")
    row.note(
        f"strength is {shown(text) if text else 'blank'}; write the share of a full-strength"
        f" stroke, {STRENGTH}: 1, or 0.5 for half, 0.25 for a quarter"
    )
    return math.nan


def _colour(row: Row) -> Seen | None:
    """Return the colour of a row, given in exactly one way, or None after a fault."""
    way = one_way(row, WAYS, fill_in="one of hex, the three of L, a, b, or all of nm380 … nm730")
    if way == "hex":
        text = screen_colour(row)
        return None if text is None else ScreenColour(_counts(text))
    if way == "L, a, b":
        return SeenLab(lab_of(row))
    return None if way is None else SeenReflectance(row.spectrum(REFLECTANCE))


def _counts(text: str) -> tuple[int, int, int]:
    """Return red, green and blue of ``#rrggbb`` [0–255]."""
    red, green, blue = (int(text[place : place + 2], 16) for place in (1, 3, 5))
    return red, green, blue


def _with_label(row: Row, tube: PaintedTube) -> PaintedTube:
    """Return the tube with what this row says of its label; a contradiction is noted."""
    cells = row.cells
    codes = _codes(row) if cells.get("pigments") else tube.codes
    if tube.codes and set(codes) != set(tube.codes):
        row.note(
            f"pigments is {shown(cells['pigments'])}, but an earlier row of {shown(tube.name)} says"
            f" {shown(' + '.join(tube.codes))}; write the same, or leave it blank"
        )
    return replace(tube, codes=tube.codes or codes, label=_label(row, tube))


def _label(row: Row, tube: PaintedTube) -> LabelSays:
    """Return what this row and earlier ones say of a tube's lightfastness and hazards."""
    label = tube.label
    if row.cells.get("lightfastness"):
        said = row.word("lightfastness", CATEGORIES)
        if label.lightfastness not in (None, said):
            row.note(_against("lightfastness", row.cells["lightfastness"], tube.name))
        label = replace(label, lightfastness=said)
    hazards = _hazards(row)
    if hazards is None:
        return label
    note = row.remark("hazard_note")
    if label.hazards is not None and (set(hazards), note) != (
        set(label.hazards),
        label.hazard_note,
    ):
        word = row.cells.get("hazard") or row.cells.get("hazard_note", "")
        row.note(_against("hazard", word, tube.name))
    return replace(label, hazards=hazards, hazard_note=note)


def _against(column: str, word: str, name: str) -> str:
    return (
        f"{column} is {shown(word)}, but an earlier row of {shown(name)} says otherwise; write the"
        " same, or leave it blank"
    )


def _codes(row: Row) -> tuple[str, ...]:
    """Return the Colour Index names of a cell such as ``PR122 + PB29``."""
    text = row.cells["pigments"]
    codes, wrong = written_codes(text)
    if wrong is not None:
        row.note(
            f"pigments is {shown(text)}; write Colour Index names joined by +, such as PR122 +"
            " PB29, or leave it blank"
        )
    return codes


def _hazards(row: Row) -> tuple[Hazard, ...] | None:
    """Return what the label says of hazards, or None where it says nothing."""
    word, note = row.cells.get("hazard", ""), row.cells.get("hazard_note", "")
    if word == NO_HAZARD:
        return ()
    if word and not note:
        row.note(f"hazard is {shown(word)} but hazard_note is blank; say what care it calls for")
    if word:
        return row.several_words("hazard", HAZARDS)
    return (Hazard.OTHER,) if note else None
