"""A catalogue and a scenario, read as every command reads them, and faults told of the options."""

from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import replace
from decimal import Decimal
from pathlib import Path
from typing import TYPE_CHECKING, TypedDict, Unpack

from fewtubes.errors import InputError

if TYPE_CHECKING:
    from fewtubes.catalogue.records import Catalogue
    from fewtubes.coverage.cache import Cache
    from fewtubes.scenario.home_box import BoxAtHome
    from fewtubes.scenario.records import Scenario

__all__ = [
    "Overrides",
    "box_asked",
    "cache_asked",
    "scenario_asked",
    "told_of_options",
    "with_own_flowers",
]

OPTIONS = {
    "budget": "--budget",
    "most_tubes": "--most-tubes",
    "tolerance": "--tolerance",
    "flowers": "--flower",
    "owned": "--owned",
    "box": "--box",
    "must_have": "--must-have",
    "never": "--never",
    "paper": "--paper",
    "light": "--light",
    "prefer": "--prefer",
    "nearer": "--nearer",
    "lightfastness": "--lightfastness",
    "transparency": "--transparency",
    "avoid_hazards": "--without-hazard",
    "millilitres": "--millilitres",
    "most_in_mix": "--most-in-mix",
    "painters": "--painters",
    "paint_for": "--paint-for",
    "prices": "--prices",
    "trials": "--steadiest",
    "about_to_buy": "--about-to-buy",
    "without": "--never",
    "tubes": "--tube",
    "most": "--most",
    "within": "--within",
    "seed": "--seed",
    "hand": "--hand",
    "colour_noise": "--colour-noise",
    "draws": "--draws",
    "up_to": "--up-to",
    "near": "--near",
    "near_size": "--near-size",
    "seconds": "--seconds",
    "sums": "--sum",
    "weights": "--weight",
    "order_only": "--order-only",
    "colour": "COLOUR",
}
"""The option, or argument, that gives each field of what the library is asked."""

TABLE = ".csv"
"""How the name of a table ends."""


class Overrides(TypedDict, total=False):
    """What is put in the place of the scenario's own values; None and nothing keep them."""

    budget: Decimal | None
    most_tubes: int | None
    tolerance: float | None
    flowers: Sequence[str] | None
    own_flowers: Path | None
    owned: Sequence[str] | None
    box: Path | None
    must_have: Sequence[str] | None
    never: Sequence[str] | None
    paper: str | None
    light: str | None
    prefer: str | None
    nearer: bool | None
    lightfastness: str | None
    transparency: str | None
    without_hazard: Sequence[str] | None
    millilitres: float | None
    most_in_mix: int | None
    painters: int | None
    paint_for: int | None
    prices: Path | None


def scenario_asked(
    scenario: Path, catalogue: Path | None, **overrides: Unpack[Overrides]
) -> "tuple[Catalogue, Scenario]":
    """Return the catalogue, and the scenario with the values given in place of its own.

    Parameters
    ----------
    scenario
        The file.
    catalogue
        Folder of tables; None stands for those that the box at home names, or else the demo ones.
    overrides
        As given by options.

    Raises
    ------
    InputError
        With every fault of the first of these that has any.
    """
    from fewtubes.catalogue.price_list import with_prices
    from fewtubes.catalogue.reading import read_catalogue
    from fewtubes.scenario.box_file import named_box, named_catalogue, read_box
    from fewtubes.scenario.flower_file import named_flowers
    from fewtubes.scenario.overrides import with_overrides
    from fewtubes.scenario.price_list import named_prices
    from fewtubes.scenario.reading import read_scenario

    box, prices = overrides.get("box"), overrides.get("prices")
    tables = read_catalogue(catalogue or named_catalogue(box or named_box(scenario)))
    tables = with_prices(tables, prices or named_prices(scenario))
    tables = with_own_flowers(tables, overrides.get("own_flowers"))
    read = read_scenario(scenario, tables)
    tables = with_own_flowers(tables, named_flowers(scenario))
    _note_files(overrides.get("flowers") or ())
    kept = None if box is None else read_box(box, tables)
    with told_of_options():
        changed = with_overrides(
            read,
            catalogue=tables,
            budget=overrides.get("budget"),
            most_tubes=overrides.get("most_tubes"),
            tolerance=overrides.get("tolerance"),
            flowers=overrides.get("flowers") or (),
            owned=overrides.get("owned") or (),
            must_have=overrides.get("must_have") or (),
            never=overrides.get("never") or (),
            paper=overrides.get("paper"),
            light=overrides.get("light"),
            prefer=overrides.get("prefer"),
            nearer=overrides.get("nearer"),
            lightfastness=overrides.get("lightfastness"),
            transparency=overrides.get("transparency"),
            avoid_hazards=overrides.get("without_hazard") or (),
            millilitres=overrides.get("millilitres"),
            most_in_mix=overrides.get("most_in_mix"),
            painters=overrides.get("painters"),
            paint_for=overrides.get("paint_for"),
            box=kept,
        )
        if prices is not None:
            changed = replace(changed, prices=str(prices))
    return tables, changed


def box_asked(
    box: Path | None, catalogue: Path | None, flowers: Path | None = None
) -> "tuple[Catalogue, BoxAtHome | None]":
    """Return the catalogue, and the box at home if one is given.

    Parameters
    ----------
    box
        The file.
    catalogue
        Folder of tables; None stands for those that the box names, or else the demo ones.
    flowers
        Table of flowers of one's own.

    Raises
    ------
    InputError
        With every fault of the first of these that has any.
    """
    from fewtubes.catalogue.reading import read_catalogue
    from fewtubes.scenario.box_file import named_catalogue, read_box

    tables = read_catalogue(catalogue or named_catalogue(box))
    tables = with_own_flowers(tables, flowers)
    return tables, None if box is None else read_box(box, tables)


def with_own_flowers(catalogue: "Catalogue", file: Path | None) -> "Catalogue":
    """Return the catalogue with the flowers of a file besides; None adds none.

    Raises
    ------
    InputError
        With every fault of the file; one that is the name of a flower is told to be none.
    """
    if file is None:
        return catalogue
    from fewtubes.catalogue.limits import shown
    from fewtubes.errors import Fault
    from fewtubes.scenario.called import id_of
    from fewtubes.scenario.flower_file import with_flowers

    if not file.exists() and id_of(str(file), catalogue.flowers) is not None:
        what = "is a flower and no file; flowers to paint are named by --flower"
        raise InputError([Fault("--flowers", f"{shown(str(file))} {what}.")])
    return with_flowers(catalogue, file)


def cache_asked(*, no_cache: bool) -> "Cache":
    """Return where mixing results are kept from run to run: nowhere if not wanted."""
    from fewtubes.coverage.cache import Cache, default_cache

    return Cache() if no_cache else default_cache()


@contextmanager
def told_of_options(options: Mapping[str, str] = OPTIONS) -> Iterator[None]:
    """Tell what the library finds wrong with a field of the option that gives it."""
    try:
        yield
    except InputError as error:
        faults = [replace(f, where=options.get(f.where, f.where)) for f in error.faults]
        raise InputError(faults) from error


def _note_files(flowers: Sequence[str]) -> None:
    """Tell of files that are named where flowers are to be.

    Raises
    ------
    InputError
        With each of them.
    """
    from fewtubes.catalogue.limits import shown
    from fewtubes.errors import Fault

    what = "is a file and no flower; a file of flowers of your own is named by --flowers."
    files = [name for name in flowers if name.casefold().endswith(TABLE) and Path(name).is_file()]
    if files:
        raise InputError([Fault("--flower", f"{shown(name)} {what}") for name in files])
