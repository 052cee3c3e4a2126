"""Flowers of one's own in a table that the page was started with, as other commands take it."""

from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest
from tests.page.painter import Opens
from tests.page.test_scenario_files import send, sendable
from typer.testing import CliRunner

from fewtubes.catalogue.records import Catalogue
from fewtubes.command_line.main import app
from fewtubes.coverage.cache import Cache
from fewtubes.page.settings import Settings
from fewtubes.report.plan_files import plan_files
from fewtubes.scenario.flower_file import with_flowers
from fewtubes.scenario.own_flowers import OwnFlower
from fewtubes.scenario.reading import read_scenario
from fewtubes.scenario.wanted import FlowerWish
from fewtubes.shopping.shop import shop

pytestmark = pytest.mark.usefixtures("_answers_alone")

TABLE = """\
flower,swatch,role,hex,importance
my iris,fall,petal,#8a63b8,3
my iris,beard,centre,#e0a52c,1
<i>my fern</i>,frond,leaf,#5a8a4a,1
"""
"""Of our own invention; the second name must not become markup."""


@pytest.fixture
def table(tmp_path: Path) -> Path:
    path = tmp_path / "my flowers.csv"
    path.write_text(TABLE, encoding="utf-8")
    return path


def test_they_are_ticked_and_answered_like_those_of_the_catalogue(
    opens: Opens, demo: Catalogue, settings: Settings, filled: dict[str, Any], table: Path
) -> None:
    browser = opens(flowers=table).browser
    tab = str(browser.get("/").url.path)
    asked = browser.get(tab).text
    assert "2 flowers of your own, from my flowers.csv, stand at the end." in asked
    assert asked.count('name="flower" value=') == len(demo.flowers) + 2
    assert "<i>my fern" not in asked
    form = {**filled, "flower": ["my iris"], f"importance-{len(demo.flowers)}": "2"}
    browser.post(f"{tab}ask", data=form)
    catalogue = with_flowers(demo, table)
    scenario = read_scenario_of(browser.post(f"{tab}scenario", data=form).text, table, catalogue)
    wish = FlowerWish("my iris", 2)
    plan = shop(catalogue, replaced(scenario, (wish,)), cache=Cache(settings.cache))
    assert browser.get(f"{tab}last/recipes.csv").text == plan_files(plan)["recipes.csv"]


def test_what_is_saved_holds_their_colours_and_ticks_them_again(
    opens: Opens, demo: Catalogue, filled: dict[str, Any], table: Path
) -> None:
    """A friend without the table can ask it, and so can the page that has it."""
    browser = opens(flowers=table).browser
    tab = str(browser.get("/").url.path)
    form = {**filled, "flower": ["cornflower", "my iris"]}
    saved = browser.post(f"{tab}scenario", data=form).text
    (own,) = read_scenario_of(saved, table, demo).own_flowers
    assert own.is_like(with_flowers(demo, table).flowers["my iris"])
    again = send(browser, tab, saved).text
    assert "Opened: sent.toml." in again
    assert sendable(again)["flower"] == ["cornflower", "my iris"]
    assert "own-flower" not in sendable(again)
    elsewhere = opens()
    other = str(elsewhere.browser.get("/").url.path)
    whole = sendable(send(elsewhere.browser, other, saved).text)
    assert whole["flower"] == ["cornflower"]
    assert whole["own-flower-name-0"] == ["my iris"]


def test_a_table_that_a_scenario_names_is_passed_over_where_the_page_has_one(
    opens: Opens, table: Path
) -> None:
    text = 'title = "x"\ncurrency = "EUR"\nbudget = 9\nflowers = "a.csv"\n[[flower]]\nname = "{}"\n'
    browser = opens(flowers=table).browser
    tab = str(browser.get("/").url.path)
    opened = send(browser, tab, text.format("my iris")).text
    assert "The table of flowers that the file names does not come along" in opened
    assert sendable(opened)["flower"] == ["my iris"]
    assert "is not in the catalogue" in send(browser, tab, text.format("my lupin")).text
    without = opens().browser
    tab = str(without.get("/").url.path)
    assert "which did not come along" in send(without, tab, text.format("my iris")).text


def test_an_earlier_question_without_its_flowers_says_what_is_missing(
    opens: Opens, filled: dict[str, Any], table: Path, tmp_path: Path
) -> None:
    data = tmp_path / "data"
    browser = opens(flowers=table, data=data).browser
    tab = str(browser.get("/").url.path)
    browser.post(f"{tab}ask", data={**filled, "flower": ["cornflower", "my iris"]})
    later = opens(data=data).browser
    tab = str(later.get("/").url.path)
    key = later.get(tab).text.split('name="question" value="')[1].split('"')[0]
    opened = later.post(f"{tab}earlier", data={"question": key}).text
    assert "Not here, and so left out: my iris." in opened
    assert sendable(opened)["flower"] == ["cornflower"]


@pytest.mark.parametrize(
    ("named", "told"),
    [
        ("cornflower", "is a flower and no file"),
        ("none.csv", "none.csv"),
    ],
)
def test_a_table_that_is_not_there(named: str, told: str) -> None:
    result = CliRunner().invoke(app, ["page", "--no-browser", "--flowers", named])
    assert result.exit_code == 2
    assert told in result.output
    assert "Traceback" not in result.output


def test_faults_of_the_table_are_told_before_anything_is_served(table: Path) -> None:
    table.write_text(TABLE.replace("#8a63b8", "violet"), encoding="utf-8")
    result = CliRunner().invoke(app, ["page", "--no-browser", "--flowers", str(table)])
    assert result.exit_code == 2
    assert "row 2" in result.output
    assert "violet" in result.output
    assert "The page is at" not in result.output


def read_scenario_of(text: str, beside: Path, catalogue: Catalogue) -> Any:
    """Return the scenario of a text that was saved, read as `fewtubes shop` reads it."""
    path = beside.parent / "saved.toml"
    path.write_text(text, encoding="utf-8")
    return read_scenario(path, catalogue)


def replaced(scenario: Any, flowers: tuple[FlowerWish | OwnFlower, ...]) -> Any:
    return replace(scenario, flowers=flowers)
