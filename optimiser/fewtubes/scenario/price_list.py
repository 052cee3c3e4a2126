"""The price list that a scenario names, in the place of its catalogue's prices."""

from pathlib import Path

from fewtubes.catalogue.collector import FaultCollector
from fewtubes.scenario.toml_file import toml_values

__all__ = ["named_prices"]


def named_prices(scenario: Path) -> Path | None:
    """Return the folder of prices that a scenario's file names; None if none, or on a fault.

    What is wrong with the file is told when it is read; what is wrong with the folder, when its
    prices are (`fewtubes.catalogue.price_list.with_prices`).
    """
    name = (toml_values(scenario, FaultCollector()) or {}).get("prices")
    return scenario.parent / name if isinstance(name, str) and name.strip() else None
