"""What cards of swatches and fits to them take."""

from typing import Annotated

import typer

from fewtubes.command_line.typed import count_reader
from fewtubes.defaults import SEED

__all__ = ["NamesOption", "SeedOption"]

NamesOption = Annotated[
    str | None,
    typer.Option(
        "--names",
        metavar="LIST",
        help="Of the tubes on a card, row by row: 'my rose, my blue'; semicolons will do as well.",
    ),
]
SeedOption = Annotated[
    int | None,
    typer.Option(
        "--seed", parser=count_reader("--seed"), help=f"Of the draws; {SEED} if left out."
    ),
]
