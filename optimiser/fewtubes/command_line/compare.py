"""``fewtubes compare``: palettes side by side, and the whole trade-off of coverage and cost."""

from pathlib import Path
from typing import Annotated

import typer

from fewtubes.command_line.options.output import (
    EarlierAllOption,
    FullOption,
    SpreadsheetOption,
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
from fewtubes.command_line.options.work import CatalogueOption, NoCacheOption, SecondsOption
from fewtubes.command_line.typed import count_reader, number_reader
from fewtubes.defaults import NEAR_BEST_LISTED, NEAR_BEST_WITHIN, UP_TO_TUBES
from fewtubes.tables.spreadsheet import Spreadsheet

__all__ = ["compare"]


def compare(
    *,
    scenario: ScenarioArgument,
    out: Annotated[
        Path | None,
        folder_option(
            "Write front.csv, sizes.csv, near-best.csv and compare.json there, all or none."
        ),
    ] = None,
    up_to: Annotated[
        int,
        typer.Option(
            "--up-to", parser=count_reader("--up-to"), help="Largest number of tubes looked at."
        ),
    ] = UP_TO_TUBES,
    near: Annotated[
        int,
        typer.Option(
            "--near", parser=count_reader("--near"), help="Near-best palettes listed at most."
        ),
    ] = NEAR_BEST_LISTED,
    within: Annotated[
        float,
        typer.Option(
            "--within",
            parser=number_reader("--within"),
            help="Coverage [0-1] that a near-best one may lose.",
        ),
    ] = NEAR_BEST_WITHIN,
    near_size: Annotated[
        int | None,
        typer.Option(
            "--near-size",
            parser=count_reader("--near-size"),
            help="Their number of tubes; else the largest that gains.",
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
    spreadsheet: SpreadsheetOption = Spreadsheet.COMMA,
    no_cache: NoCacheOption = False,
    full: FullOption = False,
    earlier: EarlierAllOption = False,
) -> None:
    """Compare palettes by tubes, ties, coverage and cost.

    For one tube, two, three … the best palette within the budget and what it gains; the palettes
    that come so near the best that taste can decide; every step of coverage against cost; and what
    asking for lasting or transparent tubes throughout would cost.
    """
    from fewtubes.command_line.asked import cache_asked, scenario_asked
    from fewtubes.command_line.extent import extent_of
    from fewtubes.command_line.output import progress
    from fewtubes.command_line.put_out import in_folder, put_out
    from fewtubes.comparison.compare import compare as compare_palettes
    from fewtubes.report.answer_files import compare_files
    from fewtubes.report.terminal.compare import print_comparison

    extent = extent_of(up_to=up_to, near=near, within=within, near_size=near_size, seconds=seconds)
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
        found = compare_palettes(
            tables,
            question,
            extent=extent,
            progress=tell_stage,
            cache=cache_asked(no_cache=no_cache),
            whole=seconds is not None,
        )
    put_out(
        lambda console: print_comparison(found, console, full=full or earlier),
        in_folder(out, lambda: compare_files(found, spreadsheet)),
    )
