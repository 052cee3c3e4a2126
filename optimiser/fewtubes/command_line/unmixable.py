"""``fewtubes unmixable``: which tubes must be bought because no mix replaces them."""

from pathlib import Path
from typing import Annotated

import typer

from fewtubes.command_line.options.output import all_option, folder_option
from fewtubes.command_line.options.question import LightOption, NeverOption, PaperOption
from fewtubes.command_line.options.work import CatalogueOption, NoCacheOption, SecondsForAll

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
            help="Let a tube be mixed from the same paint at another strength, too.",
        ),
    ] = False,
    never: NeverOption = None,
    catalogue: CatalogueOption = None,
    paper: PaperOption = None,
    light: LightOption = None,
    seconds: SecondsForAll = None,
    no_cache: NoCacheOption = False,
    show_all: Annotated[bool, all_option("List every tube, not only the hardest to mix.")] = False,
) -> None:
    """Rank the tubes by how near mixes of the others come.

    Each tube is compared from full strength to pale wash with all recipes of up to three others.
    Tubes that are the same paint at another strength are left out.
    """
    from fewtubes.catalogue.reading import read_catalogue
    from fewtubes.command_line.asked import cache_asked
    from fewtubes.command_line.choices import chosen_optics, chosen_tubes
    from fewtubes.command_line.output import progress
    from fewtubes.command_line.patience import mixing_asked
    from fewtubes.command_line.put_out import in_folder, put_out
    from fewtubes.comparison.unmixable import mixed_tubes
    from fewtubes.report.tables.unmixable import unmixable_files
    from fewtubes.report.terminal.unmixable import print_unmixable

    deadline = mixing_asked(seconds)
    tables = read_catalogue(catalogue)
    left_out = chosen_tubes("--never", never, tables) if never else {}
    sold = {id_: tube for id_, tube in tables.tubes.items() if id_ not in left_out}
    with progress("preparing light and paper") as tell_stage:
        cache = cache_asked(no_cache=no_cache)
        optics = chosen_optics(tables, paper=paper, light=light, cache=cache)
        mixed = mixed_tubes(
            sold,
            optics,
            cache=cache,
            count_twins=count_twins,
            deadline=deadline,
            progress=tell_stage,
        )
    put_out(
        lambda console: print_unmixable(mixed, console, count_twins=count_twins, show_all=show_all),
        in_folder(out, lambda: unmixable_files(mixed)),
    )
