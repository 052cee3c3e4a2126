"""``fewtubes compare``: how it asks, writes and tells, on the small catalogue."""

import json
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Any

import pytest

Run = Callable[..., Any]
FILES = {"front.csv", "sizes.csv", "near-best.csv", "compare.json"}


def test_it_prints_and_writes(
    run: Run, scenario: Path, small: Sequence[str], tmp_path: Path
) -> None:
    out = tmp_path / "out"
    told = run("compare", scenario, *small, "--tolerance", 12, "--out", out)
    assert told.code == 0, told.err
    assert "Palettes side by side: A window box" in told.out
    assert "Coverage against cost" in told.out
    assert {path.name for path in out.iterdir()} == FILES
    assert "Written to" in told.out


def test_options_reach_the_question(
    run: Run, scenario: Path, small: Sequence[str], tmp_path: Path
) -> None:
    out = tmp_path / "out"
    told = run(
        *("compare", scenario, *small, "--tolerance", 12, "--up-to", 1, "--budget", 20, "--near"),
        *(1, "--within", 1, "--flower", "primrose", "--never", "leaf-green", "--out", out, "--all"),
    )
    assert told.code == 0, told.err
    values = json.loads((out / "compare.json").read_text(encoding="utf-8"))
    assert values["sizes_looked_up_to"] == 1
    assert values["scenario"]["budget"] == "20.00"
    assert [flower["name"] for flower in values["scenario"]["flowers"]] == ["primrose"]
    bought = {id_ for front in values["fronts"] for step in front["steps"] for id_ in step["tubes"]}
    assert bought
    assert "leaf-green" not in bought


def test_every_option_out_of_bounds_is_told(run: Run, scenario: Path, small: Sequence[str]) -> None:
    told = run(
        *("compare", scenario, *small, "--up-to", 0, "--near", 0, "--within", 1.5),
        *("--near-size", -1, "--seconds", -1),
    )
    assert told.code == 2
    for option in ("--up-to", "--near", "--within", "--near-size", "--seconds"):
        assert f"{option}: is " in told.err
    assert told.out == ""


def test_must_haves_beyond_the_budget_are_told(
    run: Run, scenario: Path, small: Sequence[str]
) -> None:
    told = run("compare", scenario, *small, "--must-have", "lemon", "--budget", 1)
    assert told.code == 2
    assert "the must-have tubes and the budget of EUR 1.00 clash" in told.err


@pytest.mark.parametrize("wrong", [("--catalogue", "nowhere"), ("--paper", "wood")])
def test_faults_are_told_in_a_sentence(
    run: Run, scenario: Path, small: Sequence[str], wrong: tuple[str, str]
) -> None:
    told = run("compare", scenario, *small, *wrong)
    assert told.code == 2
    assert wrong[1] in told.err
