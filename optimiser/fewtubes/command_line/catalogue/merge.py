"""``fewtubes catalogue merge``: one catalogue is taken into another."""

from pathlib import Path
from typing import Annotated

import typer

from fewtubes.command_line.options.keeping import IntoOption, KeepOption
from fewtubes.command_line.options.output import named_path

__all__ = ["merge"]


def merge(
    folder: Annotated[
        Path,
        typer.Argument(
            parser=named_path, metavar="FOLDER", help="The catalogue that comes in; or 'demo'."
        ),
    ],
    *,
    into: IntoOption,
    keep: KeepOption = None,
    prices_only: Annotated[
        bool,
        typer.Option("--prices-only", help="Only packs and prices of tubes that both have."),
    ] = False,
) -> None:
    """Take all of one catalogue into another.

    What is the same is left as it is. Where both differ, every difference is told and nothing is
    written until you say whose is to stand.
    """
    from fewtubes.command_line.catalogue.finishing import (
        catalogue_from,
        every_fault_told,
        finish,
        settle_folder,
        whose,
    )
    from fewtubes.keeping.beginning import opened
    from fewtubes.keeping.merging import Winner, merged, merged_prices
    from fewtubes.keeping.outcome import outcome

    with every_fault_told():
        winner = whose(keep)
        settle_folder(into)
        ours, theirs = opened(into), catalogue_from(folder)
        if prices_only:
            done = merged_prices(ours, theirs, winner or Winner.THEIRS)
        else:
            done = merged(ours, theirs, winner)
        change = outcome(into, ours, done)
    finish(change)
