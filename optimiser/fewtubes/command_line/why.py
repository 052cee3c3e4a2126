"""``fewtubes why``: what hangs on each tube, and what keeps a colour out of reach."""

from pathlib import Path
from typing import Annotated

from fewtubes.command_line.options.output import FullOption, SpreadsheetOption, folder_option
from fewtubes.command_line.options.question import (
    BoxOption,
    BudgetOption,
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
from fewtubes.command_line.options.work import CatalogueOption, NoCacheOption, SecondsOption
from fewtubes.tables.spreadsheet import Spreadsheet

__all__ = ["why"]


def why(
    *,
    scenario: ScenarioArgument,
    out: Annotated[
        Path | None,
        folder_option(
            "Write why-tubes.csv, out-of-reach.csv and one-of-these.csv there, all or none."
        ),
    ] = None,
    budget: BudgetOption = None,
    most_tubes: MostTubesOption = None,
    tolerance: ToleranceOption = None,
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
    spreadsheet: SpreadsheetOption = Spreadsheet.COMMA,
    full: FullOption = False,
    no_cache: NoCacheOption = False,
) -> None:
    """Tell why these tubes, and why a colour is out of reach.

    For each tube: the colours only it brings, the best that could be had without it, and what
    could stand in. For each colour out of reach: whether budget, wishes or catalogue keep it so,
    and what would bring it. And where one of only a few tubes must be bought.
    """
    from fewtubes.command_line.asked import cache_asked, scenario_asked
    from fewtubes.command_line.output import progress
    from fewtubes.command_line.patience import limits_asked
    from fewtubes.command_line.put_out import in_folder, put_out
    from fewtubes.comparison.why import why as explain
    from fewtubes.report.answer_files import why_files
    from fewtubes.report.terminal.why import print_why

    limits = limits_asked(seconds)
    with progress("reading the catalogue") as tell_stage:
        tables, question = scenario_asked(
            scenario,
            catalogue,
            prices=prices,
            budget=budget,
            most_tubes=most_tubes,
            tolerance=tolerance,
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
        found = explain(
            tables,
            question,
            limits=limits,
            progress=tell_stage,
            cache=cache_asked(no_cache=no_cache),
        )
    put_out(
        lambda console: print_why(found, console, full=full),
        in_folder(out, lambda: why_files(found, spreadsheet)),
    )
