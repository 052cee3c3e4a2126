"""A scenario checks itself, in the words of its fields, whoever makes it."""

from dataclasses import replace
from decimal import Decimal
from fractions import Fraction
from typing import Any

import numpy as np
import pytest

from fewtubes.catalogue.records import Catalogue, Hazard, Lightfastness
from fewtubes.errors import InputError
from fewtubes.mixing.opacity import Transparency
from fewtubes.scenario.names import settled_names
from fewtubes.scenario.records import Scenario, Wishes
from fewtubes.scenario.wanted import FlowerWish, OwnColour

PLAIN: dict[str, Any] = {"budget": 20, "currency": "EUR", "flowers": ["primrose"]}


def faults_of(error: pytest.ExceptionInfo[InputError]) -> dict[str, str]:
    return {fault.where: fault.what for fault in error.value.faults}


@pytest.mark.parametrize(
    ("budget", "cents"),
    [
        (12, 1200),
        (np.int64(12), 1200),
        (np.float64(0.1), 10),
        (12.5, 1250),
        ("12.50", 1250),
        (Decimal("0.01"), 1),
        (35.1, 3510),
        (10**6, 10**8),
    ],
)
def test_the_budget_is_an_amount_in_the_currency(budget: Any, cents: int) -> None:
    scenario = Scenario(**PLAIN | {"budget": budget})
    assert scenario.budget_hundredths == cents  # by hand: a hundred to one
    assert isinstance(scenario.budget, Decimal)


@pytest.mark.parametrize(
    ("values", "key", "told"),
    [
        ({"budget": -1}, "budget", "it must be above 0"),
        ({"budget": 0}, "budget", "buys nothing"),
        ({"budget": 100_000_000}, "budget", "at most 1,000,000"),  # hundredths taken for euro
        ({"budget": "12,50"}, "budget", "no amount; decimals take a point: write 12.50"),
        ({"budget": "1.234,50"}, "budget", "no amount; decimals take a point: write 1234.50"),
        ({"budget": float("nan")}, "budget", "no amount"),
        ({"budget": 12.505}, "budget", "two decimals"),
        ({"tolerance": -1}, "tolerance", "is -1; it must be from 0.01 to 20."),
        ({"tolerance": 5e-324}, "tolerance", "is 5e-324; it must be from 0.01 to 20."),
        ({"tolerance": "4"}, "tolerance", "it must be a number from 0.01"),
        ({"most_tubes": 0}, "most_tubes", "is 0; it must be from 1 to 1,000."),
        ({"tolerance": 10**5000}, "tolerance", "a number of very many digits; it must be"),
        ({"tolerance": np.float64("nan")}, "tolerance", "is nan; it must be from 0.01"),
        ({"most_tubes": True}, "most_tubes", "is 'True'; it must be a whole number"),
        ({"most_tubes": 2.5}, "most_tubes", "is 2.5; it must be a whole number"),
        ({"flowers": []}, "flowers", "nothing to paint"),
        ({"flowers": [("primrose", 0)]}, "flowers", "importance of 'primrose' is 0; it must be"),
        ({"flowers": ["primrose", "Primrose"]}, "flowers", "cannot be told from 'primrose'"),
        ({"flowers": ["primrose", "primrose"]}, "flowers", "stands there twice"),
        ({"flowers": None}, "flowers", "give a list of names, such as ['foxglove']"),
        ({"flowers": [3]}, "flowers", "holds 3; each must be a name, or a name and its importance"),
        ({"flowers": [("primrose", 1, 2)]}, "flowers", "each must be a name"),
        ({"own_colours": ["blue"]}, "own_colours", "holds 'blue'; it must be OwnColour"),
        ({"wishes": {}}, "wishes", "holds {}; it must be Wishes"),
        ({"budget": Decimal("sNaN")}, "budget", "no amount"),
        ({"title": ""}, "title", "is blank"),
        ({"title": "a\x1b[31m"}, "title", "unprintable"),
        ({"currency": 5}, "currency", "it must be a text"),
        (
            {"own_colours": [OwnColour.from_hex("primrose", "#ffffaa")]},
            "own_colours",
            "a flower's name too",
        ),
    ],
)
def test_what_is_out_of_bounds_is_told_of_its_field(
    values: dict[str, Any], key: str, told: str
) -> None:
    with pytest.raises(InputError) as raised:
        Scenario(**PLAIN | values)
    faults = faults_of(raised)
    assert list(faults) == [key]
    assert told in faults[key]
    assert faults[key].endswith(".")
    assert "--" not in faults[key]  # no option: this is no command line


def test_all_faults_are_told_at_once() -> None:
    with pytest.raises(InputError) as raised:
        Scenario(budget=0, currency="", flowers=[("rose", -1)], tolerance=99, most_tubes=0)
    assert set(faults_of(raised)) == {"budget", "currency", "flowers", "most_tubes", "tolerance"}


