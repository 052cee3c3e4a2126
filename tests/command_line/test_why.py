"""``fewtubes why`` on the small catalogue: it asks, tells and writes."""

import csv
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Any

Run = Callable[..., Any]
FILES = {"why-tubes.csv", "out-of-reach.csv", "one-of-these.csv"}


def test_it_tells_why(run: Run, scenario: Path, small: Sequence[str]) -> None:
    told = run("why", scenario, *small, "--tolerance", 12)
    assert told.code == 0, told.err
    assert "Why these tubes: A window box" in told.out
    assert "proven best" in told.out
    assert "Written" not in told.out


def test_it_writes_all_tables(
    run: Run, scenario: Path, small: Sequence[str], tmp_path: Path
) -> None:
    out = tmp_path / "deep" / "out"
    told = run("why", scenario, *small, "--tolerance", 12, "--out", out)
    assert told.code == 0, told.err
    assert {path.name for path in out.iterdir()} == FILES
    with (out / "why-tubes.csv").open(encoding="utf-8", newline="") as stream:
        tubes = list(csv.DictReader(stream))
    assert tubes
    for row in tubes:
        assert row["not_on_sale_proven"] == "yes"
        assert 0 <= float(row["coverage_not_on_sale"].removesuffix("%")) <= 100


def test_options_reach_the_question(run: Run, scenario: Path, small: Sequence[str]) -> None:
    told = run("why", scenario, *small, "--must-have", "lemon", "--budget", 4)
    assert told.code == 0, told.err
    assert "You asked for it." in told.out
    assert "1 tube to buy for EUR 4.00" in told.out


def test_faults_are_told_in_a_sentence(run: Run, scenario: Path, small: Sequence[str]) -> None:
    told = run("why", scenario, *small, "--never", "lemmon", "--seconds", 5)
    assert told.code == 2
    assert "Did you mean 'lemon'?" in told.err
    assert "Traceback" not in told.err
    assert run("why", scenario, *small, "--seconds", 0).code == 2
    clash = run("why", scenario, *small, "--must-have", "deep-blue", "--budget", 1)
    assert clash.code == 2
    assert "clash" in clash.err


def test_a_report_is_not_lost_when_it_cannot_be_written(
    run: Run, scenario: Path, small: Sequence[str]
) -> None:
    told = run("why", scenario, *small, "--out", scenario)  # a file, not a folder
    assert told.code == 2
    assert "A window box" in told.out
    assert "Written" not in told.out
    assert "cannot be written" in told.err
