"""The flowers of a scenario's file: of the catalogue by name, or of the painter's own, whole."""

from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import Any

from fewtubes.catalogue.collector import FaultCollector
from fewtubes.catalogue.flowers import ROLES
from fewtubes.catalogue.limits import IMPORTANCE, listed
from fewtubes.catalogue.names import alike_key
from fewtubes.catalogue.records import Flower, Role
from fewtubes.catalogue.sizes import MOST_MEASURED_SWATCHES, MOST_SWATCHES, MOST_WISHED
from fewtubes.errors import InputError
from fewtubes.scenario.called import id_of, looked_up
from fewtubes.scenario.demands import repeats
from fewtubes.scenario.entries import Entries
from fewtubes.scenario.flower_file import flowers_in
from fewtubes.scenario.keys import FLOWER_KEYS, SWATCH_KEYS, TOP_KEYS
from fewtubes.scenario.own_colours import given_colour
from fewtubes.scenario.own_flowers import (
    NO_COLOURS,
    OwnFlower,
    OwnSwatch,
    held_fault,
    usual_importance,
)
from fewtubes.scenario.picture_entries import area_value
from fewtubes.scenario.wanted import FlowerWish

__all__ = ["flower_asked", "flower_values", "note_repeats"]

NOT_A_FILE = (
    'names a file of flowers of your own, such as "my-flowers.csv"; what is to be painted stands'
    " under [[flower]]"
)


def flower_values(top: Entries, folder: Path, held: Mapping[str, Flower]) -> list[dict[str, Any]]:
    """Return what each flower is made of, see `flower_asked`.

    Parameters
    ----------
    top
        The file.
    folder
        Where files of reflectance are looked for: that of the scenario's file.
    held
        The flowers of the catalogue, by name.
    """
    read = _kept_flowers(top, folder, held)
    kept = read or {}
    known = {**held, **kept}
    called = {alike_key(name): flower for name, flower in known.items()}
    tables = top.tables("flower", MOST_WISHED)
    if _too_many_measured(top, tables):
        return []
    found = [
        _own_flower(entries, folder, called)
        if "swatch" in entries.values
        else _wish(entries, known, kept, all_known=read is not None)
        for entries in tables
    ]
    note_repeats(tables, [flower["name"] for flower in found], "flower")
    return found


def flower_asked(values: Mapping[str, Any]) -> FlowerWish | OwnFlower:
    """Return a flower made of values that are without fault."""
    if "kept" in values:
        return OwnFlower.of(values["kept"], values["importance"], values.get("area_cm2"))
    if "swatches" not in values:
        return FlowerWish(**values)
    swatches = tuple(OwnSwatch(**swatch) for swatch in values["swatches"])
    return OwnFlower(**{**values, "swatches": swatches})


def note_repeats(tables: Sequence[Entries], names: Sequence[str], kind: str) -> None:
    """Note every name that has stood before."""
    for place, sentence in repeats(names):
        tables[place].note("name", f"the {kind} {sentence}")


def _kept_flowers(
    top: Entries, folder: Path, held: Mapping[str, Flower]
) -> dict[str, Flower] | None:
    """Return the flowers of the table that is named, by name; None if none could be read of it.

    What stands there is not known then, so of flowers that may be among it nothing can be said.
    """
    if "flowers" not in top.values:
        return {}
    if not isinstance(top.values["flowers"], str):
        top.note("flowers", NOT_A_FILE)
        return None
    if not top.text("flowers"):
        return None
    faults = FaultCollector()
    kept = flowers_in(folder / str(top.values["flowers"]), held, faults)
    try:
        faults.raise_if_any()
    except InputError as error:
        for fault in error.faults:
            top.collector.note(f"{top.where}, flowers {fault.where}", fault.what)
    return kept or (None if not faults.is_empty else {})


def _too_many_measured(top: Entries, flowers: Sequence[Entries]) -> bool:
    """Return whether more files of measurements are named than may be, and note it."""
    given = [flower.values.get("swatch") for flower in flowers]
    swatches = [one for some in given if isinstance(some, list) for one in some]
    count = sum(isinstance(one, dict) and "reflectance" in one for one in swatches)
    if count > MOST_MEASURED_SWATCHES:
        what = f"has {count:,} measured colours; at most {MOST_MEASURED_SWATCHES:,} are allowed"
        top.note("flower", f"{what}, so give others as hex or lab")
    return count > MOST_MEASURED_SWATCHES


def _wish(
    entries: Entries,
    held: Mapping[str, Flower],
    kept: Mapping[str, Flower],
    *,
    all_known: bool,
) -> dict[str, Any]:
    """Return what is wished of a flower of the catalogue, or one `kept` in a table, whole.

    Unless `all_known` a flower that is not held may be one of a table that could not be read.
    """
    entries.check_keys(FLOWER_KEYS, elsewhere=TOP_KEYS)
    name, importance = entries.text("name"), entries.fraction("importance", IMPORTANCE, 1)
    if name and (all_known or id_of(name, held) is not None):
        where = f"{entries.where}, name"
        (name,) = looked_up([name], held, "flower", where=where, collector=entries.collector)
    values = {"name": name, "importance": importance, **area_value(entries)}
    return values | {"kept": kept[name]} if name in kept else values


def _own_flower(entries: Entries, folder: Path, called: Mapping[str, Flower]) -> dict[str, Any]:
    """Return what a flower of the painter's own is made of; `called` are the catalogue's by key."""
    entries.check_keys(FLOWER_KEYS, elsewhere=TOP_KEYS)
    name, importance = entries.text("name"), entries.fraction("importance", IMPORTANCE, 1)
    tables = entries.tables("swatch", MOST_SWATCHES)
    if not tables and entries.values["swatch"] == []:
        entries.note("swatch", NO_COLOURS)
    swatches = [_swatch(table, folder) for table in tables]
    note_repeats(tables, [swatch["name"] for swatch in swatches], "swatch")
    taken = called.get(alike_key(name)) if name else None
    if taken is not None and not _is_like(name, swatches, taken):
        entries.note("name", held_fault(name, taken.name))
    area = area_value(entries)
    return {"name": name, "importance": importance, **area, "swatches": swatches}


def _is_like(name: str, swatches: Sequence[Mapping[str, Any]], held: Flower) -> bool:
    """Return whether a flower has the very name and colours of one that there is."""
    found = [(one["name"], one["role"], one["lab"], one["importance"]) for one in swatches]
    there = [(one.name, one.role, one.lab, one.importance) for one in held.swatches]
    return name == held.name and found == there


def _swatch(entries: Entries, folder: Path) -> dict[str, Any]:
    entries.check_keys(SWATCH_KEYS, elsewhere=TOP_KEYS)
    name, role = entries.text("name"), entries.word("role", ROLES)
    if "role" not in entries.values:
        entries.note("role", f"is missing; say which part it is: {listed(ROLES, len(ROLES))}")
    usual = usual_importance(role or Role.PETAL)
    importance = entries.fraction("importance", IMPORTANCE, usual)
    colour = given_colour(entries, folder)
    return {"name": name, "role": role or Role.PETAL, "importance": importance, **colour}
