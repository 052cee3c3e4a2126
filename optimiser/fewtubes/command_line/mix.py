"""``fewtubes mix``: the best recipes for one colour."""

from typing import Annotated

import typer

from fewtubes.command_line.options.question import (
    BoxOption,
    FlowersOption,
    LightfastnessOption,
    LightOption,
    MostInMixOption,
    PaperOption,
    tolerance_option,
)
from fewtubes.command_line.options.work import CatalogueOption, NoCacheOption, SecondsForAll
from fewtubes.command_line.typed import count_reader
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
            metavar="NAME",
            help="A tube at hand, by name or id; repeatable. Without any, and no box, all of the"
            " catalogue.",
        ),
    ] = None,
    box: BoxOption = None,
    flowers: FlowersOption = None,
    catalogue: CatalogueOption = None,
    paper: PaperOption = None,
    light: LightOption = None,
    lightfastness: LightfastnessOption = None,
    most_in_mix: MostInMixOption = None,
    seconds: SecondsForAll = None,
    no_cache: NoCacheOption = False,
    most: Annotated[
        int, typer.Option("--most", parser=count_reader("--most"), help="Recipes to show.")
    ] = RECIPES_SHOWN,
    tolerance: Annotated[float, tolerance_option()] = TOLERANCE,
) -> None:
    """Show the best mixes for one colour.

    Each is made of up to three tubes, or fewer if asked, and each of another set of tubes. Of
    tubes that hold the very same paint the first stands for all.
    """
    from fewtubes.command_line.asked import box_asked, cache_asked, told_of_options
    from fewtubes.command_line.at_hand import tubes_at_hand
    from fewtubes.command_line.choices import chosen_lightfastness
    from fewtubes.command_line.output import progress
    from fewtubes.command_line.patience import seconds_for_mixing
    from fewtubes.command_line.put_out import put_out
    from fewtubes.comparison.mixes import mix as best_mixes
    from fewtubes.mixing.recipes import MOST_IN_MIX
    from fewtubes.report.terminal.mixes import print_mixes

    patience = seconds_for_mixing(seconds)
    with progress("reading the catalogue") as tell_stage, told_of_options():
        tables, kept = box_asked(box, catalogue, flowers)
        mixes = best_mixes(
            tables,
            colour,
            tubes=tubes_at_hand(tube or (), kept),
            most=most,
            tolerance=tolerance,
            paper=paper,
            light=light,
            lightfastness=chosen_lightfastness("--lightfastness", lightfastness),
            most_in_mix=MOST_IN_MIX if most_in_mix is None else most_in_mix,
            seconds=patience,
            cache=cache_asked(no_cache=no_cache),
            progress=tell_stage,
        )
    put_out(lambda console: print_mixes(mixes, console))
