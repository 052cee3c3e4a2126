"""Which catalogue is added to, where profiles come from, and whose content stands."""

from pathlib import Path
from typing import Annotated

import typer
from typer.models import OptionInfo

from fewtubes.command_line.options.output import named_path

__all__ = [
    "FlowersIntoOption",
    "FromOption",
    "IntoOption",
    "KeepOption",
    "MaybeIntoOption",
    "ReplaceFlowerOption",
    "ReplaceOption",
]


def _into(words: str, metavar: str) -> OptionInfo:
    """Return the option of what is added to."""
    option: OptionInfo = typer.Option("--into", parser=named_path, metavar=metavar, help=words)
    return option


def _replace(words: str) -> OptionInfo:
    """Return the option that lets what is there give way."""
    option: OptionInfo = typer.Option("--replace", help=words)
    return option


INTO = _into("The catalogue that is added to.", "FOLDER")
IntoOption = Annotated[Path, INTO]
MaybeIntoOption = Annotated[Path | None, INTO]
FromOption = Annotated[
    Path | None,
    typer.Option(
        "--from",
        parser=named_path,
        metavar="FOLDER",
        help="Catalogue whose pigment profiles are taken along as needed; 'demo' for the demo.",
    ),
]
KeepOption = Annotated[
    str | None,
    typer.Option(
        "--keep",
        metavar="WHOSE",
        help="Where both differ: 'ours' as it is in --into, or 'theirs' as it comes in.",
    ),
]
ReplaceOption = Annotated[
    bool, _replace("What is there under the same name gives way; other packs stay.")
]
FlowersIntoOption = Annotated[
    Path,
    _into("A table of flowers of your own, made if need be, or a catalogue's folder.", "FILE.csv"),
]
ReplaceFlowerOption = Annotated[bool, _replace("A flower there of the same name gives way.")]
