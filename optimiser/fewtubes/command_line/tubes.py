"""``fewtubes tubes``: what can be bought."""

from typing import Annotated

import typer

from fewtubes.command_line.options.output import FullOption
from fewtubes.command_line.options.question import (
    BoxOption,
    LightfastnessOption,
    LightOption,
    PaperOption,
    TransparencyOption,
    WithoutHazardOption,
)
from fewtubes.command_line.options.work import CatalogueOption, NoCacheOption, SearchText

__all__ = ["tubes"]


def tubes(
    *,
    text: SearchText = "",
    transparency: TransparencyOption = None,
    lightfastness: LightfastnessOption = None,
    without_hazard: WithoutHazardOption = None,
    transparent: Annotated[
        str | None, typer.Option("--transparent", hidden=True, help="The same as --transparency.")
    ] = None,
    at_least: Annotated[
        str | None,
        typer.Option("--lightfastness-at-least", hidden=True, help="The same as --lightfastness."),
    ] = None,
    pigment: Annotated[
        str, typer.Option("--pigment", metavar="CODE", help="Colour Index name, such as PB29.")
    ] = "",
    most_price: Annotated[
        str | None,
        typer.Option("--most-price", metavar="AMOUNT", help="For the cheapest pack, at most."),
    ] = None,
    box: BoxOption = None,
    catalogue: CatalogueOption = None,
    paper: PaperOption = None,
    light: LightOption = None,
    full: FullOption = False,
    no_cache: NoCacheOption = False,
) -> None:
    """List tubes with pigments, prices and traits.

    With a box at home those in it alone. Earlier names of two options, --transparent and
    --lightfastness-at-least, still do.
    """
    from fewtubes.command_line.asked import box_asked, cache_asked, told_of_options
    from fewtubes.command_line.choices import (
        chosen_hazards,
        chosen_lightfastness,
        chosen_transparency,
    )
    from fewtubes.command_line.numbers import price_within
    from fewtubes.command_line.output import progress
    from fewtubes.command_line.put_out import put_out
    from fewtubes.comparison.tube_listing import TubeQuery, listed_tubes, tubes_searched
    from fewtubes.coverage.optics import usual_optics
    from fewtubes.report.sentences.searched import tubes_search_words
    from fewtubes.report.terminal.tubes import print_tubes

    query = TubeQuery(
        text=text,
        transparency=chosen_transparency("--transparency", transparency or transparent),
        lightfastness=chosen_lightfastness("--lightfastness", lightfastness or at_least),
        without=chosen_hazards("--without-hazard", without_hazard or ()),
        pigment=pigment,
        most_price=price_within("--most-price", most_price),
    )
    tables, kept = box_asked(box, catalogue)
    with progress("preparing light and paper"), told_of_options():
        cache = cache_asked(no_cache=no_cache)
        optics = usual_optics(tables, cache, paper=paper, light=light)
        listed = listed_tubes(tables, query, optics, box=kept)
    said = tubes_search_words(tubes_searched(tables, text, box=kept), text, tables.tubes)
    put_out(
        lambda console: print_tubes(
            listed, console, of=len(tables.tubes), box=kept, said=said, full=full
        )
    )
