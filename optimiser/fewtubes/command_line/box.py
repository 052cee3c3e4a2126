"""``fewtubes box``: what the tubes one owns are worth, and what to add to them."""

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

__all__ = ["box"]


def box(
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
            help="Write the doubles, the box, the additions and what is about to be bought there,"
            " as four CSV files, all or none.",
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
    from fewtubes.catalogue.reading import read_catalogue
    from fewtubes.command_line.asked import scenario_asked
    from fewtubes.command_line.choices import chosen_tubes
    from fewtubes.command_line.output import progress, report_console
    from fewtubes.command_line.patience import limits_asked
    from fewtubes.command_line.reporting import write_and_print
    from fewtubes.comparison.box import look_into_box
    from fewtubes.coverage.cache import Cache, default_cache
    from fewtubes.report.answer_files import box_files
    from fewtubes.report.terminal.box import print_box

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
            paper=paper,
            light=light,
        )
        cache = Cache() if no_cache else default_cache()
        chosen_tubes("--about-to-buy", about_to_buy or (), tables)
        found = look_into_box(
            tables,
            question,
            about_to_buy=about_to_buy or (),
            limits=limits,
            progress=tell_stage,
            cache=cache,
        )
    write_and_print(out, lambda: box_files(found), lambda: print_box(found, report_console()))
