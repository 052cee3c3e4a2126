"""``fewtubes shop``: from a scenario to the tubes to buy."""

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from fewtubes.command_line.options import (
    CatalogueOption,
    LightOption,
    NoCacheOption,
    PaperOption,
)

if TYPE_CHECKING:
    from fewtubes.errors import OutputError
    from fewtubes.shopping.plan import Plan

__all__ = ["shop"]

DEFAULT_SECONDS = 60.0
"""Patience before the search for a proof is given up [s]."""


def shop(
    *,
    scenario: Annotated[
        Path, typer.Argument(metavar="SCENARIO.toml", help="The flowers, the budget, the wishes.")
    ],
    out: Annotated[
        Path | None,
        typer.Option(
            "--out",
            metavar="FOLDER",
            help="Write shopping-list.csv, recipes.csv and plan.json there, all or none.",
        ),
    ] = None,
    budget: Annotated[
        float | None, typer.Option("--budget", help="Instead of the scenario's.")
    ] = None,
    most_tubes: Annotated[
        int | None, typer.Option("--most-tubes", help="Tubes to buy at most.")
    ] = None,
    tolerance: Annotated[
        float | None, typer.Option("--tolerance", help="ΔE00 up to which a colour is covered.")
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
    seconds: Annotated[
        float, typer.Option("--seconds", help="Time after which an unproven answer will do.")
    ] = DEFAULT_SECONDS,
    no_cache: NoCacheOption = False,
    show_all: Annotated[
        bool, typer.Option("--all", help="List the steps between swatches too.")
    ] = False,
) -> None:
    """Choose the tubes to buy, and say how to mix each petal.

    The choice covers as much as can be of a scenario's flowers within its budget. The report tells
    whether that is proven, what stays out of reach, and why.
    """
    from fewtubes.catalogue.reading import read_catalogue  # noqa: PLC0415
    from fewtubes.command_line.failures import after_writing  # noqa: PLC0415
    from fewtubes.command_line.numbers import seconds_within  # noqa: PLC0415
    from fewtubes.command_line.output import progress, report_console  # noqa: PLC0415
    from fewtubes.coverage.cache import Cache, default_cache  # noqa: PLC0415
    from fewtubes.report.text import print_plan  # noqa: PLC0415
    from fewtubes.scenario.overrides import with_overrides  # noqa: PLC0415
    from fewtubes.scenario.reading import read_scenario  # noqa: PLC0415
    from fewtubes.shopping.shop import Limits  # noqa: PLC0415
    from fewtubes.shopping.shop import shop as shop_for  # noqa: PLC0415

    limits = Limits(seconds=seconds_within("--seconds", seconds))
    with progress("reading the catalogue") as tell_stage:
        tables = read_catalogue(catalogue)
        question = with_overrides(
            read_scenario(scenario, tables),
            catalogue=tables,
            budget=budget,
            most_tubes=most_tubes,
            tolerance=tolerance,
            flowers=flower or (),
            owned=owned or (),
            must_have=must_have or (),
            never=never or (),
            paper=paper,
            light=light,
        )
        cache = Cache() if no_cache else default_cache()
        plan = shop_for(tables, question, limits=limits, progress=tell_stage, cache=cache)
    # Written first, so that nothing is lost if whoever reads the report goes away.
    unwritten = None if out is None else _write(plan, out)
    with after_writing(None if unwritten else out):
        print_plan(plan, report_console(), show_all=show_all)
        if out is not None and unwritten is None:
            typer.echo(f"\nWritten to '{out}': shopping-list.csv, recipes.csv, plan.json.")
    if unwritten is not None:
        raise unwritten


def _write(plan: "Plan", folder: Path) -> "OutputError | None":
    """Write the plan's files; return what kept them from being written, so that it is told last."""
    from fewtubes.errors import OutputError  # noqa: PLC0415
    from fewtubes.report.files import plan_files  # noqa: PLC0415
    from fewtubes.writing import write_all  # noqa: PLC0415

    try:
        write_all(folder, plan_files(plan))
    except OutputError as error:
        return error
    return None
