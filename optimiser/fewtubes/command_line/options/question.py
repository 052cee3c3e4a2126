"""What is asked: the scenario, and what is put in the place of its values.

Every command that reads a scenario takes these in the same words. A command leaves out what would
change nothing that it tells: `box` is about tubes that one has, whatever is wished of others.
"""

from decimal import Decimal
from pathlib import Path
from typing import Annotated

import typer
from typer.models import OptionInfo

from fewtubes.command_line.typed import amount_reader, count_reader, number_reader

__all__ = [
    "BoxOption",
    "BudgetOption",
    "FlowerOption",
    "FlowersOption",
    "LightOption",
    "LightfastnessOption",
    "MillilitresOption",
    "MostInMixOption",
    "MostTubesOption",
    "MustHaveOption",
    "NearerOption",
    "NeverOption",
    "OwnedOption",
    "PaintForOption",
    "PaintersOption",
    "PaperOption",
    "PreferOption",
    "PricesOption",
    "ScenarioArgument",
    "ToleranceOption",
    "TransparencyOption",
    "WithoutHazardOption",
    "tolerance_option",
]


def tolerance_option() -> OptionInfo:
    """Return the option of a tolerance, which one command has with a default of its own."""
    option: OptionInfo = typer.Option(
        "--tolerance",
        parser=number_reader("--tolerance"),
        metavar="NUMBER",
        help="ΔE00 up to which a colour is covered.",
    )
    return option


ScenarioArgument = Annotated[
    Path, typer.Argument(metavar="SCENARIO.toml", help="The flowers, the budget, the wishes.")
]
BoxOption = Annotated[
    Path | None,
    typer.Option("--box", metavar="BOX.toml", help="The box at home: tubes you have, how full."),
]
BudgetOption = Annotated[
    Decimal | None,
    typer.Option(
        "--budget",
        parser=amount_reader("--budget"),
        metavar="AMOUNT",
        help="Money to spend at most, instead of the scenario's.",
    ),
]
MostTubesOption = Annotated[
    int | None,
    typer.Option(
        "--most-tubes",
        parser=count_reader("--most-tubes"),
        metavar="NUMBER",
        help="Tubes to buy at most.",
    ),
]
PricesOption = Annotated[
    Path | None,
    typer.Option(
        "--prices",
        metavar="FOLDER",
        help="Price list to buy by: offers.csv, and sellers and sets if wanted.",
    ),
]
ToleranceOption = Annotated[float | None, tolerance_option()]
FlowerOption = Annotated[
    list[str] | None,
    typer.Option(
        "--flower", metavar="NAME", help="A flower, instead of the scenario's; repeatable."
    ),
]
FlowersOption = Annotated[
    Path | None,
    typer.Option(
        "--flowers",
        metavar="FILE.csv",
        help="Flowers of your own, to be named like the catalogue's.",
    ),
]
OwnedOption = Annotated[
    list[str] | None,
    typer.Option("--owned", metavar="NAME", help="A tube you have, by name or id; repeatable."),
]
MustHaveOption = Annotated[
    list[str] | None,
    typer.Option("--must-have", metavar="NAME", help="A tube to buy in any case; repeatable."),
]
NeverOption = Annotated[
    list[str] | None,
    typer.Option("--never", metavar="NAME", help="A tube to leave out; repeatable."),
]
LightfastnessOption = Annotated[
    str | None,
    typer.Option(
        "--lightfastness", metavar="I…V", help="Only tubes of this ASTM D4303 category or better."
    ),
]
TransparencyOption = Annotated[
    str | None,
    typer.Option(
        "--transparency",
        metavar="WORD",
        help="Only tubes at least transparent, semi-transparent or semi-opaque.",
    ),
]
WithoutHazardOption = Annotated[
    list[str] | None,
    typer.Option(
        "--without-hazard",
        metavar="WORD",
        help="Only tubes without it, such as cadmium; 'any' for all; repeatable.",
    ),
]
MillilitresOption = Annotated[
    float | None,
    typer.Option(
        "--millilitres",
        parser=number_reader("--millilitres"),
        metavar="NUMBER",
        help="Paint that every tube bought must hold at least [ml].",
    ),
]
MostInMixOption = Annotated[
    int | None,
    typer.Option(
        "--most-in-mix",
        parser=count_reader("--most-in-mix"),
        metavar="NUMBER",
        help="Tubes in a mix at most, 1 to 3.",
    ),
]
PaintersOption = Annotated[
    int | None,
    typer.Option(
        "--painters",
        parser=count_reader("--painters"),
        metavar="NUMBER",
        help="Painters of the scenario's class, instead of its own.",
    ),
]
PaintForOption = Annotated[
    int | None,
    typer.Option(
        "--paint-for",
        parser=count_reader("--paint-for"),
        metavar="NUMBER",
        help="Pictures for which paint is to be enough, each with all that is to be painted.",
    ),
]
PaperOption = Annotated[
    str | None, typer.Option("--paper", metavar="ID", help="Paper of the catalogue.")
]
LightOption = Annotated[
    str | None, typer.Option("--light", metavar="ID", help="Light of the catalogue.")
]
PreferOption = Annotated[
    str | None,
    typer.Option(
        "--prefer",
        metavar="WORD",
        help="Of choices that cover as much with as few tubes: lasting, or cheapest.",
    ),
]
NearerOption = Annotated[
    bool | None,
    typer.Option(
        "--nearer/--not-nearer",
        help="Of equal choices the one that comes nearest to what stays out of reach, not the"
        " cheapest.",
    ),
]
