"""``fewtubes mix``: the best recipes for one colour."""

from typing import Annotated

import typer

from fewtubes.command_line.options import (
    CatalogueOption,
    LightOption,
    NoCacheOption,
    PaperOption,
    SecondsForAll,
)
from fewtubes.command_line.typed import count, number

__all__ = ["mix"]

DEFAULT_MOST = 5
DEFAULT_TOLERANCE = 4.0
"""ΔE00, as in a scenario that names none."""


def mix(
    *,
    colour: Annotated[
        str,
        typer.Argument(
            metavar="COLOUR", help="'#rrggbb', 'L,a,b' (CIELAB) or 'flower name / swatch name'."
        ),
    ],
    tube: Annotated[
        list[str] | None,
        typer.Option(
            "--tube",
            metavar="ID",
            help="A tube at hand; may be repeated. Without any, all of the catalogue.",
        ),
    ] = None,
    catalogue: CatalogueOption = None,
    paper: PaperOption = None,
    light: LightOption = None,
    seconds: SecondsForAll = None,
    no_cache: NoCacheOption = False,
    most: Annotated[
        int, typer.Option("--most", parser=count("--most"), help="Recipes to show.")
    ] = DEFAULT_MOST,
    tolerance: Annotated[
        float,
        typer.Option(
            "--tolerance",
            parser=number("--tolerance"),
            help="ΔE00 up to which a colour is covered.",
        ),
    ] = DEFAULT_TOLERANCE,
) -> None:
    """Show the best mixes for one colour.

    Each is made of up to three tubes, and each of another set of tubes. Of tubes that hold the
    very same paint the first stands for all.
    """
    from fewtubes.catalogue.reading import read_catalogue
    from fewtubes.command_line.choices import (
        chosen_light,
        chosen_paper,
        chosen_tubes,
    )
    from fewtubes.command_line.numbers import recipes_within, tolerance_within
    from fewtubes.command_line.output import progress, report_console
    from fewtubes.command_line.patience import mixing_asked
    from fewtubes.comparison.mixes import best_mixes
    from fewtubes.coverage.cache import Cache, default_cache
    from fewtubes.coverage.optics import optics_for
    from fewtubes.mixing.effort import mixing_stage
    from fewtubes.report.terminal.mixes import print_mixes
    from fewtubes.scenario.named_colour import lab_named

    recipes = recipes_within("--most", most)
    near = tolerance_within("--tolerance", tolerance)
    deadline = mixing_asked(seconds)
    tables = read_catalogue(catalogue)
    wanted = lab_named(colour, tables)
    tubes = chosen_tubes("--tube", tube or (), tables)
    ground, seen_under = chosen_paper(paper, tables), chosen_light(light, tables)
    with progress("preparing light and paper") as tell_stage:
        cache = Cache() if no_cache else default_cache()
        optics = optics_for(tables, ground.id, seen_under.id, cache)
        tell_stage(mixing_stage(len(tubes), "for one colour", deadline))
        mixes = best_mixes(
            colour, wanted, tubes, optics=optics, tolerance=near, most=recipes, deadline=deadline
        )
    print_mixes(mixes, report_console())
