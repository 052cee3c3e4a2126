"""Spectra that fit a painter's swatches as well, from the optional table `likely_spectra.csv`.

Each draw of a pigment is one paint that may be in the tube, K and S together. A pigment without
rows there was not fitted from swatches.
"""

from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass, field

import numpy as np

from fewtubes.catalogue.limits import COEFFICIENT, NumberRange, listed, shown
from fewtubes.catalogue.records import LikelySpectra
from fewtubes.catalogue.repeats import Sightings
from fewtubes.catalogue.rows import BAND_COLUMNS, Row
from fewtubes.catalogue.sizes import LARGEST_LIKELY_TABLE, MOST_DRAWS, MOST_LIKELY_ROWS
from fewtubes.catalogue.tables import ReadTable, TableSize
from fewtubes.colour.bands import FloatArray

__all__ = ["LEAST_DRAWS", "LIKELY_COLUMNS", "LIKELY_SIZE", "read_likely_spectra"]

LIKELY_COLUMNS = ("pigment", "draw", "quantity", *BAND_COLUMNS)

LIKELY_SIZE = TableSize(most_bytes=LARGEST_LIKELY_TABLE, most_rows=MOST_LIKELY_ROWS)

LEAST_DRAWS = 20
"""Draws of a pigment; with fewer, nine in ten of them would be a matter of one or two."""

DRAW = NumberRange(1, MOST_DRAWS)
QUANTITIES = {"K": "K", "S": "S"}


@dataclass
class _Found:
    """What was read of one pigment."""

    first: Row
    """Where its faults are told of."""
    curves: dict[tuple[int, str], FloatArray] = field(default_factory=dict)
    """By draw and quantity."""
    sound: bool = True
    """Whether every draw and quantity of it could be read."""


def read_likely_spectra(
    table: ReadTable, known: Collection[str] | None
) -> dict[str, LikelySpectra]:
    """Return the likely spectra by id of the pigment, of those that have any.

    Parameters
    ----------
    table
        The table, which may be without rows.
    known
        Ids of the pigments; None if they could not be read, so that nothing is said about them.
    """
    found: dict[str, _Found] = {}
    seen = Sightings()
    for row in table.rows:
        pigment = row.reference("pigment", known, "pigments.csv")
        draw, quantity = _draw(row), row.word("quantity", QUANTITIES)
        curve = row.spectrum(COEFFICIENT)
        of_it = found.setdefault(pigment, _Found(row))
        if draw is None or row.cells["quantity"] not in QUANTITIES or not row.whole:
            of_it.sound = False
            continue
        thing = f"{quantity} of draw {draw} of the pigment {shown(pigment)}"
        if seen.is_new(row, (pigment, draw, quantity), thing):
            of_it.curves[draw, quantity] = curve
    for pigment, of_it in found.items():
        # What is wrong with a draw or quantity has been told; gaps would only follow from it.
        for sentence in _gaps(pigment, of_it.curves) if of_it.sound else ():
            of_it.first.note(sentence)
    return {pigment: _spectra(of_it.curves) for pigment, of_it in found.items()}


def _draw(row: Row) -> int | None:
    """Return the number of a draw, None after a fault."""
    number = row.number("draw", DRAW)
    if number != number:  # noqa: PLR0124 – NaN after a fault
        return None
    if number % 1:
        row.note(f"draw is {shown(row.cells['draw'])}; it must be a whole number {DRAW}")
        return None
    return int(number)


def _gaps(pigment: str, curves: Mapping[tuple[int, str], FloatArray]) -> Iterator[str]:
    """Yield what is missing among the draws of a pigment."""
    draws = {draw for draw, _ in curves}
    last = max(draws)
    single = sorted(
        f"{'S' if (draw, 'K') in curves else 'K'} of draw {draw}"
        for draw in draws
        if not all((draw, quantity) in curves for quantity in QUANTITIES)
    )
    unnumbered = [str(draw) for draw in range(1, last + 1) if draw not in draws]
    if single:
        yield f"the pigment {shown(pigment)} lacks {listed(single)}; every draw needs K and S"
    if unnumbered:
        yield (
            f"the draws of the pigment {shown(pigment)} go up to {last}, but these are missing:"
            f" {listed(unnumbered)}; number them from 1 without gaps"
        )
    elif last < LEAST_DRAWS:
        yield (
            f"the pigment {shown(pigment)} has {last} draws; it must have from {LEAST_DRAWS} to"
            f" {MOST_DRAWS}, or none at all"
        )


def _spectra(curves: Mapping[tuple[int, str], FloatArray]) -> LikelySpectra:
    """Return the draws in the order of their numbers, read-only; NaN where one is missing."""
    count = max((draw for draw, _ in curves), default=0)
    shape = (count, len(BAND_COLUMNS))
    arrays = {quantity: np.full(shape, np.nan) for quantity in QUANTITIES}
    for (draw, quantity), curve in curves.items():
        arrays[quantity][draw - 1] = curve
    for array in arrays.values():
        array.setflags(write=False)
    return LikelySpectra(arrays["K"], arrays["S"])
