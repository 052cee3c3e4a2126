"""``fewtubes box`` on the small catalogue: it asks, tells and writes."""

from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Any

Run = Callable[..., Any]
FILES = {"box-doubles.csv", "box-tubes.csv", "box-additions.csv", "about-to-buy.csv"}


def test_it_looks_into_the_box(run: Run, scenario: Path, small: Sequence[str]) -> None:
    told = run("box", scenario, *small, "--owned", "lemon", "--about-to-buy", "leaf-green")
    assert told.code == 0, told.err
    assert "1 tube: Lemon." in told.out
    assert "Leaf green is not in the box; the nearest to it, Lemon, is off by" in told.out


def test_an_owned_tube_is_recognised(run: Run, scenario: Path, small: Sequence[str]) -> None:
    told = run("box", scenario, *small, "--owned", "lemon", "--about-to-buy", "lemon")
    assert "Lemon is in the box already." in told.out


def test_without_names_the_plan_is_taken_and_all_is_written(
    run: Run, scenario: Path, small: Sequence[str], tmp_path: Path
) -> None:
    out = tmp_path / "out"
    told = run("box", scenario, *small, "--tolerance", 12, "--out", out)
    assert told.code == 0, told.err
    assert "The box is empty" in told.out
    assert "These are the tubes of the plan for this scenario, proven best." in told.out
    assert {path.name for path in out.iterdir()} == FILES


def test_faults_are_told_in_a_sentence(run: Run, scenario: Path, small: Sequence[str]) -> None:
    told = run("box", scenario, *small, "--about-to-buy", "lemmon")
    assert told.code == 2
    assert "--about-to-buy: " in told.err
    assert "Did you mean 'lemon'?" in told.err
    assert "Traceback" not in told.err
