"""``fewtubes shop`` for a class: painters by option, and a hand-out beside the other files."""

import json
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Any

import pytest

Run = Callable[..., Any]

CLASS = '[class]\npainters = 2\ntubes = "one each"\npupils = "grown-ups"\n'


@pytest.fixture
def class_scenario(scenario: Path) -> Path:
    """Return the small scenario, with a class."""
    path = scenario.with_name("class.toml")
    path.write_text(f"{scenario.read_text(encoding='utf-8')}\n{CLASS}", encoding="utf-8")
    return path


def flat(text: str) -> str:
    return " ".join(text.split())


def test_the_hand_out_is_written_with_the_tables_and_named_in_the_plan(
    run: Run, class_scenario: Path, small: Sequence[str], tmp_path: Path
) -> None:
    page, out = tmp_path / "h" / "hand-out.html", tmp_path / "out"
    told = run("shop", class_scenario, *small, "--handout", page, "--out", out)
    assert told.code == 0, told.err
    assert f"Written: '{page}', the hand-out, to print once for each painter." in told.out
    assert "for-the-class.csv" in told.out
    assert page.read_text(encoding="utf-8").startswith("<!DOCTYPE html>")
    plan = json.loads((out / "plan.json").read_text(encoding="utf-8"))
    assert "../h/hand-out.html" in plan["fellow_files_sha256"]
    assert plan["class"]["painters"] == 2


def test_painters_are_changed_by_an_option(
    run: Run, class_scenario: Path, small: Sequence[str]
) -> None:
    told = run("shop", class_scenario, *small, "--painters", 3, "--budget", 90)
    assert told.code == 0, told.err
    assert "For a class of 3 grown-ups: a tube of each paint for everybody." in flat(told.out)
    assert "a head" in told.out


def test_painters_of_a_scenario_of_no_class_are_told(
    run: Run, scenario: Path, small: Sequence[str], fake_shop: Any
) -> None:
    told = run("shop", scenario, *small, "--painters", 3)
    assert told.code == 2
    assert told.err.startswith("--painters: the scenario has no class; write one under [class]")
    assert not fake_shop.questions


@pytest.mark.parametrize(
    ("name", "said"),
    [
        ("c.pdf", "has the ending .pdf; the hand-out is a page, so its name must end in .html or"),
        ("page.html", "is where the chart is to go; give the hand-out a name of its own."),
    ],
)
def test_a_hand_out_that_cannot_be_is_refused_before_anything_is_computed(
    run: Run,
    class_scenario: Path,
    small: Sequence[str],
    tmp_path: Path,
    fake_shop: Any,
    *,
    name: str,
    said: str,
) -> None:
    chart = tmp_path / "page.html"
    told = run("shop", class_scenario, *small, "--chart", chart, "--handout", tmp_path / name)
    assert told.code == 2
    assert told.err.startswith(f"--handout: '{tmp_path / name}' {said}")
    assert not fake_shop.questions
