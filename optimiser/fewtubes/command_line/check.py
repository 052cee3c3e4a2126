"""``fewtubes check``: whether a catalogue and scenarios are sound."""

from pathlib import Path
from typing import Annotated

import typer

from fewtubes.command_line.options.question import FlowersOption, PricesOption
from fewtubes.command_line.options.work import CatalogueOption

__all__ = ["check"]


def check(
    scenarios: Annotated[
        list[Path] | None,
        typer.Argument(metavar="[SCENARIO]...", help="Files, or folders of .toml files."),
    ] = None,
    flowers: FlowersOption = None,
    catalogue: CatalogueOption = None,
    prices: PricesOption = None,
) -> None:
    """Find all faults of a catalogue and scenarios."""
    from fewtubes.command_line.failures import FAULT, tell
    from fewtubes.command_line.put_out import put_out
    from fewtubes.errors import InputError
    from fewtubes.report.terminal.check import check_tables, print_check

    try:
        outcome = check_tables(catalogue, scenarios or (), flowers, prices)
    except InputError as error:
        tell(error, most=None)
        raise typer.Exit(FAULT) from error
    put_out(lambda console: print_check(outcome, console))
