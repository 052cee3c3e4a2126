"""``fewtubes instalments``: what to buy now, and what with each further sum."""

from decimal import Decimal
from pathlib import Path
from typing import Annotated

import typer

from fewtubes.command_line.options.output import (
    FullOption,
    SpreadsheetOption,
    file_option,
    folder_option,
)
from fewtubes.command_line.options.question import (
    BoxOption,
    FlowerOption,
    FlowersOption,
    LightfastnessOption,
    LightOption,
    MillilitresOption,
    MostInMixOption,
    MostTubesOption,
    MustHaveOption,
    NeverOption,
    OwnedOption,
    PaintersOption,
    PaperOption,
    PreferOption,
    PricesOption,
    ScenarioArgument,
    ToleranceOption,
    TransparencyOption,
    WithoutHazardOption,
)
from fewtubes.command_line.options.work import CatalogueOption, NoCacheOption, SecondsOption
from fewtubes.command_line.typed import amount_reader
from fewtubes.tables.spreadsheet import Spreadsheet

__all__ = ["instalments"]


def instalments(
    *,
    scenario: ScenarioArgument,
    sums: Annotated[
        list[Decimal] | None,
        typer.Option(
            "--sum",
            parser=amount_reader("--sum"),
            metavar="AMOUNT",
            help="Money to spend, the first for now; repeat it for each further time.",
        ),
    ] = None,
    weights: Annotated[
        list[Decimal] | None,
        typer.Option(
            "--weight",
            parser=amount_reader("--weight"),
            metavar="NUMBER",
            help="How much being able to paint from each sum on counts; one a sum. If not said, the"
            " last counts 1, the one before it 2 and so on.",
        ),
    ] = None,
    order_only: Annotated[
        bool,
        typer.Option(
            "--order-only",
            help="Buy the tubes that must be bought and no other; only their order is sought.",
        ),
    ] = False,
    out: Annotated[
        Path | None,
        folder_option("Write instalments.csv and instalments.json there, both or none."),
    ] = None,
    report: Annotated[
        Path | None,
        file_option("--report", "FILE.html", "Write an illustrated report of the order there."),
    ] = None,
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
    lightfastness: LightfastnessOption = None,
    transparency: TransparencyOption = None,
    without_hazard: WithoutHazardOption = None,
    millilitres: MillilitresOption = None,
    most_in_mix: MostInMixOption = None,
    painters: PaintersOption = None,
    seconds: SecondsOption = None,
    spreadsheet: SpreadsheetOption = Spreadsheet.COMMA,
    no_cache: NoCacheOption = False,
    full: FullOption = False,
) -> None:
    """Buy bit by bit: what now, what with each further sum.

    Each palette holds the one before, and what is not spent is carried on. The order of buying is
    the one that lets you paint most over the time, being able to paint now first. Told beside is
    what that gives up against buying at once. The sums stand in the place of the budget.
    """
    from fewtubes.command_line.asked import cache_asked, scenario_asked, told_of_options
    from fewtubes.command_line.instalment_results import instalment_results
    from fewtubes.command_line.output import progress
    from fewtubes.command_line.patience import limits_asked
    from fewtubes.command_line.put_out import put_out
    from fewtubes.comparison.instalments import instalments as bought_bit_by_bit
    from fewtubes.report.terminal.instalments import print_instalments

    results = instalment_results(out=out, report=report, spreadsheet=spreadsheet)
    limits = limits_asked(seconds)
    with progress("reading the catalogue") as tell_stage, told_of_options():
        tables, question = scenario_asked(
            scenario,
            catalogue,
            prices=prices,
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
            lightfastness=lightfastness,
            transparency=transparency,
            without_hazard=without_hazard,
            millilitres=millilitres,
            most_in_mix=most_in_mix,
            painters=painters,
        )
        found = bought_bit_by_bit(
            tables,
            question,
            sums=sums or (),
            weights=weights,
            order_only=order_only,
            limits=limits,
            progress=tell_stage,
            cache=cache_asked(no_cache=no_cache),
        )
        if report is not None:
            tell_stage("drawing up the report")
        files = results.drawn(found)
    put_out(
        lambda console: print_instalments(found, console, full=full),
        files,
        told=results.told(),
    )
