"""``fewtubes box``: what the tubes one owns are worth, and what to add to them."""

from pathlib import Path
from typing import Annotated

import typer

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
    NearerOption,
    OwnedOption,
    PaintersOption,
    PaperOption,
    PreferOption,
    PricesOption,
    ToleranceOption,
    TransparencyOption,
    WithoutHazardOption,
)
from fewtubes.command_line.options.work import CatalogueOption, NoCacheOption, SecondsOption
from fewtubes.tables.spreadsheet import Spreadsheet

__all__ = ["box"]


def box(
    *,
    scenario: Annotated[
        Path | None,
        typer.Argument(
            metavar="[SCENARIO.toml]",
            help="The flowers, the budget, the wishes; without it the box itself is shown.",
        ),
    ] = None,
    out: Annotated[
        Path | None,
        folder_option(
            "Write the doubles, the box, the additions and what is about to be bought there,"
            " as four CSV files, all or none."
        ),
    ] = None,
    budget: BudgetOption = None,
    most_tubes: MostTubesOption = None,
    tolerance: ToleranceOption = None,
    flowers: FlowersOption = None,
    owned: OwnedOption = None,
    box: BoxOption = None,
    about_to_buy: Annotated[
        list[str] | None,
        typer.Option(
            "--about-to-buy",
            metavar="NAME",
            help="A tube to look for in the box; repeatable. Else those of the best plan.",
        ),
    ] = None,
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
    seconds: SecondsOption = None,
    spreadsheet: SpreadsheetOption = Spreadsheet.COMMA,
    full: FullOption = False,
    no_cache: NoCacheOption = False,
) -> None:
    """Look through your own tubes, and for the next one.

    The scenario names the tubes owned and the flowers. Told are tubes that look alike, tubes that
    add nothing to these flowers, the single purchase that adds most, and of a tube about to be
    bought whether it is in the box already under another name, and what it would add. Without a
    scenario: what the box at home holds, how full it is and what looks alike.
    """
    from fewtubes.command_line.asked import (
        cache_asked,
        scenario_asked,
        told_of_options,
    )
    from fewtubes.command_line.box_alone import show_alone
    from fewtubes.command_line.output import progress
    from fewtubes.command_line.patience import limits_asked
    from fewtubes.command_line.put_out import in_folder, put_out
    from fewtubes.comparison.box import box as look_into_box
    from fewtubes.report.answer_files import box_files
    from fewtubes.report.terminal.box import print_box

    if scenario is None:
        needing = {
            "--out": out,
            "--budget": budget,
            "--most-tubes": most_tubes,
            "--tolerance": tolerance,
            "--owned": owned,
            "--about-to-buy": about_to_buy,
            "--lightfastness": lightfastness,
            "--transparency": transparency,
            "--without-hazard": without_hazard,
            "--millilitres": millilitres,
            "--most-in-mix": most_in_mix,
            "--painters": painters,
            "--seconds": seconds,
            "--prefer": prefer,
            "--nearer": nearer,
            "--prices": prices,
        }
        show_alone(
            box,
            catalogue,
            needing=[option for option, value in needing.items() if value is not None],
            paper=paper,
            light=light,
            no_cache=no_cache,
        )
        return
    limits = limits_asked(seconds)
    with progress("reading the catalogue") as tell_stage, told_of_options():
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
        )
        found = look_into_box(
            tables,
            question,
            about_to_buy=about_to_buy or (),
            limits=limits,
            progress=tell_stage,
            cache=cache_asked(no_cache=no_cache),
        )
    put_out(
        lambda console: print_box(found, console, full=full, catalogue_label=tables.label),
        in_folder(out, lambda: box_files(found, spreadsheet)),
    )
