"""The README names every option, key, scenario and number as the program has them."""

import re
import tomllib
from pathlib import Path

import pytest
import typer.main

from fewtubes.catalogue.reading import read_catalogue
from fewtubes.catalogue.records import Role
from fewtubes.command_line.main import app
from fewtubes.scenario.class_wish import ClassWish, Pupils, TubesFor
from fewtubes.scenario.flower_file import with_flowers
from fewtubes.scenario.keys import (
    CLASS_KEYS,
    COLOUR_KEYS,
    FLOWER_KEYS,
    PICTURE_KEYS,
    SWATCH_KEYS,
    TOP_KEYS,
    WISH_KEYS,
)
from fewtubes.scenario.picture_wish import PictureWish

ROOT = Path(__file__).parents[2]


@pytest.fixture(scope="module")
def readme() -> str:
    return (ROOT / "README.md").read_text(encoding="utf-8")


@pytest.fixture(scope="module")
def scenarios_readme() -> str:
    return (ROOT / "scenarios" / "README.md").read_text(encoding="utf-8")


def rows_below(readme: str, header: str) -> list[list[str]]:
    """Return the cells of the one table with a header line."""
    (body,) = re.findall(rf"^{re.escape(header)}\n\|[-|]+\|\n((?:\|.*\n)+)", readme, re.M)
    return [[cell.strip() for cell in line.strip("|").split(" | ")] for line in body.splitlines()]


def test_help_tells_every_option_in_words() -> None:
    """The README leaves the options to ``--help``, so none may stand there without a word."""
    group = typer.main.get_command(app)
    for name, command in group.commands.items():  # type: ignore[attr-defined]
        for parameter in command.params:
            if parameter.param_type_name == "option" and "--help" not in parameter.opts:
                assert parameter.help, f"{name} {parameter.opts}"


def test_every_command_is_shown(readme: str) -> None:
    group = typer.main.get_command(app)
    for name in group.commands:  # type: ignore[attr-defined]
        assert re.search(rf"\.venv/bin/fewtubes {name}\b", readme)


def test_key_table_is_that_of_the_reader(scenarios_readme: str) -> None:
    rows = rows_below(scenarios_readme, "| key | needed | meaning |")
    told = {key for key, *_ in rows for key in re.findall(r"[a-z_]+", key)}
    assert told == set(TOP_KEYS)
    meaning = {re.sub(r"\W", "", row[0]): row[-1] for row in rows}
    tables = {
        "flower": FLOWER_KEYS,
        "colour": COLOUR_KEYS,
        "wishes": WISH_KEYS,
        "picture": PICTURE_KEYS,
        "class": CLASS_KEYS,
    }
    for table, keys in tables.items():
        assert all(f"`{key}`" in meaning[table] for key in keys)


def test_picture_table_is_that_of_the_reader(scenarios_readme: str) -> None:
    rows = rows_below(scenarios_readme, "| key of `[picture]` | if not said | meaning |")
    assert [row[0].strip("`") for row in rows] == [*PICTURE_KEYS]
    usual = PictureWish()
    assert {row[0].strip("`"): float(row[1]) for row in rows} == {
        key: float(getattr(usual, key)) for key in PICTURE_KEYS
    }


def test_class_table_is_that_of_the_reader(scenarios_readme: str) -> None:
    rows = rows_below(scenarios_readme, "| key of `[class]` | if not said | meaning |")
    told = {row[0].strip("`"): row for row in rows}
    assert sorted(told) == sorted(CLASS_KEYS)
    usual = ClassWish(2)
    assert told["pupils"][1] == f'`"{usual.pupils.value}"`'
    assert told["tubes"][1] == f'`"{usual.tubes.value}"`'
    assert (told["pictures"][1], usual.pictures) == ("–", None)
    assert float(told["pan_millilitres"][1]) == usual.pan
    for key, kind in (("pupils", Pupils), ("tubes", TubesFor)):
        assert all(f'`"{one.value}"`' in told[key][2] for one in kind)
    assert "2 to 500" in told["painters"][2]


def test_swatch_table_is_that_of_the_reader(scenarios_readme: str) -> None:
    rows = rows_below(scenarios_readme, "| key of a swatch | needed | meaning |")
    assert {key for key, *_ in rows for key in re.findall(r"[a-z]+", key)} == set(SWATCH_KEYS)
    (role,) = [row[-1] for row in rows if row[0] == "`role`"]
    assert set(re.findall(r'`"([a-z ]+)"`', role)) == {part.value for part in Role}


def test_the_table_of_flowers_that_is_shown_can_be_read(
    scenarios_readme: str, tmp_path: Path
) -> None:
    (rows,) = re.findall(r"```text\n(flower,.*?)```", scenarios_readme, re.S)
    path = tmp_path / "my-flowers.csv"
    path.write_text(rows, encoding="utf-8")
    assert len(with_flowers(read_catalogue(), path).flowers["my poppy"].swatches) == 3


def test_scenario_table_is_that_of_the_folder(readme: str, scenarios_readme: str) -> None:
    told = [row[0].strip("`") for row in rows_below(scenarios_readme, "| file | shows |")]
    assert sorted(told) == sorted(path.name for path in (ROOT / "scenarios").glob("*.toml"))
    assert len(told) == 14
    assert "Fourteen are in `scenarios/`" in readme


def test_catalogue_numbers_are_those_of_the_catalogue(readme: str) -> None:
    demo = read_catalogue()
    words = " ".join(readme.split())
    assert f"{len(demo.tubes)} invented tubes and {len(demo.flowers)} invented flowers" in words


def test_setup_commands_are_one_line_each_and_fit_the_project(readme: str) -> None:
    commands = re.findall(r"^python3 -m venv .*$", readme, re.M)
    assert len(commands) == 2
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    assert "[test]" in commands[1]
    assert any(need.startswith("pytest") for need in project["optional-dependencies"]["test"])
    assert project["requires-python"] == ">=3.11"
    assert "Python 3.11 or later" in readme


def test_the_order_is_job_commands_answer_reading_limits_cautions_sources(readme: str) -> None:
    assert readme.startswith("# fewtubes\n\nYou want to paint")
    headings = re.findall(r"^## (.*)$", readme, re.M)
    order = ["Two commands", "What it answers", "How to read it", "Limits", "Cautions", "Sources"]
    assert [heading for heading in headings if heading in order] == order
