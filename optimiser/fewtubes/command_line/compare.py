"""``fewtubes compare``: palettes side by side, and the whole trade-off of coverage and cost."""

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

__all__ = ["compare"]

DEFAULT_UP_TO = 8
"""Tubes; more make a palette that is no longer small."""

DEFAULT_NEAR = 20
"""Palettes listed; about a screenful."""

DEFAULT_WITHIN = 0.02
"""Coverage that a near-best palette may lose; seldom more than one colour."""


def compare(
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
            help="Write front.csv and compare.json there, all or none.",
        ),
    ] = None,
    up_to: Annotated[
        int,
        typer.Option("--up-to", parser=count("--up-to"), help="Largest number of tubes looked at."),
    ] = DEFAULT_UP_TO,
    near: Annotated[
        int,
        typer.Option("--near", parser=count("--near"), help="Near-best palettes listed at most."),
    ] = DEFAULT_NEAR,
    within: Annotated[
        float,
        typer.Option(
            "--within",
            parser=number("--within"),
            help="Coverage [0-1] that a near-best one may lose.",
        ),
    ] = DEFAULT_WITHIN,
    near_size: Annotated[
        int | None,
        typer.Option(
            "--near-size",
            parser=count("--near-size"),
            help="Their number of tubes; else the largest that gains.",
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
    flower: Annotated[
        list[str] | None,
        typer.Option(
            "--flower", metavar="NAME", help="Instead of the scenario's flowers; may be repeated."
        ),
    ] = None,
    owned: Annotated[
        list[str] | None, typer.Option("--owned", metavar="ID", help="A tube you have; repeatable.")
    ] = None,
    must_have: Annotated[
        list[str] | None,
        typer.Option("--must-have", metavar="ID", help="A tube to buy in any case; repeatable."),
    ] = None,
    never: Annotated[
        list[str] | None,
        typer.Option("--never", metavar="ID", help="A tube to leave out; repeatable."),
    ] = None,
    catalogue: CatalogueOption = None,
    paper: PaperOption = None,
    light: LightOption = None,
    seconds: SecondsOption = None,
    no_cache: NoCacheOption = False,
    show_all: Annotated[bool, typer.Option("--all", help="List every step of the front.")] = False,
) -> None:
    """Compare palettes: one tube more, near ties, and coverage against cost.

    For one tube, two, three … the best palette within the budget and what it gains; the palettes
    that come so near the best that taste can decide; every step of coverage against cost; and what
    asking for lasting or transparent tubes throughout would cost.
    """
    from fewtubes.catalogue.reading import read_catalogue
    from fewtubes.command_line.asked import scenario_asked
    from fewtubes.command_line.extent import extent_of
    from fewtubes.command_line.output import progress, report_console
    from fewtubes.command_line.reporting import write_and_print
    from fewtubes.comparison.compare import compare as compare_palettes
    from fewtubes.coverage.cache import Cache, default_cache
    from fewtubes.report.answer_files import compare_files
    from fewtubes.report.terminal.compare import print_comparison

    extent = extent_of(up_to=up_to, near=near, within=within, near_size=near_size, seconds=seconds)
    with progress("reading the catalogue") as tell_stage:
        tables = read_catalogue(catalogue)
        asked = scenario_asked(
            scenario,
            tables,
            budget=budget,
            most_tubes=most_tubes,
            tolerance=tolerance,
            flowers=flower,
            owned=owned,
            must_have=must_have,
            never=never,
            paper=paper,
            light=light,
        )
        cache = Cache() if no_cache else default_cache()
        found = compare_palettes(
            tables,
            asked,
            extent=extent,
            progress=tell_stage,
            cache=cache,
            whole=seconds is not None,
        )
    write_and_print(
        out,
        lambda: compare_files(found),
        lambda: print_comparison(found, report_console(), show_all=show_all),
    )
