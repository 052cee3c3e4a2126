"""Which catalogue is added to, where profiles come from, and whose content stands."""

from pathlib import Path
from typing import Annotated

import typer
from typer.models import OptionInfo

from fewtubes.command_line.options.output import named_path

__all__ = ["FromOption", "IntoOption", "KeepOption", "MaybeIntoOption", "ReplaceOption"]

INTO: OptionInfo = typer.Option(
    "--into", parser=named_path, metavar="FOLDER", help="The catalogue that is added to."
)
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
    bool,
    typer.Option(
        "--replace", help="What is there under the same name gives way; other packs stay."
    ),
]
