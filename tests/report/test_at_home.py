"""How full a tube at home is, and that it runs low, is told in terminal, report and JSON."""

import json
from collections.abc import Callable
from dataclasses import replace
from typing import Any

import pytest

from fewtubes.report.json_values.plan import plan_json
from fewtubes.report.sentences.asked import wish_words
from fewtubes.report.sentences.at_home import at_home_words, low_words
from fewtubes.scenario.home_box import BoxAtHome
from fewtubes.scenario.records import Wishes
from fewtubes.shopping.plan import Plan
from fewtubes.shopping.plan_tables import shopping_list

Printed = Callable[..., str]

BOX = BoxAtHome({"blue": 0.1}, title="tin")


@pytest.fixture
def low(plan: Plan) -> Plan:
    """Return the plan with its owned tube nearly empty."""
    return with_left(plan, left=0.1, runs_low=True, again=325)


def with_left(plan: Plan, **changes: Any) -> Plan:
    *bought, blue = plan.tubes
    wishes = Wishes(box=BOX, millilitres=5)
    scenario = replace(plan.scenario, wishes=wishes)
    return replace(plan, scenario=scenario, tubes=(*bought, replace(blue, **changes)))


@pytest.mark.parametrize(
    ("changes", "words"),
    [
        ({}, ""),
        ({"left": 1.0}, "full"),
        ({"left": 0.5}, "half full"),
        (
            {"left": 0.1, "runs_low": True, "again": 325},
            "nearly empty: to be bought again soon, from EUR 3.25",
        ),
        (
            {"left": 0.5, "runs_low": True, "again": 325},
            "half full, maybe less than the 5 ml wished: to be bought again soon, from EUR 3.25",
        ),
        ({"left": 0.05, "runs_low": True}, "nearly empty, 5 % left, and not sold in EUR"),
    ],
)
def test_words(plan: Plan, changes: dict[str, Any], words: str) -> None:
    found = with_left(plan, **changes)
    assert at_home_words(found.tubes[-1], found) == words


def test_a_guessed_size_is_confessed_only_where_it_is_guessed(plan: Plan, low: Plan) -> None:
    guess = "A tube at home is taken for the smallest pack sold."
    assert low_words(plan) == ""
    assert guess not in low_words(low)
    assert guess in low_words(with_left(plan, left=0.5, runs_low=True, again=325))
    unsold = low_words(with_left(plan, left=0.0, runs_low=True))
    assert "blue, not sold in EUR." in unsold
    assert "must_have" in low_words(low)
    assert "must_have" not in unsold, "it cannot be bought"


def test_the_terminal_tells_it(low: Plan, printed: Printed) -> None:
    text = " ".join(printed(low).split())
    assert "nearly empty: to be bought again soon, from EUR 3.25" in text
    assert "Running low at home, to be bought again soon: blue, from EUR 3.25. How much" in text
    assert "in the box at home blue (nearly empty)" in text
    assert "total 19.00" in text, "what is to be bought again is in no total"


def test_json_and_list(plan: Plan, low: Plan) -> None:
    read = json.loads(plan_json(low))
    blue = read["tubes"][-1]
    assert (blue["owned"], blue["left"], blue["runs_low"], blue["again"]) == (
        True,
        0.1,
        True,
        "3.25",
    )
    assert read["scenario"]["wishes"]["owned"] == ["blue"]
    assert read["scenario"]["wishes"]["box"]["tubes"] == [{"id": "blue", "left": 0.1}]
    assert shopping_list(low).csv_text() == shopping_list(plan).csv_text()


@pytest.mark.parametrize(
    ("wishes", "words"),
    [
        (Wishes(owned=("red",), box=BoxAtHome({"ochre": "empty"})), "1 tube owned already"),
        (
            Wishes(owned=("red",), box=BoxAtHome({"lemon": 0.5, "ochre": 0})),
            "2 tubes owned already, in the box at home lemon (half full)",
        ),
        (
            Wishes(box=BoxAtHome({f"t{n}": 0.05 if n < 2 else 1 for n in range(7)})),
            "7 tubes owned already, 7 of them in the box at home (2 nearly empty)",
        ),
    ],
)
def test_the_question_is_echoed(wishes: Wishes, words: str) -> None:
    assert wish_words(wishes) == words
