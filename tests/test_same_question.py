"""One question is the same scenario in a file, by options, on the page and in Python."""

from fractions import Fraction
from pathlib import Path
from typing import Any

import numpy as np
import pytest

import fewtubes
from fewtubes.catalogue.exact import exact
from fewtubes.command_line.asked import scenario_asked
from fewtubes.page.at_home import HomeFile, home_values
from fewtubes.page.form import scenario_of

FILE = """\
title = "Roses"
currency = "EUR"
budget = 12.50
most_tubes = 3
tolerance = 3.5
paper = "ivory"
light = "D50"
prefer = "cheapest"
nearer = true
owned = ["lemon"]
box = "home/box.toml"
must_have = ["magenta"]
never = ["ultramarine"]
[[flower]]
name = "rose, red"
importance = 1
[[flower]]
name = "foxglove"
importance = 0.1
[[colour]]
name = "glaze"
hex = "#5f86a8"
importance = 2
[wishes]
lightfastness = "II"
transparency = "semi-opaque"
avoid_hazards = ["cadmium", "lead"]
millilitres = 5
thinnest_wash = 0.25
most_in_mix = 2
least_coverage = 0.1
"""

BOX = """\
title = "My tin"
[tubes]
yellow-ochre = "half"
warm-yellow = 0.05
ultramarine = "full"
magenta = "quarter"
titanium-white = "empty"
"""
"""Two of these are wished for or refused besides, which goes before; white is no longer there."""

SAID_BY_OPTIONS = (
    "most_tubes",
    "tolerance",
    "paper",
    "light",
    "prefer",
    "nearer",
    "most_in_mix",
    "owned",
    "box",
    "must_have",
    "never",
)

BARE = "".join(
    line
    for line in FILE.replace("12.50", "1").splitlines(keepends=True)
    if line.partition(" ")[0] not in SAID_BY_OPTIONS
)
"""The same with all left out that an option can say, and another budget."""


@pytest.fixture(scope="module")
def demo() -> fewtubes.Catalogue:
    return fewtubes.read_catalogue()


def box_file(folder: Path) -> Path:
    path = folder / "home" / "box.toml"
    path.parent.mkdir(exist_ok=True)
    path.write_text(BOX, encoding="utf-8")
    return path


def from_file(demo: fewtubes.Catalogue, folder: Path) -> fewtubes.Scenario:
    path = folder / "roses.toml"
    path.write_text(FILE, encoding="utf-8")
    box_file(folder)
    return fewtubes.read_scenario(path, demo)


def from_options(_demo: fewtubes.Catalogue, folder: Path) -> fewtubes.Scenario:
    path = folder / "bare.toml"
    path.write_text(BARE, encoding="utf-8")
    _, scenario = scenario_asked(
        path,
        None,
        budget=fewtubes.Scenario(budget="12.50", currency="EUR", flowers="foxglove").budget,
        most_tubes=3,
        tolerance=3.5,
        owned=["lemon"],
        box=box_file(folder),
        must_have=["magenta"],
        never=["ultramarine"],
        paper="ivory",
        light="D50",
        prefer="cheapest",
        nearer=True,
        most_in_mix=2,
    )
    return scenario


def from_form(demo: fewtubes.Catalogue, folder: Path) -> fewtubes.Scenario:
    box = HomeFile(box_file(folder), demo).box
    place = list(demo.flowers).index("foxglove")
    return scenario_of(
        {
            **home_values(box),
            "title": ["Roses"],
            "currency": ["EUR"],
            "budget": ["€ 12,50"],
            "most_tubes": ["3"],
            "tolerance": ["3,5"],
            "paper": ["ivory"],
            "light": ["D50"],
            "prefer": ["cheapest"],
            "nearer": ["yes"],
            "flower": ["rose, red", "foxglove"],
            f"importance-{place}": ["0,1"],
            "colour-name": ["glaze"],
            "colour-hex": ["#5f86a8"],
            "colour-importance": ["2"],
            "tube-lemon": ["owned"],
            "tube-magenta": ["must_have"],
            "tube-ultramarine": ["never"],
            "lightfastness": ["II"],
            "transparency": ["semi-opaque"],
            "avoid": ["cadmium", "lead"],
            "millilitres": ["5"],
            "thinnest_wash": ["0.25"],
            "most_in_mix": ["2"],
            "least_coverage": ["10"],
        },
        demo,
        box,
    )


def from_python(_demo: fewtubes.Catalogue, _folder: Path) -> fewtubes.Scenario:
    return fewtubes.Scenario(
        title="Roses",
        currency="EUR",
        budget=12.5,
        most_tubes=3,
        tolerance=3.5,
        flowers=["rose, red", ("foxglove", 0.1)],
        own_colours=[fewtubes.OwnColour.from_hex("glaze", "#5f86a8", 2)],
        wishes=fewtubes.Wishes(
            owned=("lemon",),
            box=fewtubes.BoxAtHome(
                {
                    "yellow-ochre": "half",
                    "warm-yellow": 0.05,
                    "ultramarine": 1,
                    "magenta": "quarter",
                    "titanium-white": "empty",
                },
                title="My tin",
            ),
            must_have=("magenta",),
            never=("ultramarine",),
            lightfastness_floor=fewtubes.Lightfastness.II,
            transparency_floor=fewtubes.Transparency.SEMI_OPAQUE,
            avoid_hazards=(fewtubes.Hazard.CADMIUM, fewtubes.Hazard.LEAD),
            millilitres=5,
            thinnest_wash=0.25,
            most_in_mix=2,
            least_coverage=0.1,
        ),
        paper="ivory",
        light="D50",
        prefer="cheapest",
        nearer=True,
    )


def plainly(scenario: fewtubes.Scenario) -> dict[str, Any]:
    """Return all that a scenario holds, in values that can be compared.

    The order of flowers is no part of a question; the page has that of the catalogue.
    """
    return vars(scenario) | {
        "flowers": {wish.name: exact(wish.importance) for wish in scenario.flowers},
        "own_colours": [
            (colour.name, exact(colour.importance), np.round(colour.lab or (), 9).tolist())
            for colour in scenario.own_colours
        ],
        "wishes": vars(scenario.wishes) | {"least_coverage": exact(scenario.wishes.least_coverage)},
    }


@pytest.mark.parametrize("shell", [from_options, from_form, from_python])
def test_every_shell_asks_the_same(demo: fewtubes.Catalogue, tmp_path: Path, shell: Any) -> None:
    asked = plainly(from_file(demo, tmp_path))
    assert len(asked["wishes"]["box"].tubes) == 5
    assert asked["flowers"]["foxglove"] == Fraction(1, 10)  # as written, not the nearest float
    assert plainly(shell(demo, tmp_path)) == asked
