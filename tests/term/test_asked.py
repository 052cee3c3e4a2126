"""The scenarios of a folder: which files they are, and faults told of one alone."""

import re
from collections.abc import Callable
from pathlib import Path

import pytest

from fewtubes.errors import InputError
from fewtubes.term.asked import read_folder

SMALL = Path(__file__).parents[1] / "catalogue" / "small_catalogue"

Write = Callable[..., Path]


def test_a_fault_is_told_of_its_scenario_alone(folder: Path, write: Write) -> None:
    write("one")
    write("two", flower="no such flower")
    (folder / "three.toml").write_text("budget = = 3\n", encoding="utf-8")
    found = {one.name: one for one in read_folder(folder, SMALL)}
    assert list(found) == ["one", "three", "two"]  # in the order of their names
    assert not found["one"].faults
    assert found["one"].scenario is not None
    assert found["one"].scenario.title == "Week one"
    assert [fault.where for fault in found["three"].faults] == ["three.toml"]
    (fault,) = found["two"].faults
    assert fault.where == "two.toml, flower 1, name"
    assert "no such flower" in fault.what
    assert found["two"].scenario is None


def test_what_else_is_kept_there_is_passed_over(folder: Path, write: Write) -> None:
    write("one")
    (folder / "box.toml").write_text('[tubes]\nlemon = "full"\n', encoding="utf-8")
    (folder / ".hidden.toml").write_text("not a scenario", encoding="utf-8")
    assert [one.name for one in read_folder(folder, SMALL)] == ["one"]


def test_a_folder_without_a_scenario_is_refused(folder: Path) -> None:
    with pytest.raises(InputError, match=re.escape("holds no scenario")):
        read_folder(folder, SMALL)
    (folder / "box.toml").write_text('[tubes]\nlemon = "full"\n', encoding="utf-8")
    with pytest.raises(InputError, match=re.escape("holds no scenario")):
        read_folder(folder, SMALL)


def test_a_faulty_catalogue_is_refused_at_once(folder: Path, write: Write, tmp_path: Path) -> None:
    write("one")
    with pytest.raises(InputError, match="nowhere"):
        read_folder(folder, tmp_path / "nowhere")


def test_scenarios_share_one_catalogue_read_once(folder: Path, write: Write) -> None:
    write("one")
    write("two")
    one, two = read_folder(folder, SMALL)
    assert one.catalogue is two.catalogue


def test_flowers_and_prices_stand_beside_the_catalogue(
    folder: Path, write: Write, tmp_path: Path
) -> None:
    table = tmp_path / "mine.csv"
    table.write_text("flower,swatch,role,hex\nmy poppy,petal,petal,#ec8a6a\n", encoding="utf-8")
    dear = tmp_path / "dear"
    dear.mkdir()
    (dear / "offers.csv").write_text("tube,ml,price,currency\nlemon,5,9.00,EUR\n", encoding="utf-8")
    write("one", flower="my poppy")
    (found,) = read_folder(folder, SMALL, flowers=table, prices=dear)
    assert not found.faults
    assert found.catalogue is not None
    assert found.scenario is not None
    assert [tube.id for tube in found.catalogue.tubes.values() if tube.offers] == ["lemon"]
    assert found.scenario.prices == str(dear)


def test_week_two_comes_before_week_ten_and_a_title_is_read_beside_a_fault(
    folder: Path, write: Write
) -> None:
    for name in ("Week 10", "week 2", "week 1", "b"):
        write(name)
    write("week 3", flower="no such flower")
    found = read_folder(folder, SMALL)
    assert [one.name for one in found] == ["b", "week 1", "week 2", "week 3", "Week 10"]
    assert [one.title for one in found if one.faults] == ["Week week 3"]
    assert all(one.scenario is None or one.scenario.title == one.title for one in found)
