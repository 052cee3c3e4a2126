"""What options change of a scenario, and that a fault is told of the option that brought it."""

from pathlib import Path
from typing import Any

import pytest

from fewtubes.catalogue.records import Hazard, Lightfastness
from fewtubes.command_line.asked import OPTIONS, scenario_asked, told_of_options
from fewtubes.errors import Fault, InputError
from fewtubes.mixing.opacity import Transparency

FIRST_SET = Path(__file__).parents[2] / "scenarios" / "first-set.toml"

FAULTY: dict[str, Any] = {
    "budget": 0,
    "most_tubes": -1,
    "tolerance": 21,
    "flowers": ["no such flower"],
    "owned": ["no-such-tube"],
    "must_have": ["no-such-tube"],
    "never": ["no-such-tube"],
    "paper": "no-such-paper",
    "light": "no-such-light",
    "prefer": "dearest",
    "lightfastness": "VI",
    "transparency": "opaque",  # every tube is that, so it would be no wish
    "millilitres": -1,
    "most_in_mix": 4,
    "painters": 12,  # no class is in the scenario
}


def test_what_is_not_given_stays() -> None:
    _, asked = scenario_asked(FIRST_SET, None, budget=None, owned=["ultramarine"])
    assert asked.budget_hundredths == 1200  # as the file has it
    assert asked.wishes.owned == ("ultramarine",)


@pytest.mark.parametrize("key", FAULTY)
def test_a_fault_is_told_of_its_option(key: str) -> None:
    with pytest.raises(InputError) as raised:
        scenario_asked(FIRST_SET, None, **{key: FAULTY[key]})
    assert {fault.where for fault in raised.value.faults} == {OPTIONS[key]}
    assert OPTIONS[key].startswith("--")


def test_a_hazard_that_is_none_is_told_of_its_option() -> None:
    with pytest.raises(InputError) as raised:
        scenario_asked(FIRST_SET, None, without_hazard=["cadmum"])
    assert [fault.where for fault in raised.value.faults] == ["--without-hazard"]


def test_wishes_are_put_in_the_place_of_the_scenarios_or_beside_them() -> None:
    class_kit = FIRST_SET.with_name("class-kit.toml")
    _, asked = scenario_asked(
        class_kit,
        None,
        lightfastness="ii",
        transparency="semi-transparent",
        millilitres=5,
        never=["Ultramarine Blue"],
    )
    wishes = asked.wishes
    assert wishes.lightfastness_floor is Lightfastness.II
    assert wishes.transparency_floor is Transparency.SEMI_TRANSPARENT
    assert wishes.millilitres == 5  # the file has 15
    assert wishes.avoid_hazards == tuple(Hazard)  # as the file has it
    assert wishes.never == ("ultramarine",)
    _, asked = scenario_asked(FIRST_SET, None, without_hazard=["cobalt", "Cadmium"])
    assert set(asked.wishes.avoid_hazards) == {Hazard.COBALT, Hazard.CADMIUM}
    _, asked = scenario_asked(FIRST_SET, None, without_hazard=["ANY"])
    assert asked.wishes.avoid_hazards == tuple(Hazard)


def test_fields_are_told_as_options_and_files_as_files() -> None:
    faults = [Fault(where, "is odd.") for where in ("most_tubes", "flowers", "box.toml, budget")]
    with pytest.raises(InputError) as told, told_of_options():
        raise InputError(faults)
    assert [fault.where for fault in told.value.faults] == [
        "--most-tubes",
        "--flower",
        "box.toml, budget",
    ]
    assert {fault.what for fault in told.value.faults} == {"is odd."}


def test_every_option_of_the_table_is_an_option() -> None:
    from typer.main import get_command

    from fewtubes.command_line.main import app

    known = {"COLOUR"} | {
        opt
        for command in get_command(app).commands.values()  # type: ignore[attr-defined]
        for option in command.params
        for opt in option.opts
    }
    assert set(OPTIONS.values()) <= known


def test_nothing_given_keeps_the_scenario(scenario: Path, small: tuple[str, str]) -> None:
    tables, plain = scenario_asked(scenario, Path(small[1]))
    assert plain.budget_hundredths == 1250
    assert [wish.name for wish in plain.flowers] == ["cornflower"]
    _, changed = scenario_asked(scenario, Path(small[1]), flowers=["primrose"], owned=None)
    assert [wish.name for wish in changed.flowers] == ["primrose"]
    assert changed.wishes.owned == ()
    assert "lemon" in tables.tubes
