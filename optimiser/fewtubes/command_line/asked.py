"""The scenario that a command is about: read from its file, then changed by the options.

A fault of a value is told of the option that brought it.
"""

from pathlib import Path
from typing import Any

from fewtubes.catalogue.records import Catalogue
from fewtubes.errors import Fault, InputError
from fewtubes.scenario.overrides import with_overrides
from fewtubes.scenario.reading import read_scenario
from fewtubes.scenario.records import Scenario

__all__ = ["scenario_asked"]

OPTIONS = {
    "budget": "--budget",
    "most_tubes": "--most-tubes",
    "tolerance": "--tolerance",
    "flowers": "--flower",
    "owned": "--owned",
    "must_have": "--must-have",
    "never": "--never",
    "paper": "--paper",
    "light": "--light",
}
"""The option that each parameter of `with_overrides` comes from."""


def scenario_asked(path: Path, catalogue: Catalogue, **values: Any) -> Scenario:
    """Return the scenario of a file with the values of options, as `with_overrides` takes them.

    Parameters
    ----------
    path
        The scenario's file.
    catalogue
        What its names refer to.
    values
        None where an option was not given.

    Raises
    ------
    InputError
        With every fault found in the file, or in the options.
    """
    scenario = read_scenario(path, catalogue)
    given = {key: value for key, value in values.items() if value is not None}
    try:
        return with_overrides(scenario, catalogue=catalogue, **given)
    except InputError as error:
        told = [Fault(OPTIONS.get(fault.where, fault.where), fault.what) for fault in error.faults]
        raise InputError(told) from error
