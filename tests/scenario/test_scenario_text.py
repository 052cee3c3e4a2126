"""A scenario written as text is read again as the very same scenario."""

import tomllib
from fractions import Fraction
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fewtubes.catalogue.files import HeldFile
from fewtubes.catalogue.reading import read_catalogue
from fewtubes.catalogue.records import Catalogue, Hazard, Lightfastness
from fewtubes.errors import InputError
from fewtubes.scenario.home_box import BoxAtHome
from fewtubes.scenario.own_flowers import OwnSwatch
from fewtubes.scenario.reading import read_scenario, scenario_files
from fewtubes.scenario.records import Scenario, Wishes
from fewtubes.scenario.scenario_text import decimal_text, scenario_contents, scenario_text
from fewtubes.scenario.sent_scenario import sent_scenario
from fewtubes.scenario.wanted import OwnColour

ROOT = Path(__file__).parents[2]
FILES = scenario_files(ROOT / "scenarios")


@pytest.fixture(scope="module")
def demo() -> Catalogue:
    return read_catalogue()


def parts(scenario: Scenario) -> dict[str, Any]:
    """Return every field of a scenario as something that can be compared."""
    values = dict(vars(scenario))
    values["own_colours"] = [
        (one.name, one.importance, one.lab, np.asarray(one.reflectance).tolist())
        for one in scenario.own_colours
    ]
    values["flowers"] = [
        (one.name, one.importance, [swatch_parts(it) for it in getattr(one, "swatches", ())])
        for one in scenario.flowers
    ]
    return values


def swatch_parts(swatch: OwnSwatch) -> tuple[Any, ...]:
    measured = np.asarray(swatch.reflectance).tolist()
    return swatch.name, swatch.role, swatch.importance, swatch.lab, measured


def again(scenario: Scenario, folder: Path, demo: Catalogue) -> Scenario:
    """Write a scenario with all its files, and read it."""
    for name, text in scenario_contents(scenario).items():
        (folder / name).write_text(text, encoding="utf-8")
    return read_scenario(folder / "scenario.toml", demo)


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.stem)
def test_every_demo_scenario_is_read_again(path: Path, demo: Catalogue, tmp_path: Path) -> None:
    scenario = read_scenario(path, demo)
    assert parts(again(scenario, tmp_path, demo)) == parts(scenario)


def test_what_no_demo_scenario_holds(demo: Catalogue, tmp_path: Path) -> None:
    scenario = Scenario(
        budget="7",
        currency="EUR",
        title='A "tin" of paint \\ 7 \u00e9',
        flowers=[("pansy", Fraction("0.1")), ("crocus", 2.5)],
        own_colours=[
            OwnColour("numbers", 3, lab=(51.123456789012345, -0.1, 1e-7)),
            OwnColour.from_hex("screen", "#5f86a8"),
        ],
        wishes=Wishes(
            owned=("lemon",),
            never=tuple(demo.tubes)[10:30],
            avoid_hazards=tuple(Hazard),
            millilitres=7.5,
            most_in_mix=1,
            least_coverage=Fraction(1, 8),
            lightfastness_floor=Lightfastness.II,
            box=BoxAtHome({"magenta": 0.3, "ultramarine": "empty"}),
        ),
        prefer="cheapest",
        nearer=True,
        light="A",
    )
    assert parts(again(scenario, tmp_path, demo)) == parts(scenario)
    assert 'avoid_hazards = ["any"]' in scenario_contents(scenario)["scenario.toml"]
    assert 'hex = "#5f86a8"' in scenario_contents(scenario)["scenario.toml"]


@settings(max_examples=60, deadline=None)
@given(
    title=st.text(min_size=1, max_size=20),
    importance=st.decimals("0.001", "1000", places=3),
    tolerance=st.floats(0.01, 20),
)
def test_texts_and_numbers_are_read_again(title: str, importance: Any, tolerance: float) -> None:
    try:
        scenario = Scenario(
            budget=3,
            currency="EUR",
            title=title,
            flowers=[("pansy", Fraction(importance))],
            tolerance=tolerance,
        )
    except InputError:
        return  # no title that a scenario may have
    values = tomllib.loads(scenario_text(scenario))
    assert values["title"] == scenario.title
    assert values.get("tolerance", 4.0) == tolerance
    (flower,) = values["flower"]
    assert Fraction(repr(flower.get("importance", 1))) == Fraction(importance)


@pytest.mark.parametrize(
    ("number", "text"),
    [
        (3, "3"),
        (0.1, "0.1"),
        (Fraction(1, 8), "0.125"),  # 1 / 2**3
        (Fraction(5, 2), "2.5"),
        (Fraction(1, 3), "0.3333333333333333"),  # the double nearest to a third
        (Fraction(1, 10**5000), f"0.{'0' * 4999}1"),
    ],
)
def test_numbers_in_decimals(number: Any, text: str) -> None:
    assert decimal_text(number) == text


def test_in_one_file_the_box_stands_under_owned(demo: Catalogue, tmp_path: Path) -> None:
    box = BoxAtHome({"magenta": 0.3, "lemon": "empty", "ultramarine": 1.0})
    wishes = Wishes(owned=("titanium-white",), never=("ultramarine",), box=box)
    scenario = Scenario(budget=3, currency="EUR", flowers=["pansy"], wishes=wishes)
    path = tmp_path / "one.toml"
    path.write_text(scenario_text(scenario), encoding="utf-8")
    read = read_scenario(path, demo)
    assert read.wishes.owned == ("titanium-white", "magenta")  # one refused is set aside anyway
    assert read.wishes.never == ("ultramarine",)


def test_a_measured_colour_takes_a_second_file(demo: Catalogue) -> None:
    scenario = read_scenario(ROOT / "scenarios" / "own-colours.toml", demo)
    with pytest.raises(InputError, match="was measured, which takes a file beside"):
        scenario_text(scenario)


def sent(text: str, demo: Catalogue) -> tuple[Scenario, frozenset[str]]:
    return sent_scenario(HeldFile("sent.toml", text.encode()), demo)


TOP = 'title = "Sent"\ncurrency = "EUR"\nbudget = 4\n'


def test_a_file_that_came_alone(demo: Catalogue) -> None:
    scenario, passed = sent(f'{TOP}box = "../box.toml"\n[[flower]]\nname = "pansy"\n', demo)
    assert passed == {"box"}
    assert scenario.wishes.box == BoxAtHome()
    assert not sent(f'{TOP}[[flower]]\nname = "pansy"\n', demo)[1]


@pytest.mark.parametrize(
    ("text", "told"),
    [
        (f'{TOP}[[colour]]\nname = "a"\nreflectance = "/etc/passwd"\n', "did not come along"),
        (f'{TOP}flowers = "/etc/passwd"\n[[flower]]\nname = "pansy"\n', "did not come along"),
        (
            f'{TOP}[[flower]]\nname = "a"\n[[flower.swatch]]\nname = "b"\nrole = "leaf"\n'
            'reflectance = "/etc/passwd"\n',
            "did not come along",
        ),
        (f'{TOP}[[flower]]\nname = "pansi"\n', "Did you mean 'pansy'"),
        ("title = ", "is not TOML"),
        ("", "nothing to paint"),
    ],
)
def test_faults_of_a_file_that_came_alone(text: str, told: str, demo: Catalogue) -> None:
    with pytest.raises(InputError, match=told) as caught:
        sent(text, demo)
    assert caught.value.faults[0].where.startswith("sent.toml")
