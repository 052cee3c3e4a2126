"""What options change of a scenario, and that a fault is told of the option that brought it."""

from pathlib import Path
from typing import Any

import pytest

from fewtubes.catalogue.reading import read_catalogue
from fewtubes.command_line.asked import OPTIONS, scenario_asked
from fewtubes.errors import InputError

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
}


def test_what_is_not_given_stays() -> None:
    asked = scenario_asked(FIRST_SET, read_catalogue(), budget=None, owned=["ultramarine"])
    assert asked.budget_hundredths == 1200  # as the file has it
    assert asked.wishes.owned == ("ultramarine",)


@pytest.mark.parametrize("key", OPTIONS)
def test_a_fault_is_told_of_its_option(key: str) -> None:
    with pytest.raises(InputError) as raised:
        scenario_asked(FIRST_SET, read_catalogue(), **{key: FAULTY[key]})
    assert {fault.where for fault in raised.value.faults} == {OPTIONS[key]}
    assert OPTIONS[key].startswith("--")
