"""``fewtubes tubes``: what can be bought."""

from typing import Annotated

import typer

from fewtubes.command_line.options.question import BoxOption, LightOption, PaperOption
from fewtubes.command_line.options.work import CatalogueOption, NoCacheOption, SearchText

__all__ = ["tubes"]


def tubes(
    *,
    text: SearchText = "",
    transparency: Annotated[
        str | None,
        typer.Option(
            "--transparent",
            metavar="WORD",
            help="At least transparent, semi-transparent or semi-opaque.",
        ),
    ] = None,
    lightfastness: Annotated[
        str | None,
        typer.Option(
            "--lightfastness-at-least", metavar="I…V", help="ASTM D4303 category or better."
        ),
    ] = None,
    without: Annotated[
        list[str] | None,
        typer.Option(
            "--without-hazard",
            metavar="WORD",
            help="Such as cadmium; 'any' for all; may be repeated.",
        ),
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
    no_cache: NoCacheOption = False,
) -> None:
    """List tubes with pigments, prices and traits; with a box at home those in it alone."""
    from fewtubes.command_line.asked import box_asked, cache_asked, told_of_options
    from fewtubes.command_line.choices import (
        chosen_hazards,
        chosen_lightfastness,
        chosen_transparency,
    )
    from fewtubes.command_line.numbers import price_within
    from fewtubes.command_line.output import progress
    from fewtubes.command_line.put_out import put_out
    from fewtubes.comparison.tube_listing import TubeQuery, listed_tubes
    from fewtubes.coverage.optics import usual_optics
    from fewtubes.report.terminal.tubes import print_tubes

    query = TubeQuery(
        text=text,
        transparency=chosen_transparency("--transparent", transparency),
        lightfastness=chosen_lightfastness("--lightfastness-at-least", lightfastness),
        without=chosen_hazards("--without-hazard", without or ()),
        pigment=pigment,
        most_price=price_within("--most-price", most_price),
    )
    tables, kept = box_asked(box, catalogue)
    with progress("preparing light and paper"), told_of_options():
        cache = cache_asked(no_cache=no_cache)
        optics = usual_optics(tables, cache, paper=paper, light=light)
        listed = listed_tubes(tables, query, optics, box=kept)
    put_out(lambda console: print_tubes(listed, console, of=len(tables.tubes), box=kept))
