"""Flowers of the painter's own: as values, and whole in a scenario's file."""

from collections.abc import Callable, Mapping
from pathlib import Path
from typing import Any

import numpy as np
import pytest

from fewtubes.catalogue.reading import read_catalogue
from fewtubes.catalogue.records import Catalogue, Role
from fewtubes.errors import InputError
from fewtubes.scenario.names import settled_names
from fewtubes.scenario.overrides import with_overrides
from fewtubes.scenario.own_flowers import USUAL_IMPORTANCE, OwnFlower, OwnSwatch
from fewtubes.scenario.reading import faults_of_scenario, read_scenario
from fewtubes.scenario.records import Scenario
from fewtubes.scenario.wanted import FlowerWish, OwnColour

Change = Callable[[str, str], Path]

BELL = OwnSwatch("bell", Role.PETAL, lab=(50, 30, -40))

IRIS = """\
[[flower]]
name = "my iris"
importance = 0.1
[[flower.swatch]]
name = "light edge"
role = "petal light"
hex = "#ff0000"
[[flower.swatch]]
name = "fall"
role = "petal"
lab = [45, 30.5, -40]
importance = 2.5
[[flower.swatch]]
name = "leaf"
role = "leaf"
reflectance = "moss.csv"
[[flower]]
name = "primrose"
"""

PRIMROSE = '[[flower]]\nname = "primrose"\n'


def values(**changed: Any) -> Mapping[str, Any]:
    """Return what a scenario is made of."""
    return {"budget": 9, "currency": "EUR"} | changed


def told(make: Callable[[], object]) -> list[tuple[str, str]]:
    """Return the faults of what cannot be made."""
    with pytest.raises(InputError) as caught:
        make()
    return [(fault.where, fault.what) for fault in caught.value.faults]


def test_a_flower_is_read_whole_and_in_its_place(change: Change, catalogue: Catalogue) -> None:
    scenario = read_scenario(change(PRIMROSE, IRIS), catalogue)
    assert [flower.name for flower in scenario.flowers] == ["cornflower", "my iris", "primrose"]
    (iris,) = scenario.own_flowers
    assert iris is scenario.flowers[1]
    assert float(iris.importance) == 0.1
    edge, fall, leaf = iris.swatches
    assert (edge.name, edge.role, edge.importance) == ("light edge", Role.PETAL_LIGHT, 2)
    # CIELAB of sRGB red under D65, IEC 61966-2-1 and CIE 15: 53.24, 80.09, 67.20 in the usual
    # tables, from memory; how its white is rounded moves the last decimals.
    assert edge.lab == pytest.approx((53.24, 80.09, 67.20), abs=0.05)
    assert (fall.lab, fall.importance) == ((45.0, 30.5, -40.0), 2.5)
    assert leaf.lab is None
    assert leaf.reflectance is not None
    assert leaf.reflectance[0] == pytest.approx(0.38)  # the file's line is nm ÷ 1000
    assert leaf.importance == 1


@pytest.mark.parametrize(
    ("old", "new", "key", "what"),
    [
        ('role = "leaf"', 'role = "leav"', "swatch 3, role", "Did you mean 'leaf'"),
        ('role = "leaf"\n', "", "swatch 3, role", "missing; say which part it is: 'petal light'"),
        ('hex = "#ff0000"', 'hex = "red"', "swatch 1, hex", "must be written as #rrggbb"),
        ('hex = "#ff0000"\n', "", "swatch 1, hex or lab or reflectance", "0 of these are given"),
        (
            'hex = "#ff0000"',
            'hex = "#ff0000"\nlab = [1, 2, 3]',
            "swatch 1, hex or lab or reflectance",
            "2 of these are given; give the colour in exactly one of the three ways",
        ),
        ("30.5, -40]", "30.5]", "swatch 2, lab", "must be three numbers"),
        ('"moss.csv"', '"mos.csv"', "swatch 3, reflectance mos.csv", "there is no such file"),
        ('"fall"', '"Light  edge"', "swatch 2, name", "cannot be told from 'light edge'"),
        ('"fall"', '"light edge"', "swatch 2, name", "the swatch 'light edge' stands there twice"),
        ("= 2.5", "= 0", "swatch 2, importance", "must be above 0"),
        ("importance = 2.5", "weight = 2", "swatch 2, weight", "unknown key; allowed here: name"),
        ('"my iris"', '"CORNFLOWER"', "name", "there is a flower 'CORNFLOWER' already, as"),
        ('"my iris"', '"cornflower"', "name", "there is a flower 'cornflower' already; give"),
    ],
)
def test_a_spoilt_flower_is_told(
    change: Change, catalogue: Catalogue, *, old: str, new: str, key: str, what: str
) -> None:
    assert IRIS.count(old) == 1
    faults = faults_of_scenario(change(PRIMROSE, IRIS.replace(old, new)), catalogue)
    assert any(f.where == f"box.toml, flower 2, {key}" and what in f.what for f in faults), faults


