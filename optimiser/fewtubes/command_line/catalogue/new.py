"""``fewtubes catalogue new``: a catalogue of one's own is begun."""

from pathlib import Path
from typing import Annotated

import typer

from fewtubes.command_line.options.output import named_path

__all__ = ["new"]


def new(
    folder: Annotated[
        Path, typer.Argument(parser=named_path, metavar="FOLDER", help="Made if it is not there.")
    ],
    *,
    with_flowers: Annotated[
        bool, typer.Option("--with-flowers", help="With the demo's flowers besides.")
    ] = False,
    empty: Annotated[
        bool, typer.Option("--empty", help="Header rows alone, not even papers and lights.")
    ] = False,
) -> None:
    """Begin a catalogue: its tables, papers and lights.

    Papers and lights are those of the demo. Nothing is overwritten: a folder that holds any of the
    tables is refused.
    """
    from fewtubes.command_line.catalogue.finishing import finish, settle_folder
    from fewtubes.errors import Fault, InputError
    from fewtubes.keeping.beginning import BORROWED, begun_catalogue
    from fewtubes.keeping.merging import Merged
    from fewtubes.keeping.outcome import outcome

    if empty and with_flowers:
        what = "leaves out what --with-flowers asks for; give one of the two."
        raise InputError([Fault("--empty", what)])
    settle_folder(folder)
    flowers = ("flowers.csv",) if with_flowers else ()
    begun = begun_catalogue(folder, () if empty else (*BORROWED, *flowers))
    finish(outcome(folder, None, Merged(begun)))
