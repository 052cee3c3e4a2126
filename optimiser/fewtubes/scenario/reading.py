"""A scenario is read from its TOML file, whole or not at all, and fits its catalogue."""

import math
import re
from collections.abc import Sequence
from decimal import Decimal
from os import PathLike
from pathlib import Path
from typing import Any

from fewtubes import defaults
from fewtubes.catalogue.collector import FaultCollector
from fewtubes.catalogue.files import folder_fault
from fewtubes.catalogue.records import Catalogue
from fewtubes.catalogue.sizes import MOST_OWN_COLOURS
from fewtubes.errors import Fault, InputError
from fewtubes.scenario.box_file import read_box
from fewtubes.scenario.class_entries import class_asked, pays_levy
from fewtubes.scenario.class_wish import BUDGET_MISSING, ClassWish
from fewtubes.scenario.demands import (
    BUDGET,
    LONGEST_PURPOSE,
    MOST_TUBES,
    NOTHING_TO_PAINT,
    TOLERANCE,
    budget_fault,
    currency_fault,
    taken_fault,
)
from fewtubes.scenario.entries import Entries, as_written, is_number, to_float, unquoted
from fewtubes.scenario.flower_entries import flower_asked, flower_values, note_repeats
from fewtubes.scenario.home_box import BoxAtHome
from fewtubes.scenario.keys import TOP_KEYS
from fewtubes.scenario.own_colours import own_colour_values
from fewtubes.scenario.picture_entries import picture_values
from fewtubes.scenario.picture_wish import PictureWish
from fewtubes.scenario.preference import Prefer
from fewtubes.scenario.records import Scenario, Wishes
from fewtubes.scenario.toml_file import toml_values
from fewtubes.scenario.wanted import OwnColour
from fewtubes.scenario.wishes import wish_values

__all__ = [
    "faults_of_scenario",
    "read_scenario",
    "scenario_files",
    "scenario_of",
]


def read_scenario(path: str | PathLike[str], catalogue: Catalogue) -> Scenario:
    """Return the scenario in a file.

    Parameters
    ----------
    path
        The TOML file.
    catalogue
        Holds the flowers, tubes, papers and lights that the scenario may name.

    Raises
    ------
    InputError
        With every fault found, if there is any.
    """
    path, collector = Path(path), FaultCollector()
    values = toml_values(path, collector)
    collector.raise_if_any()
    return scenario_of(Entries(path.name, values or {}, collector), path.parent, catalogue)


def scenario_of(top: Entries, folder: Path, catalogue: Catalogue) -> Scenario:
    """Return the scenario that the values of a file make.

    Parameters
    ----------
    top
        The values, with the collector that takes the faults.
    folder
        Where the files that they name are looked for.
    catalogue
        As of `read_scenario`.

    Raises
    ------
    InputError
        With every fault found, if there is any.
    """
    found = _values(top, folder, catalogue)
    top.collector.raise_if_any()
    found["flowers"] = [flower_asked(values) for values in found["flowers"]]
    found["own_colours"] = [OwnColour(**values) for values in found["own_colours"]]
    if found["picture"] is not None:
        found["picture"] = PictureWish(**found["picture"])
    return Scenario(**found | {"wishes": Wishes(**found["wishes"])})


def faults_of_scenario(path: Path, catalogue: Catalogue) -> tuple[Fault, ...]:
    """Return every fault of a scenario's file, none if it can be used."""
    try:
        read_scenario(path, catalogue)
    except InputError as error:
        return error.faults
    return ()


def scenario_files(folder: Path) -> tuple[Path, ...]:
    """Return the scenario files of a folder, in the order of their names; week 2 before week 10."""
    fault = folder_fault(folder, "the scenarios")
    found = () if fault else tuple(sorted(folder.glob("*.toml"), key=_turn))
    if not found:
        what = fault or "holds no scenario; put a file that ends in .toml there."
        raise InputError([Fault(str(folder), what)])
    return found


