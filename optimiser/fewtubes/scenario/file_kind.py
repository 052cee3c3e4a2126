"""What a TOML file is, by its keys: a scenario, or what else a painter keeps beside them."""

from enum import Enum
from pathlib import Path

from fewtubes.catalogue.collector import FaultCollector
from fewtubes.scenario.toml_file import toml_values

__all__ = ["FileKind", "kind_of"]


class FileKind(Enum):
    """What a TOML file is."""

    SCENARIO = "scenario"
    BOX = "box"
    LAYOUT = "layout"
    COLUMNS = "columns"


OWN_KEYS = {"tubes": FileKind.BOX, "unit": FileKind.LAYOUT, "fills": FileKind.COLUMNS}
"""Key by which a file is known that is no scenario."""

OF_A_SCENARIO = frozenset({"flower", "colour", "budget"})


def kind_of(path: Path) -> FileKind:
    """Return what a file is; one that cannot be read is a scenario, whose reader tells of it."""
    keys = set(toml_values(path, FaultCollector()) or {})
    kinds = (kind for key, kind in OWN_KEYS.items() if key in keys and not keys & OF_A_SCENARIO)
    return next(kinds, FileKind.SCENARIO)
