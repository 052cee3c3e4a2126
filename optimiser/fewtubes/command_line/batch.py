"""``fewtubes batch``: all scenarios of a folder, and which one set of tubes serves them all."""

from decimal import Decimal
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from fewtubes.command_line.options.output import SpreadsheetOption, folder_option
from fewtubes.command_line.options.question import FlowersOption
from fewtubes.command_line.options.work import CatalogueOption, NoCacheOption
from fewtubes.command_line.typed import amount_reader, number_reader
from fewtubes.defaults import PROOF_SECONDS
from fewtubes.tables.spreadsheet import Spreadsheet

if TYPE_CHECKING:
    from collections.abc import Callable

    from fewtubes.term.asked import Asked
    from fewtubes.term.findings import Batch

__all__ = ["batch"]


def batch(
    *,
    folder: Annotated[
        Path, typer.Argument(metavar="FOLDER", help="Holds the scenarios, files in .toml.")
    ],
    out: Annotated[
        Path | None,
        folder_option(
            "Write there a folder for each scenario, as `shop --out` does, and answers.csv and"
            " answers.html for all; what is there already and unchanged is not done again."
        ),
    ] = None,
    again: Annotated[
        bool, typer.Option("--again", help="Answer all anew, also what is done and unchanged.")
    ] = False,
    reports: Annotated[
        bool,
        typer.Option(
            "--reports", help="Write the illustrated report of each, too; it takes far longer."
        ),
    ] = False,
    flowers: FlowersOption = None,
    catalogue: CatalogueOption = None,
    seconds: Annotated[
        float | None,
        typer.Option(
            "--seconds",
            parser=number_reader("--seconds"),
            metavar="S",
            help=f"Time for the proof of each choice, {PROOF_SECONDS:g} if not said; what is not"
            " proven by then is left open.",
        ),
    ] = None,
    cluster: Annotated[
        str | None,
        typer.Option(
            "--cluster",
            metavar="ADDRESS",
            help="Work on this Dask cluster, such as tcp://192.168.1.20:8786. Whoever reaches a"
            " cluster can run programs on it: only in a network of your own.",
        ),
    ] = None,
    spreadsheet: SpreadsheetOption = Spreadsheet.COMMA,
    no_cache: NoCacheOption = False,
) -> None:
    """Answer all scenarios of a folder, or find one set of tubes for all of them.

    What they have to mix is mixed once for all, and they are answered side by side. A scenario with
    a fault is told at the end and keeps none of the others back.
    """
    from fewtubes.term.answering import Settings
    from fewtubes.term.asked import read_folder
    from fewtubes.term.run import answer_all
    from fewtubes.term.terminal import print_batch
    from fewtubes.command_line.asked import cache_asked
    from fewtubes.command_line.output import progress
    from fewtubes.command_line.put_out import put_out
    from fewtubes.command_line.numbers import seconds_within
    from fewtubes.shopping.shop import Limits

    limits = Limits() if seconds is None else Limits(seconds_within("--seconds", seconds))
    with progress("reading the scenarios") as tell_stage:
        asked = read_folder(folder, catalogue, flowers)
        found = answer_all(
            asked,
            settings=Settings(limits, spreadsheet, reports),
            out=out,
            again=again,
            cluster=cluster,
            cache=cache_asked(no_cache=no_cache),
            progress=tell_stage,
        )
    put_out(lambda console: print_batch(found, console, out=out))
    _end(found)


def _end(found: "Batch") -> None:
    """Tell what could not be answered, and end so that a script notices."""
    from fewtubes.command_line.failures import FAULT, say

    for row in found.failed:
        named = row.fault.startswith(row.file)
        say(row.fault if named else f"{row.file}: {row.fault}")
    if found.failed:
        raise typer.Exit(FAULT)
