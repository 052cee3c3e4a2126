"""``fewtubes tubes``: what can be bought."""

from typing import Annotated

import typer

from fewtubes.command_line.options import (
    CatalogueOption,
    LightOption,
    NoCacheOption,
    PaperOption,
    SearchText,
)

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
    catalogue: CatalogueOption = None,
    paper: PaperOption = None,
    light: LightOption = None,
    no_cache: NoCacheOption = False,
) -> None:
    """List tubes with pigments, prices and traits."""
    from fewtubes.catalogue.reading import read_catalogue
    from fewtubes.command_line.choices import (
        chosen_hazards,
        chosen_light,
        chosen_lightfastness,
        chosen_paper,
        chosen_transparency,
    )
    from fewtubes.command_line.numbers import price_within
    from fewtubes.command_line.output import progress, report_console
    from fewtubes.comparison.tube_listing import TubeQuery, listed_tubes
    from fewtubes.coverage.cache import Cache, default_cache
    from fewtubes.coverage.optics import optics_for
    from fewtubes.report.terminal.tubes import print_tubes

    query = TubeQuery(
        text=text,
        transparency=chosen_transparency("--transparent", transparency),
        lightfastness=chosen_lightfastness("--lightfastness-at-least", lightfastness),
        without=chosen_hazards("--without-hazard", without or ()),
        pigment=pigment,
        most_price=price_within("--most-price", most_price),
    )
    tables = read_catalogue(catalogue)
    ground, seen_under = chosen_paper(paper, tables), chosen_light(light, tables)
    with progress("preparing light and paper"):
        cache = Cache() if no_cache else default_cache()
        optics = optics_for(tables, ground.id, seen_under.id, cache)
        listed = listed_tubes(tables, query, optics)
    print_tubes(listed, report_console(), of=len(tables.tubes))
