"""What the library finds wrong with a field is told of the option that gives it."""

from pathlib import Path

import pytest

from fewtubes.command_line.scenario_asked import OPTIONS, scenario_asked, told_of_options
from fewtubes.errors import Fault, InputError


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


def test_zero_is_a_value(scenario: Path, small: tuple[str, str]) -> None:
    with pytest.raises(InputError, match=r"^--most-tubes: is '?0'?; it must be from 1 to 1,000"):
        scenario_asked(scenario, Path(small[1]), most_tubes=0)
