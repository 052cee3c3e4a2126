"""Pictures planned: read, checked, replaced and written back as everything of a scenario is.

Limits are those of `fewtubes.scenario.picture_wish`.
"""

from pathlib import Path
from typing import Any

import pytest

from fewtubes import defaults
from fewtubes.catalogue.reading import read_catalogue
from fewtubes.catalogue.records import Catalogue, Role
from fewtubes.errors import InputError
from fewtubes.scenario.names import settled_names
from fewtubes.scenario.overrides import with_overrides
from fewtubes.scenario.own_flowers import OwnFlower, OwnSwatch
from fewtubes.scenario.picture_wish import PictureWish
from fewtubes.scenario.reading import read_scenario
from fewtubes.scenario.records import Scenario
from fewtubes.scenario.scenario_text import scenario_text
from fewtubes.scenario.wanted import FlowerWish, OwnColour

BEGINNING = """
title = "Cards"
currency = "EUR"
budget = 12
[[flower]]
name = "primrose"
AREA
[[colour]]
name = "sky"
hex = "#a0c0e0"
area_cm2 = 90
"""


@pytest.fixture(scope="module")
def demo() -> Catalogue:
    return read_catalogue()


def read(folder: Path, demo: Catalogue, area: str, rest: str) -> Scenario:
    path = folder / "cards.toml"
    path.write_text(BEGINNING.replace("AREA", area) + rest, encoding="utf-8")
    return read_scenario(path, demo)


def test_without_a_word_none_are_planned(demo: Catalogue, tmp_path: Path) -> None:
    scenario = read(tmp_path, demo, "", "")
    assert scenario.picture is None
    assert [flower.area_cm2 for flower in scenario.flowers] == [None]


def test_every_key_is_read(demo: Catalogue, tmp_path: Path) -> None:
    rest = "[picture]\npictures = 12\nwaste = 0.25\nleast_puddle_cm2 = 4\nflower_cm2 = 30.5\n"
    scenario = read(tmp_path, demo, "area_cm2 = 12.5", f"{rest}colour_cm2 = 7\n")
    assert scenario.picture == PictureWish(12, 0.25, 4, 30.5, 7)
    assert scenario.flowers == (FlowerWish("primrose", area_cm2=12.5),)
    assert scenario.own_colours[0].area_cm2 == 90


def test_an_empty_table_is_one_usual_picture(demo: Catalogue, tmp_path: Path) -> None:
    picture = read(tmp_path, demo, "", "[picture]\n").picture
    assert picture == PictureWish(1)
    assert picture is not None
    assert (picture.waste, picture.flower_cm2) == (defaults.WASTE, defaults.FLOWER_CM2)


@pytest.mark.parametrize(
    ("area", "rest", "where", "what"),
    [
        (
            "",
            "[picture]\npictures = 0",
            "picture, pictures",
            "it must be a whole number from 1",
        ),
        ("", "[picture]\npictures = 1.5", "picture, pictures", "whole number from 1 to 10,000"),
        ("", '[picture]\nwaste = "0,5"', "picture, waste", "without quotes: write 0.5"),
        ("", "[picture]\nwaste = -1", "picture, waste", "it must be from 0 to 10"),
        ("", "[picture]\nflower_cm2 = 0", "picture, flower_cm2", "above 0 and at most 100,000"),
        ("", "[picture]\nwast = 1", "picture, wast", "Did you mean 'waste'?"),
        ("", "[picture]\nbudget = 1", "picture, budget", "belongs at the top of the file"),
        ("", "[[picture]]\npictures = 2", "picture", "written as a table under [picture]"),
        ("area_cm2 = 0", "", "flower 1, area_cm2", "it must be above 0"),
        ("area_cm2 = true", "", "flower 1, area_cm2", "a number"),
    ],
)
def test_faults_are_told(
    demo: Catalogue, tmp_path: Path, *, area: str, rest: str, where: str, what: str
) -> None:
    with pytest.raises(InputError) as error:
        read(tmp_path, demo, area, rest)
    (fault,) = error.value.faults
    assert fault.where == f"cards.toml, {where}"
    assert what in fault.what


