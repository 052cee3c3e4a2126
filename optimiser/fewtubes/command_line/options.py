"""Options that several commands share."""

from pathlib import Path
from typing import Annotated

import typer

from fewtubes.command_line.typed import number

__all__ = [
    "CatalogueOption",
    "LightOption",
    "NoCacheOption",
    "PaperOption",
    "SearchText",
    "SecondsForAll",
    "SecondsOption",
    "named_path",
]


def named_path(text: str) -> Path:
    """Return a path from its text; an empty one, as of an unset variable, is no place to write."""
    if not text.strip():
        raise typer.BadParameter("the name is empty; give a folder or file, or . for this folder.")
    return Path(text)


CatalogueOption = Annotated[
    Path | None,
    typer.Option("--catalogue", metavar="FOLDER", help="Tables to use instead of the demo ones."),
]
PaperOption = Annotated[
    str | None, typer.Option("--paper", metavar="ID", help="Paper of the catalogue.")
]
LightOption = Annotated[
    str | None, typer.Option("--light", metavar="ID", help="Light of the catalogue.")
]
NoCacheOption = Annotated[
    bool, typer.Option("--no-cache", help="Neither use nor keep what was computed before.")
]
SecondsOption = Annotated[
    float | None,
    typer.Option(
        "--seconds",
        parser=number("--seconds"),
        metavar="S",
        help="Time for the whole answer, mixing included: what is not proven by then is left open."
        " If not said, 60 for the proof, and mixing may take an hour.",
    ),
]
SecondsForAll = Annotated[
    float | None,
    typer.Option(
        "--seconds",
        parser=number("--seconds"),
        metavar="S",
        help="Time after which mixing is given up; an hour if not said.",
    ),
]
SearchText = Annotated[
    str, typer.Argument(metavar="[TEXT]", help="Words that must all occur.", show_default=False)
]
