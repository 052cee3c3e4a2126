"""``fewtubes shop``: from a scenario to the tubes to buy."""

from pathlib import Path
from typing import Annotated

import typer

from fewtubes.command_line.options.output import (
    EarlierAllOption,
    FullOption,
    SpreadsheetOption,
    file_option,
    folder_option,
)
from fewtubes.command_line.options.question import (
    BoxOption,
    BudgetOption,
    FlowerOption,
    FlowersOption,
    LightfastnessOption,
    LightOption,
    MillilitresOption,
    MostInMixOption,
    MostTubesOption,
    MustHaveOption,
    NearerOption,
    NeverOption,
    OwnedOption,
    PaintersOption,
    PaintForOption,
    PaperOption,
    PreferOption,
    PricesOption,
    ScenarioArgument,
    ToleranceOption,
    TransparencyOption,
    WithoutHazardOption,
)
from fewtubes.command_line.options.swatches import SeedOption
from fewtubes.command_line.options.work import CatalogueOption, NoCacheOption, SecondsOption
from fewtubes.command_line.proof import ProofBy, method_asked
from fewtubes.command_line.typed import count_reader, number_reader
from fewtubes.defaults import DRAWS, RIVALS_WITHIN
from fewtubes.tables.spreadsheet import Spreadsheet

__all__ = ["shop"]


def shop(
    *,
    scenario: ScenarioArgument,
    out: Annotated[
        Path | None,
        folder_option("Write plan.json, shopping list, recipes and puddles there, all or none."),
    ] = None,
    report: Annotated[
        Path | None,
        file_option(
            "--report",
            "FILE.html",
            "Write the illustrated report there; comparing takes up to half a minute more.",
        ),
    ] = None,
    pictures: Annotated[
        Path | None,
        folder_option("Write its pictures as SVG and PNG.", "--pictures"),
    ] = None,
    chart: Annotated[
        Path | None,
        file_option(
            "--chart",
            "FILE.html",
            "Write a sheet to paint there: pairs in steps, puddles, empty boxes.",
        ),
    ] = None,
    handout: Annotated[
        Path | None,
        file_option(
            "--handout",
            "FILE.html",
            "Write a hand-out for each painter there: paints, puddles, boxes for swatches.",
        ),
    ] = None,
    write_program: Annotated[
        Path | None,
        file_option(
            "--write-program",
            "FILE.lp",
            "Write the integer program of the choice there, for any other solver.",
        ),
    ] = None,
    budget: BudgetOption = None,
    most_tubes: MostTubesOption = None,
    tolerance: ToleranceOption = None,
    flower: FlowerOption = None,
    flowers: FlowersOption = None,
    owned: OwnedOption = None,
    box: BoxOption = None,
    must_have: MustHaveOption = None,
    never: NeverOption = None,
    catalogue: CatalogueOption = None,
    prices: PricesOption = None,
    paper: PaperOption = None,
    light: LightOption = None,
    prefer: PreferOption = None,
    nearer: NearerOption = None,
    lightfastness: LightfastnessOption = None,
    transparency: TransparencyOption = None,
    without_hazard: WithoutHazardOption = None,
    millilitres: MillilitresOption = None,
    most_in_mix: MostInMixOption = None,
    painters: PaintersOption = None,
    paint_for: PaintForOption = None,
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
            parser=number_reader("--within"),
            metavar="SHARE",
            help="Coverage that other choices may give up and still be weighed, such as 0.01;"
            f" {RIVALS_WITHIN:g} with --how-sure, 0 with --steadiest if left out.",
        ),
    ] = None,
    seed: SeedOption = None,
    draws: Annotated[
        int | None,
        typer.Option(
            "--draws",
            parser=count_reader("--draws"),
            help=f"How often to vary; {DRAWS} if left out.",
        ),
    ] = None,
    one_sitting: Annotated[
        bool,
        typer.Option("--one-sitting", help="Fewest puddles for all flowers, not for each."),
    ] = False,
    nearest_each: Annotated[
        bool,
        typer.Option("--nearest-each", help="The nearest mix for each colour, not few puddles."),
    ] = False,
    spreadsheet: SpreadsheetOption = Spreadsheet.COMMA,
    no_cache: NoCacheOption = False,
    full: FullOption = False,
    earlier: EarlierAllOption = False,
) -> None:
    """Choose the tubes to buy, and say how to mix each petal.

    The choice covers as much as can be of a scenario's flowers within its budget. The report tells
    whether that is proven, what stays out of reach, and why.
    """
    from dataclasses import replace

    from fewtubes.command_line.asked import cache_asked, scenario_asked, told_of_options
    from fewtubes.command_line.monte_carlo import monte_carlo_asked
    from fewtubes.command_line.output import progress
    from fewtubes.command_line.patience import limits_asked
    from fewtubes.command_line.puddling import puddling_asked
    from fewtubes.command_line.put_out import put_out
    from fewtubes.command_line.results import results_asked
    from fewtubes.report.terminal.plan import print_plan
    from fewtubes.shopping.shop import answered

    results = results_asked(
        out=out,
        report=report,
        pictures=pictures,
        program=write_program,
        chart=chart,
        handout=handout,
        spreadsheet=spreadsheet,
    )
    limits = limits_asked(seconds, method=method_asked(prove_by), drawn=results.is_drawn)
    puddling = puddling_asked(
        one_sitting=one_sitting, nearest_each=nearest_each, steadiest=steadiest
    )
    whole = limits.mixing()
    trials = monte_carlo_asked(
        how_sure=how_sure, steadiest=steadiest, within=within, seed=seed, draws=draws
    )
    with progress("reading the catalogue") as tell_stage:
        tables, question = scenario_asked(
            scenario,
            catalogue,
            prices=prices,
            budget=budget,
            most_tubes=most_tubes,
            tolerance=tolerance,
            flowers=flower,
            own_flowers=flowers,
            owned=owned,
            box=box,
            must_have=must_have,
            never=never,
            paper=paper,
            light=light,
            prefer=prefer,
            nearer=nearer,
            lightfastness=lightfastness,
            transparency=transparency,
            without_hazard=without_hazard,
            millilitres=millilitres,
            most_in_mix=most_in_mix,
            painters=painters,
            paint_for=paint_for,
        )
        with told_of_options():
            found = answered(
                tables,
                question,
                limits=limits,
                progress=tell_stage,
                cache=cache_asked(no_cache=no_cache),
                trials=trials,
                puddling=puddling,
            )
        tell_stage("drawing up the results")
        files = results.drawn(
            found, clock=replace(limits, kept=0.0).clock(whole), progress=tell_stage
        )
    put_out(
        lambda console: print_plan(found.plan, console, full=full or earlier),
        files,
        told=results.told(files),
    )
