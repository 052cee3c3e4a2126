"""``fewtubes mix``: the best recipes for one colour."""

from typing import Annotated

import typer

from fewtubes.command_line.options.question import LightOption, PaperOption, tolerance_option
from fewtubes.command_line.options.work import CatalogueOption, NoCacheOption, SecondsForAll
from fewtubes.command_line.typed import count
from fewtubes.defaults import RECIPES_SHOWN, TOLERANCE

__all__ = ["mix"]


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
    ] = RECIPES_SHOWN,
    tolerance: Annotated[float, tolerance_option()] = TOLERANCE,
) -> None:
    """Show the best mixes for one colour.

    Each is made of up to three tubes, and each of another set of tubes. Of tubes that hold the
    very same paint the first stands for all.
    """
    from fewtubes.catalogue.reading import read_catalogue
    from fewtubes.command_line.asked import cache_asked
    from fewtubes.command_line.choices import chosen_optics, chosen_tubes
    from fewtubes.command_line.colour_argument import lab_of_argument
    from fewtubes.command_line.numbers import recipes_within, tolerance_within
    from fewtubes.command_line.output import progress
    from fewtubes.command_line.patience import mixing_asked
    from fewtubes.command_line.put_out import put_out
    from fewtubes.mixing.effort import mixing_stage
    from fewtubes.report.mixes import best_mixes
    from fewtubes.report.terminal.mixes import print_mixes

    recipes = recipes_within("--most", most)
    near = tolerance_within("--tolerance", tolerance)
    deadline = mixing_asked(seconds)
    tables = read_catalogue(catalogue)
    wanted = lab_of_argument(colour, tables)
    tubes = chosen_tubes("--tube", tube or (), tables)
    with progress("preparing light and paper") as tell_stage:
        cache = cache_asked(no_cache=no_cache)
        optics = chosen_optics(tables, paper=paper, light=light, cache=cache)
        tell_stage(mixing_stage(len(tubes), "for one colour", deadline))
        mixes = best_mixes(
            colour, wanted, tubes, optics=optics, tolerance=near, most=recipes, deadline=deadline
        )
    put_out(lambda console: print_mixes(mixes, console))
