"""``--paint-for``: enough paint for so many pictures, in the commands that take it."""

import json
from pathlib import Path

import pytest
from typer.testing import CliRunner, Result

from fewtubes.command_line.main import app

SCENARIO = """
title = "Cards"
currency = "EUR"
budget = 12
[[flower]]
name = "primrose"
"""


def run(*words: str) -> Result:
    return CliRunner().invoke(app, words, env={"COLUMNS": "200"})


@pytest.fixture
def scenario(tmp_path: Path) -> Path:
    path = tmp_path / "cards.toml"
    path.write_text(SCENARIO, encoding="utf-8")
    return path


def test_shop_tells_and_writes_it(scenario: Path, tmp_path: Path) -> None:
    out = tmp_path / "plan"
    done = run("shop", str(scenario), "--paint-for", "30", "--out", str(out))
    assert done.exit_code == 0, done.output
    told = done.stdout
    assert "\nPaint\n" in told
    assert "shopping-list.csv, recipes.csv, puddles.csv, paint.csv, plan.json." in " ".join(
        told.split()
    )
    read = json.loads((out / "plan.json").read_text(encoding="utf-8"))
    assert read["paint"]["pictures"] == read["scenario"]["picture"]["pictures"] == 30
    assert (out / "paint.csv").read_text(encoding="utf-8").startswith("name,owned,ml_a_picture,")
    assert "paint.csv" in read["fellow_files_sha256"]


def test_a_number_that_is_none_is_told(scenario: Path) -> None:
    done = run("shop", str(scenario), "--paint-for", "0")
    assert done.exit_code == 2
    assert "--paint-for: is 0; it must be from 1 to 10,000" in done.stderr


def test_the_steadiest_recipes_are_refused(scenario: Path) -> None:
    done = run("shop", str(scenario), "--paint-for", "3", "--steadiest")
    assert done.exit_code == 2
    assert "--steadiest: the steadiest recipes cannot be chosen" in done.stderr


@pytest.mark.parametrize("command", ["why", "compare"])
def test_others_take_it(scenario: Path, command: str) -> None:
    more = ["--up-to", "2"] if command == "compare" else []
    done = run(command, str(scenario), "--paint-for", "4", *more)
    assert done.exit_code == 0, done.output
    assert "Paint is to be enough for 4 pictures." in " ".join(done.stdout.split())
