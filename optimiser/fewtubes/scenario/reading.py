"""A scenario is read from its TOML file, whole or not at all, and fits its catalogue."""

import math
from collections.abc import Sequence
from decimal import Decimal
from pathlib import Path

from fewtubes import defaults
from fewtubes.catalogue.collector import FaultCollector
from fewtubes.catalogue.files import folder_fault
from fewtubes.catalogue.limits import IMPORTANCE, listed, shown
from fewtubes.catalogue.money import hundredths
from fewtubes.catalogue.names import alike_key
from fewtubes.catalogue.records import Catalogue
from fewtubes.catalogue.repeats import ALIKE
from fewtubes.catalogue.sizes import MOST_OWN_COLOURS, MOST_WISHED
from fewtubes.errors import Fault, InputError
from fewtubes.scenario.demands import (
    BUDGET,
    MOST_TUBES,
    NOTHING_TO_PAINT,
    TOLERANCE,
    budget_fault,
    currencies,
    missing_from,
    taken_fault,
)
from fewtubes.scenario.entries import Entries, is_number, to_float, told, unquoted
from fewtubes.scenario.keys import FLOWER_KEYS, TOP_KEYS
from fewtubes.scenario.own_colours import read_own_colour
from fewtubes.scenario.records import FlowerWish, OwnColour, Scenario
from fewtubes.scenario.toml_file import toml_values
from fewtubes.scenario.wishes import read_wishes

__all__ = [
    "faults_of_scenario",
    "faults_of_scenarios",
    "read_scenario",
    "scenario_files",
]

LONGEST_PURPOSE = 2000
"""Characters of what a scenario is meant to show."""


def read_scenario(path: Path, catalogue: Catalogue) -> Scenario:
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
    collector = FaultCollector()
    values = toml_values(path, collector)
    collector.raise_if_any()
    scenario = _scenario(Entries(path.name, values or {}, collector), path.parent, catalogue)
    collector.raise_if_any()
    return scenario


def faults_of_scenario(path: Path, catalogue: Catalogue) -> tuple[Fault, ...]:
    """Return every fault of a scenario's file, none if it can be used."""
    try:
        read_scenario(path, catalogue)
    except InputError as error:
        return error.faults
    return ()


def scenario_files(folder: Path) -> tuple[Path, ...]:
    """Return the scenario files of a folder, in the order of their names."""
    fault = folder_fault(folder, "the scenarios")
    found = () if fault else tuple(sorted(folder.glob("*.toml")))
    if not found:
        what = fault or "holds no scenario; put a file that ends in .toml there."
        raise InputError([Fault(str(folder), what)])
    return found


def faults_of_scenarios(folder: Path, catalogue: Catalogue) -> tuple[Fault, ...]:
    """Return every fault of all scenario files in a folder."""
    try:
        paths = scenario_files(folder)
    except InputError as error:
        return error.faults
    return tuple(fault for path in paths for fault in faults_of_scenario(path, catalogue))


def _scenario(top: Entries, folder: Path, catalogue: Catalogue) -> Scenario:
    top.check_keys(TOP_KEYS)
    flowers = _flowers(top, catalogue)
    colours = _own_colours(top, folder, flowers)
    if not top.values.get("flower") and not top.values.get("colour"):
        top.collector.note(top.where, NOTHING_TO_PAINT)
    return Scenario(
        title=top.text("title"),
        shows=_purpose(top),
        currency=_currency(top, catalogue),
        budget=_budget(top),
        most_tubes=top.whole("most_tubes", MOST_TUBES),
        tolerance=top.number("tolerance", TOLERANCE, defaults.TOLERANCE),
        flowers=flowers,
        own_colours=colours,
        wishes=read_wishes(top, catalogue),
        paper=top.chosen("paper", defaults.PAPER, catalogue.papers),
        light=top.chosen("light", defaults.LIGHT, catalogue.lights),
    )


def _purpose(top: Entries) -> str:
    """Return what the scenario is meant to show; it may be left out or left blank."""
    if top.values.get("shows", "") == "":
        return ""
    return top.text("shows", longest=LONGEST_PURPOSE)


def _budget(top: Entries) -> int:
    """Return the budget in hundredths of the currency; 1 after a fault."""
    value = top.values.get("budget")
    if value is None:
        top.note("budget", "is missing; give an amount above 0, such as 35.00")
        return 1
    if not is_number(value):
        what = f"is {told(value)}; it must be a number, such as 35.00"
        top.note("budget", f"{what}{unquoted(value)}")
        return 1
    if not math.isfinite(to_float(value)):
        top.note("budget", f"is {told(value)}; it must be {BUDGET}")
        return 1
    amount = Decimal(value)
    fault = budget_fault(amount)
    if fault:
        top.note("budget", fault)
        return 1
    return hundredths(amount)


def _currency(top: Entries, catalogue: Catalogue) -> str:
    code = top.text("currency")
    known = currencies(catalogue)
    if code and code not in known:
        what = f"is {shown(code)}; the catalogue has prices in {listed(known)} only"
        top.note("currency", what)
    return code


def _flowers(top: Entries, catalogue: Catalogue) -> tuple[FlowerWish, ...]:
    wishes = []
    for entries in top.tables("flower", MOST_WISHED):
        entries.check_keys(FLOWER_KEYS, elsewhere=TOP_KEYS)
        wish = FlowerWish(entries.text("name"), entries.fraction("importance", IMPORTANCE, 1))
        asked = [wish.name] if wish.name else []
        for sentence in missing_from(asked, catalogue.flowers, "flower", top.collector.suggestion):
            entries.note("name", sentence)
        wishes.append((entries, wish))
    _note_repeats([(entries, wish.name) for entries, wish in wishes], "flower")
    return tuple(wish for _, wish in wishes)


def _own_colours(
    top: Entries, folder: Path, flowers: Sequence[FlowerWish]
) -> tuple[OwnColour, ...]:
    tables = top.tables("colour", MOST_OWN_COLOURS)
    read = [(entries, read_own_colour(entries, folder)) for entries in tables]
    _note_repeats([(entries, colour.name) for entries, colour in read], "colour")
    for entries, colour in read:
        fault = taken_fault(colour.name, [wish.name for wish in flowers])
        if fault:
            entries.note("name", fault)
    return tuple(colour for _, colour in read)


def _note_repeats(named: Sequence[tuple[Entries, str]], kind: str) -> None:
    """Note every name that has stood before."""
    seen: dict[str, str] = {}
    for entries, name in named:
        if not name:
            continue
        met = seen.get(alike_key(name))
        if met == name:
            entries.note("name", f"the {kind} {shown(name)} stands there twice; keep one of them")
        elif met is not None:
            entries.note(
                "name",
                f"the {kind} {shown(name)} cannot be told from {shown(met)}, since {ALIKE}; rename"
                " one",
            )
        seen.setdefault(alike_key(name), name)
