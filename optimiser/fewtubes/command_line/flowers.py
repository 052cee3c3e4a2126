"""``fewtubes flowers``: what can be painted."""

from typing import Annotated

import typer

from fewtubes.command_line.options.output import FullOption
from fewtubes.command_line.options.question import FlowersOption
from fewtubes.command_line.options.work import CatalogueOption, SearchText

__all__ = ["flowers"]


def flowers(
    text: SearchText = "",
    own: FlowersOption = None,
    catalogue: CatalogueOption = None,
    names: Annotated[bool, typer.Option("--names", help="Only their names, one a line.")] = False,
    full: FullOption = False,
) -> None:
    """List flowers and leaves with their swatches."""
    from fewtubes.catalogue.reading import read_catalogue
    from fewtubes.command_line.asked import with_own_flowers
    from fewtubes.command_line.put_out import put_out
    from fewtubes.comparison.flower_listing import searched_flowers
    from fewtubes.report.terminal.flowers import print_flowers

    tables = with_own_flowers(read_catalogue(catalogue), own)
    found = searched_flowers(tables, text)
    put_out(
        lambda console: print_flowers(
            found, console, of=len(tables.flowers), names_alone=names, full=full
        )
    )
