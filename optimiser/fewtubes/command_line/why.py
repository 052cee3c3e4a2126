"""``fewtubes why``: what hangs on each tube, and what keeps a colour out of reach."""

from decimal import Decimal
from pathlib import Path
from typing import Annotated

import typer

from fewtubes.command_line.options import (
    CatalogueOption,
    LightOption,
    NoCacheOption,
    PaperOption,
    SecondsOption,
    named_path,
)
from fewtubes.command_line.typed import amount, count, number

__all__ = ["why"]


def why(
    *,
    scenario: Annotated[
        Path, typer.Argument(metavar="SCENARIO.toml", help="The flowers, the budget, the wishes.")
    ],
    out: Annotated[
        Path | None,
        typer.Option(
            "--out",
            parser=named_path,
            metavar="FOLDER",
            help="Write why-tubes.csv, out-of-reach.csv and one-of-these.csv there, all or none.",
        ),
    ] = None,
    budget: Annotated[
        Decimal | None,
        typer.Option("--budget", parser=amount("--budget"), help="Instead of the scenario's."),
    ] = None,
    most_tubes: Annotated[
        int | None,
        typer.Option("--most-tubes", parser=count("--most-tubes"), help="Tubes to buy at most."),
    ] = None,
    tolerance: Annotated[
        float | None,
        typer.Option(
            "--tolerance",
            parser=number("--tolerance"),
            help="ΔE00 up to which a colour is covered.",
        ),
    ] = None,
    owned: Annotated[
        list[str] | None, typer.Option("--owned", metavar="ID", help="A tube you have; repeatable.")
    ] = None,
    must_have: Annotated[
        list[str] | None,
        typer.Option("--must-have", metavar="ID", help="A tube to buy in any case; repeatable."),
    ] = None,
    never: Annotated[
        list[str] | None,
        typer.Option("--never", metavar="ID", help="A tube to leave out; repeatable."),
    ] = None,
    catalogue: CatalogueOption = None,
    paper: PaperOption = None,
    light: LightOption = None,
    seconds: SecondsOption = None,
    no_cache: NoCacheOption = False,
) -> None:
    """Tell why these tubes: what hangs on each, what stays out of reach and why.

    For each tube: the colours only it brings, the best that could be had without it, and what
    could stand in. For each colour out of reach: whether budget, wishes or catalogue keep it so,
    and what would bring it. And where one of only a few tubes must be bought.
    """
    from fewtubes.catalogue.reading import read_catalogue
    from fewtubes.command_line.asked import scenario_asked
    from fewtubes.command_line.output import progress, report_console
    from fewtubes.command_line.patience import limits_asked
    from fewtubes.command_line.reporting import write_and_print
    from fewtubes.comparison.why import explain
    from fewtubes.coverage.cache import Cache, default_cache
    from fewtubes.report.answer_files import why_files
    from fewtubes.report.terminal.why import print_why

    limits = limits_asked(seconds)
    with progress("reading the catalogue") as tell_stage:
        tables = read_catalogue(catalogue)
        question = scenario_asked(
            scenario,
            tables,
            budget=budget,
            most_tubes=most_tubes,
            tolerance=tolerance,
            owned=owned,
            must_have=must_have,
            never=never,
            paper=paper,
            light=light,
        )
        cache = Cache() if no_cache else default_cache()
        found = explain(tables, question, limits=limits, progress=tell_stage, cache=cache)
    write_and_print(out, lambda: why_files(found), lambda: print_why(found, report_console()))
