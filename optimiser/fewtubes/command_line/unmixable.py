"""``fewtubes unmixable``: which tubes must be bought because no mix replaces them."""

from pathlib import Path
from typing import Annotated

import typer

from fewtubes.command_line.options.output import SpreadsheetOption, all_option, folder_option
from fewtubes.command_line.options.question import (
    BoxOption,
    LightOption,
    NeverOption,
    PaperOption,
)
from fewtubes.command_line.options.work import CatalogueOption, NoCacheOption, SecondsForAll
from fewtubes.tables.spreadsheet import Spreadsheet

__all__ = ["unmixable"]


def unmixable(
    *,
    out: Annotated[
        Path | None,
        folder_option("Write unmixable.csv and unmixable-washes.csv there, both or none."),
    ] = None,
    count_twins: Annotated[
        bool,
        typer.Option(
            "--count-twins",
            help="Let a tube be mixed from tubes nearly like it, too: each is its own family.",
        ),
    ] = False,
    never: NeverOption = None,
    box: BoxOption = None,
    catalogue: CatalogueOption = None,
    paper: PaperOption = None,
    light: LightOption = None,
    seconds: SecondsForAll = None,
    spreadsheet: SpreadsheetOption = Spreadsheet.COMMA,
    no_cache: NoCacheOption = False,
    show_all: Annotated[
        bool, all_option("List every family, not only the hardest to mix.")
    ] = False,
) -> None:
    """Rank families of tubes by how near mixes of all others come.

    Tubes that are nearly one another, such as two strengths of one paint, are one family. Each tube
    is compared from full strength to pale wash with all recipes of up to three tubes of other
    families. With a box at home its tubes alone are ranked and mixed.
    """
    from fewtubes.command_line.asked import box_asked, cache_asked, told_of_options
    from fewtubes.command_line.at_hand import tubes_left_out
    from fewtubes.command_line.output import progress
    from fewtubes.command_line.patience import seconds_for_mixing
    from fewtubes.command_line.put_out import in_folder, put_out
    from fewtubes.comparison.unmixable import unmixable as ranked_tubes
    from fewtubes.report.answer_files import unmixable_files
    from fewtubes.report.terminal.unmixable import print_unmixable

    patience = seconds_for_mixing(seconds)
    with progress("reading the catalogue") as tell_stage, told_of_options():
        tables, kept = box_asked(box, catalogue)
        mixed = ranked_tubes(
            tables,
            without=tubes_left_out(never or (), kept, tables),
            count_twins=count_twins,
            paper=paper,
            light=light,
            seconds=patience,
            cache=cache_asked(no_cache=no_cache),
            progress=tell_stage,
        )
    put_out(
        lambda console: print_unmixable(mixed, console, count_twins=count_twins, show_all=show_all),
        in_folder(out, lambda: unmixable_files(mixed, spreadsheet)),
    )
