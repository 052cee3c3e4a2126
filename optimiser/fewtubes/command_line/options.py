"""Options that several commands share."""

from pathlib import Path
from typing import Annotated

import typer

__all__ = ["CatalogueOption", "LightOption", "NoCacheOption", "PaperOption", "SearchText"]

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
