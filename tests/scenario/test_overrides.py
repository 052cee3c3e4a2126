"""Values from the command line replace a scenario's own and obey the same rules."""

from collections.abc import Callable
from dataclasses import replace
from decimal import Decimal
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fewtubes.catalogue.reading import read_catalogue
from fewtubes.catalogue.records import Catalogue
from fewtubes.errors import InputError
from fewtubes.scenario.overrides import with_overrides
from fewtubes.scenario.reading import read_scenario
from fewtubes.scenario.records import Scenario
from fewtubes.scenario.wanted import FlowerWish

Change = Callable[[str, str], Path]

AS_COLOUR = '[[colour]]\nname = "primrose"'
"""An own colour in place of the scenario's second flower, under that flower's name."""

SMALL = Path(__file__).parents[1] / "catalogue" / "small_catalogue"


@pytest.fixture
def scenario(sound: Path, catalogue: Catalogue) -> Scenario:
    """Return the sound scenario."""
    return read_scenario(sound, catalogue)


def test_nothing_given_changes_nothing(scenario: Scenario, catalogue: Catalogue) -> None:
    assert vars(with_overrides(scenario, catalogue=catalogue)) == vars(scenario)


def test_given_values_replace_and_the_rest_stays(scenario: Scenario, catalogue: Catalogue) -> None:
    changed = with_overrides(
        scenario, catalogue=catalogue, budget=20.1, most_tubes=5, tolerance=2.0
    )
    assert (changed.budget_hundredths, changed.most_tubes, changed.tolerance) == (2010, 5, 2.0)
    assert (changed.title, changed.flowers, changed.wishes) == (
        scenario.title,
        scenario.flowers,
        scenario.wishes,
    )
    assert scenario.budget_hundredths == 1250  # the argument is left as it was


def test_flowers_replace_and_keep_known_importances(
    scenario: Scenario, catalogue: Catalogue
) -> None:
    changed = with_overrides(scenario, catalogue=catalogue, flowers=["cornflower"])
    assert changed.flowers == (FlowerWish("cornflower", 2.0),)
    assert changed.own_colours == scenario.own_colours


def test_tubes_are_added_to_the_lists(scenario: Scenario, catalogue: Catalogue) -> None:
    bare = replace(scenario, wishes=replace(scenario.wishes, owned=(), must_have=(), never=()))
    changed = with_overrides(
        bare, catalogue=catalogue, owned=["lemon", "lemon"], must_have=["deep-blue"], never=[]
    )
    assert changed.wishes == replace(
        scenario.wishes, owned=("lemon",), must_have=("deep-blue",), never=()
    )


@given(hundredths=st.integers(min_value=1, max_value=100_000_000))
def test_a_typed_budget_is_never_off_by_a_hundredth(hundredths: int) -> None:
    catalogue = read_catalogue(SMALL)
    bare = Scenario(
        title="x",
        shows="",
        currency="EUR",
        budget="0.01",
        most_tubes=None,
        tolerance=4.0,
        flowers=(FlowerWish("primrose"),),
        own_colours=(),
    )
    changed = with_overrides(bare, catalogue=catalogue, budget=hundredths / 100)
    assert changed.budget_hundredths == hundredths


@pytest.mark.parametrize(
    ("values", "told"),
    [
        ({"budget": 0}, "budget: the budget is 0, which buys nothing; give an amount above 0"),
        ({"budget": -1.5}, "budget: the budget is '-1.5'; it must be above 0 and at most"),
        ({"budget": 1.005}, "budget: the budget is '1.005'; it may have at most two decimals"),
        ({"budget": float("nan")}, "budget: the budget is not a number; give an amount such as"),
        ({"budget": float("inf")}, "budget: the budget is not a number; give an amount such as"),
        ({"budget": Decimal("NaN")}, "budget: the budget is 'NaN'; it must be above 0"),
        ({"most_tubes": 0}, "most_tubes: is 0; it must be from 1 to 1,000."),
        ({"tolerance": 0.0}, "tolerance: is 0; it must be from 0.01 to 20."),
        ({"paper": "plane"}, "paper: the paper 'plane' is not in the catalogue. Did you mean"),
        ({"light": "F2"}, "light: the light 'F2' is not in the catalogue. It holds E."),
        ({"prefer": "dear"}, "prefer: holds 'dear'; it must be one of lasting, cheapest."),
        ({"nearer": "yes"}, "nearer: is 'yes'; it must be True or False."),
        ({"flowers": ["prim"]}, "flowers: the flower 'prim' is not in the catalogue."),
        ({"flowers": ["primrose"] * 3}, "flowers: the flower 'primrose' is named twice; name"),
        ({"owned": ["lemmon"]}, "owned: the tube 'lemmon' is not in the catalogue. Did you mean"),
        ({"never": ["lemon"]}, "never: the tube 'lemon' is also in owned; take it out of one of"),
        ({"must_have": ["lemon"]}, "must_have: the tube 'lemon' is owned, so it need not be"),
    ],
)
def test_a_value_that_cannot_be_is_told_of_its_parameter(
    scenario: Scenario, catalogue: Catalogue, values: dict[str, Any], told: str
) -> None:
    with pytest.raises(InputError) as raised:
        with_overrides(scenario, catalogue=catalogue, **values)
    (fault,) = set(raised.value.faults)
    assert str(fault).startswith(told)


def test_a_flower_may_not_bear_the_name_of_an_own_colour(
    change: Change, catalogue: Catalogue
) -> None:
    path = change('[[flower]]\nname = "primrose"\n[[colour]]\nname = "my dahlia"', AS_COLOUR)
    with pytest.raises(InputError, match="flowers: 'primrose' is the name of one of the scenario"):
        with_overrides(read_scenario(path, catalogue), catalogue=catalogue, flowers=["primrose"])


def test_all_faults_are_told_at_once(scenario: Scenario, catalogue: Catalogue) -> None:
    with pytest.raises(InputError) as raised:
        with_overrides(scenario, catalogue=catalogue, budget=0, most_tubes=-1, flowers=["x"])
    assert [fault.where for fault in raised.value.faults] == [
        "budget",
        "most_tubes",
        "flowers",
    ]


def test_what_a_scenario_shows_is_said_of_its_own_values_only(
    scenario: Scenario, catalogue: Catalogue
) -> None:
    telling = replace(scenario, shows="What twelve euro buy.")
    changed = with_overrides(telling, catalogue=catalogue, budget=20.0)
    assert (changed.title, changed.shows) == (telling.title, "")
    same = with_overrides(telling, catalogue=catalogue, budget=12.5)
    assert same.shows == "What twelve euro buy."
