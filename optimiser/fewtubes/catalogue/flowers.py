"""The flowers and leaves that can be painted, from `flowers.csv`: one row per swatch."""

from collections import defaultdict
from collections.abc import Callable

from fewtubes.catalogue.limits import IMPORTANCE, LIGHTNESS, OPPONENT, shown
from fewtubes.catalogue.records import Flower, Role, Swatch
from fewtubes.catalogue.repeats import Namesakes, Sightings
from fewtubes.catalogue.rows import Row
from fewtubes.catalogue.tables import ReadTable

__all__ = ["FLOWER_COLUMNS", "ROLES", "flowers_of", "lab_of", "read_flowers"]

FLOWER_COLUMNS = ("flower", "swatch", "role", "L", "a", "b", "importance")

ROLES = {role.value: role for role in Role}
"""By the words that stand for them."""


def read_flowers(table: ReadTable) -> dict[str, Flower]:
    """Return the flowers of a catalogue by name, in the order of their first rows."""
    return flowers_of(table, _swatch)


def flowers_of(table: ReadTable, swatch_of: Callable[[Row], Swatch]) -> dict[str, Flower]:
    """Return the flowers of a table with a row a swatch, in the order of their first rows.

    Parameters
    ----------
    table
        Has the columns ``flower`` and ``swatch`` at least.
    swatch_of
        Reads what else stands in a row.
    """
    swatches: dict[str, list[Swatch]] = defaultdict(list)
    seen, names, swatch_names = Sightings(), Namesakes(may_repeat=True), Namesakes()
    for row in table.rows:
        flower, swatch = row.text("flower"), swatch_of(row)
        thing = f"the swatch {shown(swatch.name)} of the flower {shown(flower)}"
        if seen.is_new(row, (flower, swatch.name), thing):
            swatches[flower].append(swatch)
            names.note_any(row, flower, "the flower")
            if flower:
                swatch_names.note_any(row, swatch.name, "the swatch", within=flower)
    return {name: Flower(name, tuple(found)) for name, found in swatches.items()}


def lab_of(row: Row) -> tuple[float, float, float]:
    """Return CIELAB of the columns L, a, b."""
    return (row.number("L", LIGHTNESS), row.number("a", OPPONENT), row.number("b", OPPONENT))


def _swatch(row: Row) -> Swatch:
    return Swatch(
        name=row.text("swatch"),
        role=row.word("role", ROLES),
        lab=lab_of(row),
        importance=row.fraction("importance", IMPORTANCE),
    )
