"""``fewtubes box``: what the tubes one owns are worth, and what to add to them."""

from pathlib import Path
from typing import Annotated

import typer

from fewtubes.command_line.options.output import folder_option
from fewtubes.command_line.options.question import (
    BudgetOption,
    LightOption,
    MostTubesOption,
    OwnedOption,
    PaperOption,
    ScenarioArgument,
    ToleranceOption,
)
from fewtubes.command_line.options.work import CatalogueOption, NoCacheOption, SecondsOption

__all__ = ["box"]


def box(
    *,
    scenario: ScenarioArgument,
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
    owned: OwnedOption = None,
    about_to_buy: Annotated[
        list[str] | None,
        typer.Option(
            "--about-to-buy",
            metavar="ID",
            help="A tube to look for in the box; repeatable. Else those of the best plan.",
        ),
    ] = None,
    catalogue: CatalogueOption = None,
    paper: PaperOption = None,
    light: LightOption = None,
    seconds: SecondsOption = None,
    no_cache: NoCacheOption = False,
) -> None:
    """Look through your own tubes: doubles, idle ones, the next one to buy.

    The scenario names the tubes owned and the flowers. Told are tubes that look alike, tubes that
    add nothing to these flowers, the single purchase that adds most, and whether a tube about to
    be bought is in the box already under another name.
    """
    from fewtubes.command_line.output import progress
    from fewtubes.command_line.patience import limits_asked
    from fewtubes.command_line.put_out import in_folder, put_out
    from fewtubes.command_line.scenario_asked import (
        cache_asked,
        scenario_asked,
        told_of_options,
    )
    from fewtubes.comparison.box import box as look_into_box
    from fewtubes.report.answer_files import box_files
    from fewtubes.report.terminal.box import print_box

    limits = limits_asked(seconds)
    with progress("reading the catalogue") as tell_stage, told_of_options():
        tables, question = scenario_asked(
            scenario,
            catalogue,
            budget=budget,
            most_tubes=most_tubes,
            tolerance=tolerance,
            owned=owned,
            paper=paper,
            light=light,
        )
        found = look_into_box(
            tables,
            question,
            about_to_buy=about_to_buy or (),
            limits=limits,
            progress=tell_stage,
            cache=cache_asked(no_cache=no_cache),
        )
    put_out(lambda console: print_box(found, console), in_folder(out, lambda: box_files(found)))
