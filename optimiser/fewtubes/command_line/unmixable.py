"""``fewtubes unmixable``: which tubes must be bought because no mix replaces them."""

from pathlib import Path
from typing import Annotated

import typer

from fewtubes.command_line.options import (
    CatalogueOption,
    LightOption,
    NoCacheOption,
    PaperOption,
    SecondsForAll,
    named_path,
)

__all__ = ["unmixable"]


def unmixable(
    *,
    out: Annotated[
        Path | None,
        typer.Option(
            "--out",
            parser=named_path,
            metavar="FOLDER",
            help="Write unmixable.csv and unmixable-washes.csv there, both or none.",
        ),
    ] = None,
    count_twins: Annotated[
        bool,
        typer.Option(
            "--count-twins",
            help="Let a tube be mixed from the same paint at another strength, too.",
        ),
    ] = False,
    never: Annotated[
        list[str] | None,
        typer.Option("--never", metavar="ID", help="A tube to leave out; repeatable."),
    ] = None,
    catalogue: CatalogueOption = None,
    paper: PaperOption = None,
    light: LightOption = None,
    seconds: SecondsForAll = None,
    no_cache: NoCacheOption = False,
    show_all: Annotated[
        bool, typer.Option("--all", help="List every tube, not only the hardest to mix.")
    ] = False,
) -> None:
    """Rank the tubes by how near mixes of the others come.

    Each tube is compared from full strength to pale wash with all recipes of up to three others.
    Tubes that are the same paint at another strength are left out.
    """
    from fewtubes.catalogue.reading import read_catalogue
    from fewtubes.command_line.choices import (
        chosen_light,
        chosen_paper,
        chosen_tubes,
    )
    from fewtubes.command_line.output import progress, report_console
    from fewtubes.command_line.patience import mixing_asked
    from fewtubes.command_line.reporting import write_and_print
    from fewtubes.comparison.unmixable import mixed_tubes
    from fewtubes.coverage.cache import Cache, default_cache
    from fewtubes.coverage.optics import optics_for
    from fewtubes.report.answer_files import unmixable_files
    from fewtubes.report.terminal.unmixable import print_unmixable

    deadline = mixing_asked(seconds)
    tables = read_catalogue(catalogue)
    ground, seen_under = chosen_paper(paper, tables), chosen_light(light, tables)
    left_out = chosen_tubes("--never", never, tables) if never else {}
    sold = {id_: tube for id_, tube in tables.tubes.items() if id_ not in left_out}
    with progress("preparing light and paper") as tell_stage:
        cache = Cache() if no_cache else default_cache()
        optics = optics_for(tables, ground.id, seen_under.id, cache)
        mixed = mixed_tubes(
            sold,
            optics,
            cache=cache,
            count_twins=count_twins,
            deadline=deadline,
            progress=tell_stage,
        )
    write_and_print(
        out,
        lambda: unmixable_files(mixed),
        lambda: print_unmixable(
            mixed, report_console(), count_twins=count_twins, show_all=show_all
        ),
    )
