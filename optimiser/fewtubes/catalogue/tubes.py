"""The tubes: names from `tubes.csv`, pigments from `tube_pigments.csv`."""

from collections import defaultdict
from collections.abc import Collection, Mapping
from dataclasses import replace
from math import fsum, isnan

from fewtubes.catalogue.limits import CM2_PER_ML, SHARE, STRENGTH, shown
from fewtubes.catalogue.pigments import has_colour
from fewtubes.catalogue.records import Pigment, Tube
from fewtubes.catalogue.repeats import Namesakes, Sightings
from fewtubes.catalogue.rows import Row, is_identifier
from fewtubes.catalogue.tables import ReadTable

__all__ = ["TUBE_COLUMNS", "TUBE_MORE", "TUBE_PIGMENT_COLUMNS", "read_tubes", "tube_ids"]

TUBE_COLUMNS = ("tube", "name", "strength", "note")
TUBE_MORE = ("cm2_per_ml",)
"""Columns that the table of tubes may have besides; a cell may be blank."""

TUBE_PIGMENT_COLUMNS = ("tube", "pigment", "share")

SHARE_SLACK = 1e-6
"""How far from 1 the shares of a tube may sum, for decimals that do not add up in binary."""

Parts = dict[str, list[tuple[str, float]]]


def read_tubes(
    tubes: ReadTable,
    tube_pigments: ReadTable,
    pigments: Mapping[str, Pigment] | None,
) -> dict[str, Tube]:
    """Return the tubes by id, as yet without a pack.

    Parameters
    ----------
    tubes, tube_pigments
        The two tables.
    pigments
        The pigments by id; None if they could not be read, so that nothing is said about them.
    """
    found = _read_names(tubes)  # first, so that a fault is told before what follows from it
    parts = _read_parts(tube_pigments, tube_ids(tubes), pigments)
    filled = {}
    for row, tube in found:
        if is_identifier(tube.id) and tube_pigments.readable:
            _check_shares(row, tube.id, parts.get(tube.id, []))
        filled[tube.id] = replace(
            tube,
            pigments=_contents(parts.get(tube.id, []), pigments or {}),
        )
        _check_colour(row, filled[tube.id])
    return filled


def tube_ids(tubes: ReadTable) -> set[str] | None:
    """Return the ids in the table of tubes; None if it could not be read."""
    return {row.cells["tube"] for row in tubes.rows} if tubes.readable else None


def _read_names(table: ReadTable) -> list[tuple[Row, Tube]]:
    """Return the tubes with what their own rows tell, and the rows."""
    seen, names = Sightings(), Namesakes()
    found = []
    for row in table.rows:
        row.remark("note")
        tube = Tube(
            id=row.identifier("tube"),
            name=row.text("name"),
            strength=row.number("strength", STRENGTH),
            pigments=(),
            offers=(),
            cm2_per_ml=row.number("cm2_per_ml", CM2_PER_ML)
            if row.cells.get("cm2_per_ml")
            else None,
        )
        if seen.is_new(row, (tube.id,), f"the tube {shown(tube.id)}"):
            names.note_any(row, tube.name, "the name")
            found.append((row, tube))
    return found


def _covering_power(row: Row) -> float | None:
    """Return how far a millilitre goes [cm²]; None where that is not told."""
    return row.number("cm2_per_ml", CM2_PER_ML) if row.cells.get("cm2_per_ml") else None


def _contents(
    parts: list[tuple[str, float]], pigments: Mapping[str, Pigment]
) -> tuple[tuple[Pigment, float], ...]:
    return tuple((pigments[name], share) for name, share in parts if name in pigments)


def _check_colour(row: Row, tube: Tube) -> None:
    """Note a tube of sound pigments that is too weak to be seen."""
    coloured = all(has_colour(pigment.K, pigment.S) for pigment, _ in tube.pigments)
    if tube.pigments and coloured and not has_colour(tube.K, tube.S):
        row.note(
            f"strength {tube.strength:g} leaves the tube {shown(tube.id)} without any colour; give"
            " a greater one, 1 is as the pigments were measured"
        )


def _read_parts(
    table: ReadTable, tubes: Collection[str] | None, pigments: Collection[str] | None
) -> Parts:
    """Return pigment and share of each tube's parts."""
    parts: Parts = defaultdict(list)
    seen = Sightings()
    for row in table.rows:
        tube = row.reference("tube", tubes, "tubes.csv")
        pigment = row.reference("pigment", pigments, "pigments.csv")
        share = row.number("share", SHARE)
        if seen.is_new(row, (tube, pigment), f"{shown(pigment)} in the tube {shown(tube)}"):
            parts[tube].append((pigment, share))
    return parts


def _check_shares(row: Row, tube: str, parts: list[tuple[str, float]]) -> None:
    """Note a tube without pigments, or with shares that do not sum to 1."""
    if not parts:
        row.note(f"the tube {shown(tube)} has no pigment in tube_pigments.csv; add a row there")
        return
    total = fsum(share for _, share in parts)
    if not isnan(total) and abs(total - 1) > SHARE_SLACK:
        row.note(
            f"the shares of the tube {shown(tube)} in tube_pigments.csv sum to {total:.6g}; change"
            " them so that they sum to 1"
        )
