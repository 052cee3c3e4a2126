"""A scenario's file that came alone, such as one that a browser sent: nothing stands beside it."""

from collections.abc import Iterator, Mapping
from pathlib import Path

from fewtubes.catalogue.collector import FaultCollector
from fewtubes.catalogue.files import HeldFile, shown_name
from fewtubes.catalogue.records import Catalogue
from fewtubes.scenario.entries import Entries
from fewtubes.scenario.reading import scenario_of
from fewtubes.scenario.records import Scenario
from fewtubes.scenario.toml_file import toml_values

__all__ = ["sent_scenario"]

MEASURED = (
    "names a file of reflectance, which did not come along; give the colour as hex or lab here"
)

TABLE = (
    "names a table of flowers, which did not come along; give their colours under [[flower.swatch]]"
)

PASSED_OVER = frozenset({"box"})
"""Keys of files that a question does without."""

NOWHERE = Path("nowhere")
"""Folder of the files beside; none of them is ever asked for."""


def sent_scenario(
    file: HeldFile, catalogue: Catalogue, *, own_flowers: bool = False
) -> tuple[Scenario, frozenset[str]]:
    """Return the scenario in a file, and the keys of files it names that are passed over.

    These are `box`, and `flowers` where others are there in their place.

    No other file is looked at, whatever it names.

    Parameters
    ----------
    file
        The TOML file.
    catalogue
        Holds what the scenario may name.
    own_flowers
        Whether it holds flowers of the painter's own as well, so that a table of them that is
        named may be passed over.

    Raises
    ------
    InputError
        With every fault found, if there is any.
    """
    collector = FaultCollector()
    values = toml_values(file, collector)
    collector.raise_if_any()
    passed = PASSED_OVER | ({"flowers"} if own_flowers else set())
    given = values or {}
    kept = {key: value for key, value in given.items() if key not in passed}
    top = Entries(shown_name(file), kept, collector)
    for where in _measured(kept):
        top.note(where, MEASURED)
    if "flowers" in kept:
        top.note("flowers", TABLE)
    collector.raise_if_any()
    return scenario_of(top, NOWHERE, catalogue), passed.intersection(given)


def _measured(values: Mapping[str, object]) -> Iterator[str]:
    """Yield where a file of reflectance is named: under a colour, or a swatch of a flower."""
    for key in ("colour", "flower"):
        for place, table in enumerate(_tables(values.get(key)), start=1):
            inner = [table, *_tables(table.get("swatch"))]
            if any("reflectance" in one for one in inner):
                yield f"{key} {place}"


def _tables(value: object) -> list[Mapping[str, object]]:
    items = value if isinstance(value, list) else [value]
    return [item for item in items if isinstance(item, dict)]