@pytest.mark.parametrize(
    ("values", "key"),
    [
        ({"pictures": 0}, "pictures"),
        ({"pictures": 2.5}, "pictures"),
        ({"waste": 11}, "waste"),
        ({"least_puddle_cm2": -1}, "least_puddle_cm2"),
        ({"flower_cm2": float("nan")}, "flower_cm2"),
        ({"colour_cm2": 0}, "colour_cm2"),
    ],
)
def test_a_picture_checks_itself(values: dict[str, Any], key: str) -> None:
    with pytest.raises(InputError) as error:
        PictureWish(**values)
    assert [fault.where for fault in error.value.faults] == [key]


@pytest.mark.parametrize(
    "make",
    [
        lambda area: FlowerWish("primrose", area_cm2=area),
        lambda area: OwnFlower("mine", (OwnSwatch("leaf", Role.LEAF, (40, 0, 0)),), area_cm2=area),
        lambda area: OwnColour("sky", lab=(70, 0, -20), area_cm2=area),
    ],
)
def test_areas_check_themselves(make: Any) -> None:
    assert make(12).area_cm2 == 12.0
    with pytest.raises(InputError) as error:
        make(-3)
    assert [fault.where for fault in error.value.faults] == ["area_cm2"]


def test_a_scenario_takes_no_other_thing_for_a_picture() -> None:
    with pytest.raises(InputError) as error:
        Scenario(budget=9, currency="EUR", flowers=["primrose"], picture={"pictures": 3})  # type: ignore[arg-type]
    assert [fault.where for fault in error.value.faults] == ["picture"]


def test_it_is_written_back(demo: Catalogue, tmp_path: Path) -> None:
    own = OwnFlower("mine", (OwnSwatch("leaf", Role.LEAF, (40, 0, 0)),), area_cm2=33.3)
    scenario = Scenario(
        budget=9,
        currency="EUR",
        flowers=[FlowerWish("primrose", 2, area_cm2=12.5), own],
        own_colours=[OwnColour.from_hex("sky", "#a0c0e0")],
        picture=PictureWish(pictures=7, waste=0.1),
    )
    text = scenario_text(scenario)
    assert text.endswith("[picture]\npictures = 7\nwaste = 0.1\n"), "what is as usual is left out"
    path = tmp_path / "again.toml"
    path.write_text(text, encoding="utf-8")
    again = read_scenario(path, demo)
    assert again.picture == scenario.picture
    assert [flower.area_cm2 for flower in again.flowers] == [12.5, 33.3]
    assert again.own_colours[0].area_cm2 is None


def test_options_replace_the_number_alone(demo: Catalogue) -> None:
    scenario = Scenario(
        budget=9, currency="EUR", flowers=["primrose"], picture=PictureWish(3, waste=0.2)
    )
    assert with_overrides(scenario, catalogue=demo).picture == scenario.picture
    assert with_overrides(scenario, catalogue=demo, paint_for=8).picture == PictureWish(8, 0.2)
    with pytest.raises(InputError) as error:
        with_overrides(scenario, catalogue=demo, paint_for=0)
    assert [fault.where for fault in error.value.faults] == ["paint_for"]


def test_names_are_settled_and_areas_stay(demo: Catalogue) -> None:
    flower = FlowerWish("Primrose", area_cm2=4)
    scenario = Scenario(budget=9, currency="EUR", flowers=[flower], picture=PictureWish())
    settled = settled_names(scenario, demo)
    assert settled.flowers == (FlowerWish("primrose", area_cm2=4),)
    assert settled.picture == PictureWish()
    kept = with_overrides(settled, catalogue=demo, flowers=["primrose", "crocus"])
    assert [one.area_cm2 for one in kept.flowers] == [4, None]
