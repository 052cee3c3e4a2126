"""Flowers, tubes and mixes in a terminal that shows colours, and with names that mean harm."""

import io
from dataclasses import replace

import pytest
from rich.console import Console

from fewtubes.catalogue.records import Flower, Role, Swatch, Trait
from fewtubes.comparison.mixes import Mixes, RatedMatch
from fewtubes.comparison.searching import Searched
from fewtubes.comparison.tube_listing import ListedTube, strongest
from fewtubes.mixing.matching import Match
from fewtubes.mixing.opacity import Transparency
from fewtubes.mixing.recipes import Recipe
from fewtubes.report.terminal.flowers import print_flowers
from fewtubes.report.terminal.mixes import print_mixes
from fewtubes.report.terminal.tubes import print_tubes
from fewtubes.shopping.plan import Plan

HARM = "[bold]\x1b[2J"
SHOWN = "[bold]\\x1b[2J"


def terminal(*, colours: bool) -> Console:
    return Console(
        file=io.StringIO(),
        width=80,
        force_terminal=colours,
        color_system="truecolor" if colours else None,
        _environ={},
    )


def written(console: Console) -> str:
    assert isinstance(console.file, io.StringIO)
    return console.file.getvalue()


@pytest.mark.parametrize("colours", [True, False])
def test_flowers(colours: bool) -> None:
    console = terminal(colours=colours)
    flower = Flower(HARM, (Swatch(HARM, Role.PETAL, (50.0, 20.0, -10.0), 1.0),))
    print_flowers(Searched((flower,)), console, of=1)
    assert written(console).count(SHOWN) == 2
    assert written(console).count("██") == (1 if colours else 0)


@pytest.mark.parametrize("colours", [True, False])
def test_tubes(plan: Plan, colours: bool) -> None:
    console = terminal(colours=colours)
    tube = replace(plan.tubes[0].tube, name=HARM)
    listed = ListedTube(tube, 0.2, Transparency.SEMI_OPAQUE, (40.0, 50.0, 0.0), (70.0, 30.0, 0.0))
    print_tubes([listed], console, of=3)
    assert SHOWN in written(console)
    assert "1 of 3 tubes." in written(console)
    assert written(console).count("██") == (2 if colours else 0)


@pytest.mark.parametrize("colours", [True, False])
def test_mixes(plan: Plan, colours: bool) -> None:
    console = terminal(colours=colours)
    tube = replace(plan.tubes[0].tube, name=HARM)
    match = Match(Recipe((tube.id,), (1,), 0.5), (60.0, 40.0, 0.0), 5.0)
    mixes = Mixes(HARM, (60.0, 45.0, 0.0), {tube.id: tube}, 4.0, (RatedMatch(match, 7.0),))
    print_mixes(mixes, console)
    text = written(console)
    assert text.count(SHOWN) == 2
    assert "None is within ΔE00 4.0: these are the nearest, mixed from 1 tube." in text
    assert text.count("██") == (2 if colours else 0)


def test_the_strongest_trait_counts() -> None:
    assert strongest((Trait.SLIGHT, Trait.NO)) is Trait.SLIGHT
    assert strongest((Trait.SLIGHT, Trait.YES)) is Trait.YES
    assert strongest(()) is Trait.NO


def test_of_pigments_that_are_not_known_there_might_be_a_stronger_one() -> None:
    assert strongest((Trait.SLIGHT, None)) is None
    assert strongest((None,)) is None
    assert strongest((None, Trait.YES)) is Trait.YES