def test_a_flower_without_a_colour_is_told(change: Change, catalogue: Catalogue) -> None:
    bare = '[[flower]]\nname = "my iris"\nswatch = []\n'
    (fault,) = faults_of_scenario(change(PRIMROSE, bare), catalogue)
    assert fault.where == "box.toml, flower 2, swatch"
    assert fault.what == "has no colours; give it one at least."
    single = '[[flower]]\nname = "my iris"\n[flower.swatch]\nname = "fall"\n'
    (fault,) = faults_of_scenario(change(PRIMROSE, single), catalogue)
    assert "[[flower.swatch]]" in fault.what or "[[swatch]]" in fault.what


def test_colours_are_limited(change: Change, catalogue: Catalogue) -> None:
    flower = '[[flower]]\nname = "mine {}"\n'
    swatch = '[[flower.swatch]]\nname = "{}"\nrole = "bud"\n'
    many = flower + "".join(f'{swatch.format(n)}hex = "#123456"\n' for n in range(101))
    (fault,) = faults_of_scenario(change(PRIMROSE, many), catalogue)
    assert fault.where == "box.toml, flower 2, swatch"
    assert "has 101 entries; at most 100 are allowed" in fault.what


def test_measured_colours_are_limited_in_all(change: Change, catalogue: Catalogue) -> None:
    swatch = '[[flower.swatch]]\nname = "leaf"\nrole = "leaf"\nreflectance = "nowhere.csv"\n'
    many = "".join(f'[[flower]]\nname = "mine {n}"\n{swatch}' for n in range(101))
    (fault,) = faults_of_scenario(change(PRIMROSE, many), catalogue)
    assert (fault.where, fault.what) == (
        "box.toml, flower",
        "has 101 measured colours; at most 100 are allowed, so give others as hex or lab.",
    )


def test_doubled_names_are_told_in_any_capitals(change: Change, catalogue: Catalogue) -> None:
    again = f'{IRIS}[[flower]]\nname = "My Iris"\n[[flower.swatch]]\nname = "a"\nrole = "bud"\n'
    faults = faults_of_scenario(change(PRIMROSE, f'{again}hex = "#123456"\n'), catalogue)
    assert [fault.where for fault in faults] == ["box.toml, flower 4, name"]
    assert "cannot be told from 'my iris'" in faults[0].what
    colour = f'{IRIS}[[colour]]\nname = "MY IRIS"\nhex = "#123456"\n'
    (fault,) = faults_of_scenario(change(PRIMROSE, colour), catalogue)
    assert "'MY IRIS' cannot be told from the flower 'my iris'" in fault.what


def test_what_counts_where_nothing_is_said_is_what_the_demo_mostly_has() -> None:
    counted: dict[Role, list[object]] = {}
    for flower in read_catalogue().flowers.values():
        for swatch in flower.swatches:
            counted.setdefault(swatch.role, []).append(swatch.importance)
    for role in Role:
        usual = max(set(counted[role]), key=counted[role].count)
        assert usual == USUAL_IMPORTANCE.get(role, 1), role
        assert OwnSwatch("a", role, lab=(50, 0, 0)).importance == usual


