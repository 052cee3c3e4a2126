"""The flowers and leaves that can be painted, from `flowers.csv`: one row per swatch."""

from collections import defaultdict

from fewtubes.catalogue.limits import IMPORTANCE, LIGHTNESS, OPPONENT, shown
from fewtubes.catalogue.records import Flower, Role, Swatch
from fewtubes.catalogue.repeats import Namesakes, Sightings
from fewtubes.catalogue.rows import Row
from fewtubes.catalogue.tables import ReadTable

__all__ = ["FLOWER_COLUMNS", "read_flowers"]

FLOWER_COLUMNS = ("flower", "swatch", "role", "L", "a", "b", "importance")

ROLES = {role.value: role for role in Role}


def read_flowers(table: ReadTable) -> dict[str, Flower]:
    """Return the flowers by name, in the order of their first rows."""
    swatches: dict[str, list[Swatch]] = defaultdict(list)
    seen, names, swatch_names = Sightings(), Namesakes(may_repeat=True), Namesakes()
    for row in table.rows:
        flower, swatch = row.text("flower"), _swatch(row)
        thing = f"the swatch {shown(swatch.name)} of the flower {shown(flower)}"
        if seen.is_new(row, (flower, swatch.name), thing):
            swatches[flower].append(swatch)
            names.note_any(row, flower, "the flower")
            if flower:
                swatch_names.note_any(row, swatch.name, "the swatch", within=flower)
    return {name: Flower(name, tuple(found)) for name, found in swatches.items()}


def _swatch(row: Row) -> Swatch:
    return Swatch(
        name=row.text("swatch"),
        role=row.word("role", ROLES),
        lab=(row.number("L", LIGHTNESS), row.number("a", OPPONENT), row.number("b", OPPONENT)),
        importance=row.fraction("importance", IMPORTANCE),
    )
