"""A price list by `--prices` or by a scenario's key, in every command that goes by prices."""

from collections.abc import Sequence
from pathlib import Path
from typing import Any

import pytest
from tests.command_line.conftest import Run

from fewtubes.catalogue.location import demo_catalogue_folder
from fewtubes.catalogue.price_list import with_prices
from fewtubes.catalogue.reading import read_catalogue
from fewtubes.scenario.overrides import with_overrides
from fewtubes.scenario.price_list import named_prices
from fewtubes.scenario.reading import read_scenario
from fewtubes.scenario.scenario_text import scenario_contents, scenario_text

OFFERS = "tube,ml,price,currency,seller\nlemon,5,4.10,EUR,stall\ndeep-blue,5,3.90,EUR,stall\n"
SELLERS = "seller,name,delivery,free_from,least_order,currency,note\nstall,market stall,2,,,EUR,\n"

SCENARIOS = Path(__file__).parents[2] / "scenarios"


@pytest.fixture
def prices(tmp_path: Path) -> Path:
    """Return the folder of a price list for the small catalogue."""
    folder = tmp_path / "prices"
    folder.mkdir()
    (folder / "offers.csv").write_text(OFFERS, encoding="utf-8")
    (folder / "sellers.csv").write_text(SELLERS, encoding="utf-8")
    return folder


def named(scenario: Path, folder: str = "prices") -> Path:
    """Let a scenario name a price list."""
    text = scenario.read_text(encoding="utf-8")
    scenario.write_text(f'prices = "{folder}"\n{text}', encoding="utf-8")
    return scenario


def test_the_scenario_names_one_as_seen_from_its_folder(
    run: Run, fake_shop: Any, scenario: Path, small: Sequence[str], prices: Path
) -> None:
    told = run("shop", named(scenario), *small)
    assert told.code == 0, told.err
    (asked,) = fake_shop.questions
    assert asked.prices == "prices"
    assert "prices from: prices." in " ".join(told.out.split())


def test_the_option_stands_in_its_place(
    run: Run, fake_shop: Any, scenario: Path, small: Sequence[str], prices: Path
) -> None:
    named(scenario, "nowhere")
    told = run("shop", scenario, *small, "--prices", prices)
    assert told.code == 0, told.err
    assert fake_shop.questions[0].prices == str(prices)
    told = run("shop", scenario, *small)
    assert (told.code, told.out) == (2, "")
    assert "nowhere: there is no such folder" in told.err


@pytest.mark.parametrize("command", ["shop", "why", "compare", "box", "instalments"])
def test_its_faults_are_told_with_folder_and_row(
    run: Run, scenario: Path, small: Sequence[str], prices: Path, command: str
) -> None:
    (prices / "offers.csv").write_text(OFFERS.replace("lemon,5", "lime,5"), encoding="utf-8")
    more = ("--sum", "5", "--sum", "5") if command == "instalments" else ()
    told = run(command, scenario, *small, "--prices", prices, *more)
    assert (told.code, told.out) == (2, "")
    assert told.err.startswith(f"{prices}, offers.csv, row 2: tube 'lime' is not in tubes.csv")


def test_a_box_alone_needs_none(run: Run, tmp_path: Path, small: Sequence[str]) -> None:
    (tmp_path / "tin.toml").write_text('[tubes]\nlemon = "full"\n', encoding="utf-8")
    told = run("box", "--box", tmp_path / "tin.toml", *small, "--prices", tmp_path)
    assert told.code == 2
    assert "--prices" in told.err


def test_check_looks_at_the_lists_that_scenarios_name(
    run: Run, scenario: Path, small: Sequence[str], prices: Path
) -> None:
    assert run("check", named(scenario), *small).code == 0
    (prices / "sellers.csv").unlink()
    told = run("check", scenario, *small)
    assert told.code == 2
    assert told.err.count("seller 'stall' is not in sellers.csv") == 2
    told = run("check", *small, "--prices", prices)
    assert told.err.count("seller 'stall' is not in sellers.csv") == 2


def test_a_currency_that_only_the_list_has_will_do(
    run: Run, fake_shop: Any, scenario: Path, small: Sequence[str], prices: Path
) -> None:
    for name in ("offers.csv", "sellers.csv"):
        text = (prices / name).read_text(encoding="utf-8").replace("EUR", "CHF")
        (prices / name).write_text(text, encoding="utf-8")
    text = named(scenario).read_text(encoding="utf-8").replace("EUR", "CHF")
    scenario.write_text(text, encoding="utf-8")
    assert run("shop", scenario, *small).code == 0


def test_a_blank_name_is_a_fault(run: Run, scenario: Path, small: Sequence[str]) -> None:
    told = run("shop", named(scenario, ""), *small)
    assert told.code == 2
    assert "prices: is blank" in told.err


def test_the_writer_keeps_the_key() -> None:
    path = SCENARIOS / "box-or-parcel.toml"
    catalogue = with_prices(read_catalogue(), named_prices(path))
    scenario = read_scenario(path, catalogue)
    assert 'prices = "sellers"' in scenario_text(scenario)
    changed = with_overrides(scenario, catalogue=catalogue, budget=11)
    assert 'prices = "sellers"' in scenario_contents(changed)["scenario.toml"]
    assert named_prices(SCENARIOS / "first-set.toml") is None
    assert not with_prices(read_catalogue(demo_catalogue_folder()), None).sellers
