"""``fewtubes shop``: from a scenario to the tubes to buy."""

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
from fewtubes.command_line.proof import ProofBy, method_asked
from fewtubes.command_line.typed import amount, count, number

__all__ = ["shop"]


def shop(
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
            help="Write shopping-list.csv, recipes.csv and plan.json there, all or none.",
        ),
    ] = None,
    report: Annotated[
        Path | None,
        typer.Option(
            "--report",
            parser=named_path,
            metavar="FILE.html",
            help="Write the illustrated report there.",
        ),
    ] = None,
    pictures: Annotated[
        Path | None,
        typer.Option(
            "--pictures",
            parser=named_path,
            metavar="FOLDER",
            help="Write its pictures as SVG and PNG.",
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
    flower: Annotated[
        list[str] | None,
        typer.Option(
            "--flower", metavar="NAME", help="Instead of the scenario's flowers; may be repeated."
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
    prove_by: Annotated[
        ProofBy,
        typer.Option(
            "--prove-by",
            help="The exact search, the integer program (slow), or the one checked by the other.",
        ),
    ] = ProofBy.SEARCH,
    how_sure: Annotated[
        bool,
        typer.Option("--how-sure", help="Vary paint and hand; tell how often each recipe stays."),
    ] = False,
    steadiest: Annotated[
        bool,
        typer.Option("--steadiest", help="Of equal best choices take what stays most often."),
    ] = False,
    within: Annotated[
        float | None,
        typer.Option(
            "--within",
            parser=number("--within"),
            metavar="SHARE",
            help="Coverage that other choices may give up and still be weighed, such as 0.01;"
            " 0.01 with --how-sure, 0 with --steadiest if left out.",
        ),
    ] = None,
    seed: Annotated[
        int | None,
        typer.Option("--seed", parser=count("--seed"), help="Of the draws; 1 if left out."),
    ] = None,
    draws: Annotated[
        int | None,
        typer.Option(
            "--draws", parser=count("--draws"), help="How often to vary; 200 if left out."
        ),
    ] = None,
    no_cache: NoCacheOption = False,
    show_all: Annotated[
        bool, typer.Option("--all", help="List the steps between swatches too.")
    ] = False,
) -> None:
    """Choose the tubes to buy, and say how to mix each petal.

    The choice covers as much as can be of a scenario's flowers within its budget. The report tells
    whether that is proven, what stays out of reach, and why.
    """
    from dataclasses import replace

    from fewtubes.catalogue.reading import read_catalogue
    from fewtubes.command_line.asked import scenario_asked
    from fewtubes.command_line.failures import stopping
    from fewtubes.command_line.monte_carlo import monte_carlo_asked
    from fewtubes.command_line.output import progress, report_console
    from fewtubes.command_line.patience import limits_asked
    from fewtubes.command_line.putting_down import unwritten
    from fewtubes.command_line.results import results_asked
    from fewtubes.coverage.cache import Cache, default_cache
    from fewtubes.report.terminal.plan import print_plan
    from fewtubes.shopping.shop import answered

    results = results_asked(out=out, report=report, pictures=pictures)
    limits = limits_asked(seconds, method=method_asked(prove_by), drawn=results.is_drawn)
    whole = limits.mixing()
    trials = monte_carlo_asked(
        how_sure=how_sure, steadiest=steadiest, within=within, seed=seed, draws=draws
    )
    with progress("reading the catalogue") as tell_stage:
        tables = read_catalogue(catalogue)
        question = scenario_asked(
            scenario,
            tables,
            budget=budget,
            most_tubes=most_tubes,
            tolerance=tolerance,
            flowers=flower,
            owned=owned,
            must_have=must_have,
            never=never,
            paper=paper,
            light=light,
        )
        cache = Cache() if no_cache else default_cache()
        found = answered(
            tables,
            question,
            limits=limits,
            progress=tell_stage,
            cache=cache,
            trials=trials,
        )
        tell_stage("drawing up the results")
        files = results.drawn(
            found, clock=replace(limits, kept=0.0).clock(whole), progress=tell_stage
        )
    # Written first, so that nothing is lost if whoever reads the report goes away.
    with stopping(results.place) as written:
        failure = unwritten(files, written=written)
        print_plan(found.plan, report_console(), show_all=show_all)
        if files and failure is None:
            typer.echo(f"\n{results.told(files)}")
    if failure is not None:
        raise failure
