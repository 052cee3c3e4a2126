"""``fewtubes catalogue add-flower``: a flower of one's own is kept, to be named like any other."""

from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from fewtubes.command_line.options.keeping import FlowersIntoOption, ReplaceFlowerOption
from fewtubes.command_line.options.work import CatalogueOption

if TYPE_CHECKING:
    from fewtubes.catalogue.records import Catalogue
    from fewtubes.scenario.own_flowers import OwnFlower, OwnSwatch

__all__ = ["add_flower"]

FORM = "write its name, a colon, its part and its colour, such as 'light edge: petal light #c9b6e4'"


def add_flower(
    name: Annotated[str, typer.Argument(metavar="NAME", help="What the flower is to be called.")],
    *,
    into: FlowersIntoOption,
    colour: Annotated[
        list[str] | None,
        typer.Option(
            "--colour",
            metavar="COLOUR",
            help="'fall: petal #8a63b8': name, part and colour, as '#rrggbb', 'L,a,b' or 'flower /"
            " swatch'; repeatable.",
        ),
    ] = None,
    scenario: Annotated[
        Path | None,
        typer.Option(
            "--from-scenario",
            metavar="SCENARIO.toml",
            help="Where the flower stands with its colours, in place of --colour.",
        ),
    ] = None,
    catalogue: CatalogueOption = None,
    replace: ReplaceFlowerOption = False,
) -> None:
    """Keep a flower of your own, to be named like any other.

    Parts are petal light, petal, petal shade, throat, centre, marking, bud, leaf, leaf shade and
    stem. Between petal colours of one hue, pale and deep, lie steps.
    """
    from fewtubes.catalogue.limits import shown
    from fewtubes.command_line.catalogue.finishing import settle_folder
    from fewtubes.command_line.put_out import put_out
    from fewtubes.errors import Fault, InputError
    from fewtubes.keeping.flower_file import kept_flower
    from fewtubes.report.terminal.layout import plain, put
    from fewtubes.words.printable import printable

    if bool(colour) == (scenario is not None):
        what = "is to be kept, but in which colours? Give --colour, or else --from-scenario."
        raise InputError([Fault(shown(name), what)])
    settle_folder(into if into.is_dir() else into.parent)
    tables = _tables(catalogue, into)
    flower = (
        _of_colours(name, colour or (), tables)
        if scenario is None
        else _of_scenario(name, scenario, tables)
    )
    kept = kept_flower(flower, into, catalogue=tables, replace=replace)
    put_out(
        lambda console: put(console, plain(printable(kept.told, len(kept.told)))),
        kept.files,
        earlier=kept.earlier,
    )


def _tables(catalogue: Path | None, into: Path) -> "Catalogue":
    """Return the catalogue that the flower is kept beside; a folder may be one itself."""
    from fewtubes.catalogue.reading import read_catalogue
    from fewtubes.keeping.kept_catalogue import looked_through, read_kept

    if catalogue is None and into.is_dir():
        return looked_through(read_kept(into))
    return read_catalogue(catalogue)


def _of_colours(name: str, colours: Sequence[str], tables: "Catalogue") -> "OwnFlower":
    """Return the flower of the colours that were typed.

    Raises
    ------
    InputError
        With every fault of every colour.
    """
    from fewtubes.errors import Fault, InputError
    from fewtubes.scenario.own_flowers import OwnFlower, OwnSwatch

    swatches: list[OwnSwatch] = []
    faults: list[Fault] = []
    for text in colours:
        try:
            swatches.append(_swatch(text, tables))
        except InputError as error:
            faults += error.faults
    if faults:
        raise InputError(faults)
    return OwnFlower(name, tuple(swatches))


def _swatch(text: str, tables: "Catalogue") -> "OwnSwatch":
    """Return a colour typed as ``name: part colour``."""
    from fewtubes.catalogue.flowers import ROLES
    from fewtubes.catalogue.limits import listed, shown
    from fewtubes.errors import Fault, InputError
    from fewtubes.scenario.named_colour import lab_named
    from fewtubes.scenario.own_flowers import OwnSwatch

    name, colon, rest = (part.strip() for part in text.partition(":"))
    if not (name and colon and rest):
        raise InputError([Fault("--colour", f"is {shown(text)}; {FORM}.")])
    words = " ".join(rest.split())
    parts = [word for word in ROLES if words.casefold().startswith(f"{word} ")]
    if not parts:
        what = (
            f"of {shown(name)} names no part before its colour, but says {shown(words)}; parts are"
            f" {listed(ROLES, 10)}"
        )
        raise InputError([Fault("--colour", f"{what}.")])
    part = max(parts, key=len)
    try:
        return OwnSwatch(name, ROLES[part], lab=lab_named(words[len(part) :].strip(), tables))
    except InputError as error:
        told = [Fault("--colour", f"of {shown(name)} {fault.what}") for fault in error.faults]
        raise InputError(told) from error


def _of_scenario(name: str, scenario: Path, tables: "Catalogue") -> "OwnFlower":
    """Return the flower that stands in a scenario with its colours."""
    from fewtubes.catalogue.limits import shown
    from fewtubes.errors import Fault, InputError, suggestion
    from fewtubes.scenario.called import id_of
    from fewtubes.scenario.reading import read_scenario

    own = {flower.name: flower for flower in read_scenario(scenario, tables).own_flowers}
    found = id_of(name, own)
    if found is None:
        what = f"{shown(scenario.name)} holds no flower {shown(name)} with colours of its own."
        raise InputError([Fault("NAME", f"{what}{suggestion(name, own)}")])
    return own[found]