def test_faults_of_a_value_are_told_all_at_once() -> None:
    assert [where for where, _ in told(lambda: OwnSwatch(" ", "lef", importance=0))] == [  # type: ignore[arg-type]
        "name",
        "role",
        "lab or reflectance",
        "importance",
    ]
    assert told(lambda: OwnSwatch.from_hex("a", "petal", "red"))[0][0] == "colour"
    assert told(lambda: OwnFlower("a", ())) == [
        ("swatches", "has no colours; give it one at least.")
    ]
    assert told(lambda: OwnFlower("a", "bell"))[0][1] == "is 'bell'; give a list of OwnSwatch."  # type: ignore[arg-type]
    many = [OwnSwatch(f"{n}", Role.BUD, lab=(50, 0, 0)) for n in range(101)]
    assert told(lambda: OwnFlower("a", many))[0][1] == (  # type: ignore[arg-type]
        "has 101 colours; at most 100 are allowed, so leave some out."
    )
    twins = (BELL, OwnSwatch("BELL", Role.LEAF, lab=(1, 2, 3)))
    assert (
        "the swatch 'BELL' cannot be told from 'bell'" in told(lambda: OwnFlower("a", twins))[0][1]
    )


def test_a_word_will_do_for_a_role_and_numbers_are_kept_exactly() -> None:
    swatch = OwnSwatch("a", "Petal Light", lab=np.array([50, 1, 2]), importance=np.int64(3))  # type: ignore[arg-type]
    assert (swatch.role, swatch.lab, swatch.importance) == (Role.PETAL_LIGHT, (50.0, 1.0, 2.0), 3)


def test_a_scenario_takes_own_flowers_among_the_others() -> None:
    mine = OwnFlower("mine", [BELL], importance=2)  # type: ignore[arg-type]
    scenario = Scenario(**values(flowers=["cornflower", mine, ("primrose", 2)]))
    assert scenario.flowers[1] is mine
    assert scenario.own_flowers == (mine,)
    doubled = told(lambda: Scenario(**values(flowers=["Mine", mine])))
    assert doubled == [
        (
            "flowers",
            "'mine' cannot be told from 'Mine', since capitals, spaces and signs that do not show"
            " tell no names apart; rename one.",
        )
    ]
    colour = OwnColour("MINE", lab=(1, 2, 3))
    (fault,) = told(lambda: Scenario(**values(flowers=[mine], own_colours=[colour])))
    assert "'MINE' cannot be told from the flower 'mine'" in fault[1]


def test_a_name_of_the_catalogue_stands_for_its_colours_alone(catalogue: Catalogue) -> None:
    held = catalogue.flowers["cornflower"]
    small: dict[str, Any] = {"paper": "plain", "light": "E"}
    same = OwnFlower.of(held, 2)
    asked = Scenario(**values(flowers=[same], **small))
    assert settled_names(asked, catalogue).flowers == (same,)
    other = Scenario(**values(flowers=[OwnFlower("Cornflower", (BELL,))], **small))
    assert told(lambda: settled_names(other, catalogue)) == [
        (
            "flowers",
            "there is a flower 'Cornflower' already, as 'cornflower'; give the one with your own"
            " colours another name, or leave its colours out.",
        )
    ]


def test_own_flowers_can_be_chosen_by_name(catalogue: Catalogue) -> None:
    mine = OwnFlower("my bells", (BELL,), importance=3)
    scenario = Scenario(**values(flowers=["cornflower", mine]))
    changed = with_overrides(scenario, catalogue=catalogue, flowers=["My  Bells", "Primrose"])
    assert changed.flowers == (mine, FlowerWish("primrose"))
    ((where, what),) = told(
        lambda: with_overrides(scenario, catalogue=catalogue, flowers=["my bels"])
    )
    assert where == "flowers"
    assert "Did you mean 'my bells'?" in what
