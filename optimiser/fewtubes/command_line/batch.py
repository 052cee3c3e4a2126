"""``fewtubes batch``: all scenarios of a folder, and which one set of tubes serves them all."""

from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from decimal import Decimal
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from fewtubes.command_line.options.output import SpreadsheetOption, folder_option
from fewtubes.command_line.options.question import BudgetOption, FlowersOption, PricesOption
from fewtubes.command_line.options.work import CatalogueOption, NoCacheOption, SecondsOfProof
from fewtubes.errors import Fault, InputError
from fewtubes.tables.spreadsheet import Spreadsheet

if TYPE_CHECKING:
    from fewtubes.comparison.one_set_findings import OneSet
    from fewtubes.coverage.cache import Cache
    from fewtubes.shopping.shop import Limits
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
            "--reports",
            help="Write the illustrated report of each, and the hand-out of each class, too; it"
            " takes far longer.",
        ),
    ] = False,
    cluster: Annotated[
        str | None,
        typer.Option(
            "--cluster",
            metavar="ADDRESS",
            help="Work on this Dask cluster, such as tcp://192.168.1.20:8786. Whoever reaches a"
            " cluster can run programs on it: only in a network of your own.",
        ),
    ] = None,
    one_set: Annotated[
        bool,
        typer.Option(
            "--one-set",
            help="Find instead the one set of tubes that serves all of them best, on average and"
            " where it serves worst.",
        ),
    ] = False,
    budget: BudgetOption = None,
    counts: Annotated[
        list[str] | None,
        typer.Option(
            "--counts",
            metavar="NAME=NUMBER",
            help="How much a scenario, named by its file, counts in the mean of the one set; 1 if"
            " not said; repeatable.",
        ),
    ] = None,
    flowers: FlowersOption = None,
    catalogue: CatalogueOption = None,
    prices: PricesOption = None,
    seconds: SecondsOfProof = None,
    spreadsheet: SpreadsheetOption = Spreadsheet.COMMA,
    no_cache: NoCacheOption = False,
) -> None:
    """Answer all scenarios of a folder at once.

    What they have to mix is mixed once for all, and they are answered side by side. A scenario with
    a fault is told at the end and keeps none of the others back. Or find, with --one-set, the one
    set of tubes that serves all of them best; --budget and --counts are for that alone, and without
    a budget it may cost as much as the largest of the scenarios allows.
    """
    from fewtubes.command_line.asked import cache_asked, told_of_options
    from fewtubes.command_line.numbers import seconds_within
    from fewtubes.command_line.output import progress
    from fewtubes.command_line.put_out import in_folder, put_out
    from fewtubes.report.answer_files import one_set_files
    from fewtubes.report.terminal.one_set import print_one_set
    from fewtubes.shopping.shop import Limits
    from fewtubes.term.answering import Settings
    from fewtubes.term.asked import read_folder
    from fewtubes.term.run import answer_all
    from fewtubes.term.terminal import print_batch

    _refuse(
        {"--budget": budget is not None, "--counts": bool(counts)}
        if not one_set
        else {"--again": again, "--reports": reports, "--cluster": cluster is not None},
        "is for one set of tubes alone; give --one-set as well, or leave it out."
        if not one_set
        else "is for an answer to each scenario; leave it out, or leave out --one-set.",
    )
    limits = Limits() if seconds is None else Limits(seconds_within("--seconds", seconds))
    cache = cache_asked(no_cache=no_cache)
    if one_set:
        with progress("reading the scenarios") as tell_stage:
            asked = read_folder(folder, catalogue, flowers=flowers, prices=prices)
            served = _served(
                asked,
                budget=budget,
                weights=counts or (),
                limits=limits,
                cache=cache,
                progress=tell_stage,
            )
        put_out(
            lambda console: print_one_set(served, console),
            in_folder(out, lambda: one_set_files(served, spreadsheet)),
        )
        return
    with (
        progress("reading the scenarios") as tell_stage,
        told_of_options({"cluster": "--cluster"}),
        _resumable(out),
    ):
        found = answer_all(
            read_folder(folder, catalogue, flowers=flowers, prices=prices),
            settings=Settings(limits, spreadsheet, reports),
            out=out,
            again=again,
            cluster=cluster,
            cache=cache,
            progress=tell_stage,
        )
    put_out(lambda console: print_batch(found, console, out=out))
    _end(found)


def _served(
    asked: "Sequence[Asked]",
    *,
    budget: Decimal | None,
    weights: Sequence[str],
    limits: "Limits",
    cache: "Cache",
    progress: Callable[[str], None],
) -> "OneSet":
    """Return the one set for all scenarios, every one of which must be sound."""
    from fewtubes.command_line.asked import told_of_options
    from fewtubes.comparison.one_set import one_set_of

    faults = [fault for one in asked for fault in one.faults]
    if faults:
        raise InputError(faults)
    asking = {
        one.name: (one.catalogue, one.scenario)
        for one in asked
        if one.catalogue is not None and one.scenario is not None
    }
    with told_of_options({"budget": "--budget", "weights": "--counts", "scenarios": "FOLDER"}):
        return one_set_of(
            asking,
            budget=budget,
            weights=_weights(weights),
            limits=limits,
            progress=progress,
            cache=cache,
        )


def _weights(given: Sequence[str]) -> Mapping[str, str]:
    """Return the weights that were typed as ``NAME=NUMBER``, by name."""
    found: dict[str, str] = {}
    for text in given:
        name, sign, number = text.rpartition("=")
        name = name.strip().removesuffix(".toml")
        if not sign or not name:
            what = f"is '{text}'; give a scenario's name, = and a number, such as week-1=2."
            raise InputError([Fault("--counts", what)])
        if name in found:
            raise InputError([Fault("--counts", f"is given twice for '{name}'; give it once.")])
        found[name] = number.strip()
    return found


def _refuse(given: Mapping[str, bool], why: str) -> None:
    """Refuse options that would have no effect."""
    faults = [Fault(option, why) for option, is_given in given.items() if is_given]
    if faults:
        raise InputError(faults)


@contextmanager
def _resumable(out: Path | None) -> Iterator[None]:
    """Let an interruption say that what was done stays, and how to go on."""
    from fewtubes.command_line.failures import say, stopped_with
    from fewtubes.files.interruptions import told

    try:
        with told():
            yield
    except KeyboardInterrupt as error:
        if out is None:
            raise
        done = f"what was done is in '{out}', and the same command goes on from there"
        say(f"stopped; {done if out.is_dir() else 'no scenario was answered yet'}")
        raise stopped_with(error) from error


def _end(found: "Batch") -> None:
    """Tell what could not be answered, and end so that a script notices."""
    from fewtubes.command_line.failures import FAULT, say

    for row in found.failed:
        for fault in row.faults:
            named = fault.where.startswith(row.file)
            told = str(fault) if named else f"{row.file}: {fault}"
            say(" ".join(told.split("\n")))
    if found.failed:
        raise typer.Exit(FAULT)