@pytest.mark.parametrize(
    ("values", "key", "told"),
    [
        ({"millilitres": -5}, "millilitres", "it must be from 0 to 1,000"),
        ({"thinnest_wash": 1.5}, "thinnest_wash", "it must be from 0 to 1"),
        ({"most_in_mix": 4}, "most_in_mix", "it must be from 1 to 3"),
        ({"most_in_mix": 1.5}, "most_in_mix", "it must be a whole number"),
        ({"least_coverage": 90}, "least_coverage", "it must be from 0 to 1"),  # per cent
        ({"owned": "magenta"}, "owned", "is 'magenta'; give a list, such as [\"magenta\"]"),
        ({"owned": None}, "owned", "is None; give a list"),
        ({"never": [1]}, "never", "holds 1; it must be a text"),
        ({"lightfastness_floor": 2}, "lightfastness_floor", "one of I, II, III, IV, V"),
        ({"transparency_floor": "clear"}, "transparency_floor", "one of transparent, semi-"),
        ({"avoid_hazards": ["poison"]}, "avoid_hazards", "holds 'poison'; it must be one of"),
        ({"owned": ["a"], "never": ["a"]}, "never", "also in owned"),
        ({"owned": ["a"], "must_have": ["a"]}, "must_have", "need not be bought"),
    ],
)
def test_wishes_check_themselves(values: dict[str, Any], key: str, told: str) -> None:
    with pytest.raises(InputError) as raised:
        Wishes(**values)
    assert told in faults_of(raised)[key]


def test_words_will_do_for_grades_and_hazards() -> None:
    wishes = Wishes(
        lightfastness_floor="ii",  # type: ignore[arg-type]
        transparency_floor="semi-opaque",  # type: ignore[arg-type]
        avoid_hazards=["Lead"],  # type: ignore[arg-type]
    )
    assert wishes.lightfastness_floor is Lightfastness.II
    assert wishes.transparency_floor is Transparency.SEMI_OPAQUE
    assert wishes.avoid_hazards == (Hazard.LEAD,)


def test_a_mapping_gives_importances() -> None:
    assert Scenario(**PLAIN | {"flowers": {"primrose": 2}}).flowers == (FlowerWish("primrose", 2),)


def test_lists_are_kept_as_tuples_each_once() -> None:
    wishes = Wishes(owned=["b", "a", "b"], avoid_hazards=[Hazard.LEAD])  # type: ignore[arg-type]
    assert wishes.owned == ("b", "a")
    assert wishes.avoid_hazards == (Hazard.LEAD,)


@pytest.mark.parametrize(
    ("values", "key"),
    [
        ({}, "lab or reflectance"),
        ({"lab": (50, 0, 0), "reflectance": np.zeros(36)}, "lab or reflectance"),
        ({"lab": (101, 0, 0)}, "lab"),
        ({"lab": (50, 0)}, "lab"),
        ({"reflectance": np.zeros(31)}, "reflectance"),
        ({"reflectance": np.full(36, 1.2)}, "reflectance"),
        ({"reflectance": np.full(36, np.nan)}, "reflectance"),
    ],
)
def test_an_own_colour_is_one_colour(values: dict[str, Any], key: str) -> None:
    with pytest.raises(InputError) as raised:
        OwnColour("mine", **values)
    assert list(faults_of(raised)) == [key]


def test_a_screen_colour_is_written_with_six_digits() -> None:
    with pytest.raises(InputError, match="colour: is 'red'; it must be written as #rrggbb"):
        OwnColour.from_hex("mine", "red")


def test_names_pairs_and_wishes_say_the_same() -> None:
    made = [
        Scenario(**PLAIN | {"flowers": flowers}).flowers
        for flowers in (
            ["primrose", ("dahlia", 2)],
            (("primrose", 1), FlowerWish("dahlia", Fraction(2))),
        )
    ]
    assert made[0] == made[1]


def test_a_copy_with_other_values_is_checked_as_well() -> None:
    with pytest.raises(InputError, match="tolerance: is 21"):
        replace(Scenario(**PLAIN), tolerance=21)


def test_what_the_catalogue_lacks_is_told_of_its_field(catalogue: Catalogue) -> None:
    asked = Scenario(
        budget=5,
        currency="XAU",
        flowers=["primrosse"],
        wishes=Wishes(owned=("no-a",), must_have=("no-b",), never=("no-c",)),
        paper="papyrus",
        light="moon",
    )
    with pytest.raises(InputError) as raised:
        settled_names(asked, catalogue)
    faults = faults_of(raised)
    assert list(faults) == ["currency", "flowers", "owned", "must_have", "never", "paper", "light"]
    assert "Did you mean 'primrose'?" in faults["flowers"]