def _turn(path: Path) -> tuple[list[str | int], str]:
    """Return where a file stands among others, numbers in its name taken by their value."""
    parts = re.split(r"([0-9]+)", path.stem.casefold())
    return [int(part) if part.isdecimal() else part for part in parts], path.name


def _values(top: Entries, folder: Path, catalogue: Catalogue) -> dict[str, Any]:
    """Return what a scenario is made of, stand-ins in the place of what is at fault."""
    top.check_keys(TOP_KEYS)
    flowers = flower_values(top, folder, catalogue.flowers)
    colours = _own_colours(top, folder, [flower["name"] for flower in flowers])
    if not top.values.get("flower") and not top.values.get("colour"):
        top.collector.note(top.where, NOTHING_TO_PAINT)
    group = class_asked(top)
    return {
        "title": top.text("title"),
        "shows": _purpose(top),
        "currency": _currency(top, catalogue),
        "budget": _budget(top, group),
        "most_tubes": top.whole("most_tubes", MOST_TUBES),
        "tolerance": top.number("tolerance", TOLERANCE, defaults.TOLERANCE),
        "flowers": flowers,
        "own_colours": colours,
        "wishes": wish_values(top, catalogue) | {"box": _box(top, folder, catalogue)},
        "paper": top.chosen("paper", defaults.PAPER, catalogue.papers),
        "light": top.chosen("light", defaults.LIGHT, catalogue.lights),
        "prefer": top.word("prefer", {one.value: one for one in Prefer}) or defaults.PREFER,
        "nearer": top.flag("nearer"),
        "group": group,
        "picture": picture_values(top, group),
        "prices": top.text("prices") if "prices" in top.values else "",
    }


def _box(top: Entries, folder: Path, catalogue: Catalogue) -> BoxAtHome:
    """Return the box at home in the file that is named; an empty one if none is."""
    if "box" not in top.values or not top.text("box"):
        return BoxAtHome()
    try:
        return read_box(folder / str(top.values["box"]), catalogue)
    except InputError as error:
        for fault in error.faults:
            top.collector.note(f"{top.where}, box {fault.where}", fault.what)
        return BoxAtHome()


def _purpose(top: Entries) -> str:
    """Return what the scenario is meant to show; it may be left out or left blank."""
    if top.values.get("shows", "") == "":
        return ""
    return top.text("shows", longest=LONGEST_PURPOSE)


def _budget(top: Entries, group: ClassWish | None) -> Decimal:
    """Return the budget [currency], that of a class with a levy included; 1 after a fault."""
    value = top.values.get("budget")
    if value is None:
        if group is not None and group.budget is not None:
            return group.budget
        if not pays_levy(top):
            what = "is missing; give an amount above 0, such as 35.00"
            top.note("budget", BUDGET_MISSING if "class" in top.values else what)
        return Decimal(1)
    if not is_number(value):
        what = f"is {as_written(value)}; it must be a number, such as 35.00"
        top.note("budget", f"{what}{unquoted(value)}")
        return Decimal(1)
    if not math.isfinite(to_float(value)):
        top.note("budget", f"{BUDGET.fault(to_float(value), shown_as=as_written(value))}")
        return Decimal(1)
    amount = Decimal(value)
    fault = budget_fault(amount)
    if fault is None and group is not None:
        fault = group.budget_clash(amount)
    if fault:
        top.note("budget", fault)
        return Decimal(1)
    return amount


def _currency(top: Entries, catalogue: Catalogue) -> str:
    code = top.text("currency")
    fault = currency_fault(code, catalogue) if code else None
    if fault:
        top.note("currency", fault)
    return code


def _own_colours(top: Entries, folder: Path, flowers: Sequence[str]) -> list[dict[str, Any]]:
    """Return what each own colour is made of."""
    tables = top.tables("colour", MOST_OWN_COLOURS)
    colours = [own_colour_values(entries, folder) for entries in tables]
    note_repeats(tables, [colour["name"] for colour in colours], "colour")
    for entries, colour in zip(tables, colours, strict=True):
        fault = taken_fault(colour["name"], flowers)
        if fault:
            entries.note("name", fault)
    return colours
