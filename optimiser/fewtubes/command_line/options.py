"""Options that several commands share."""

from pathlib import Path
from typing import Annotated

import typer

__all__ = [
    "CatalogueOption",
    "LightOption",
    "NoCacheOption",
    "PaperOption",
    "SearchText",
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
SearchText = Annotated[
    str, typer.Argument(metavar="[TEXT]", help="Words that must all occur.", show_default=False)
]
