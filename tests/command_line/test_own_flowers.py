"""``--flowers`` and ``catalogue add-flower``: flowers of one's own on the command line."""

from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Any

import pytest
import typer

from fewtubes.catalogue.reading import read_catalogue
from fewtubes.command_line.main import app
from fewtubes.scenario.own_flowers import OwnFlower
from fewtubes.scenario.wanted import FlowerWish

Run = Callable[..., Any]

MINE = "flower,swatch,role,hex\nmy iris,fall,petal,#8a63b8\nmy iris,leaf,leaf,#5a8a4a\n"

OWN = """
[[flower]]
name = "my poppy"
[[flower.swatch]]
name = "petal"
role = "petal"
hex = "#e0482f"
"""


def flat(text: str) -> str:
    return " ".join(text.split())


def unwrapped(text: str) -> str:
    """Return the text without any blanks: a long path is broken within."""
    return "".join(text.split())


@pytest.fixture
def mine(tmp_path: Path) -> Path:
    """Return a table of flowers of one's own."""
    path = tmp_path / "mine" / "my-flowers.csv"
    path.parent.mkdir()
    path.write_text(MINE, encoding="utf-8")
    return path


def test_every_command_that_asks_of_flowers_takes_them() -> None:
    group = typer.main.get_command(app)
    takes = {
        name
        for name, command in group.commands.items()  # type: ignore[attr-defined]
        if any("--flowers" in option.opts for option in command.params)
    }
    assert takes >= {"shop", "why", "compare", "instalments", "box", "mix", "flowers", "check"}


def test_own_flowers_are_asked_for_by_name(
    run: Run, fake_shop: Any, scenario: Path, small: Sequence[str], mine: Path
) -> None:
    told = run("shop", scenario, *small, "--flowers", mine, "--flower", "My Iris")
    assert told.code == 0, told.err
    (asked,) = fake_shop.questions
    assert asked.flowers == (FlowerWish("my iris"),)
    told = run("shop", scenario, *small, "--flowers", mine, "--flower", "my irs")
    assert told.code == 2
    assert "Did you mean 'my iris'?" in told.err


def test_a_scenario_that_names_a_table_needs_no_option(
    run: Run, fake_shop: Any, scenario: Path, small: Sequence[str], mine: Path
) -> None:
    text = scenario.read_text(encoding="utf-8").replace("cornflower", "my iris")
    scenario.write_text(f'flowers = "mine/my-flowers.csv"\n{text}', encoding="utf-8")
    (mine.parent.parent / scenario.name).write_text(scenario.read_text(encoding="utf-8"))
    for options in ((), ("--flowers", mine), ("--flower", "my iris")):
        told = run("shop", mine.parent.parent / scenario.name, *small, *options)
        assert told.code == 0, told.err
    for asked in fake_shop.questions:
        (iris,) = asked.flowers
        assert isinstance(iris, OwnFlower)
        assert [swatch.name for swatch in iris.swatches] == ["fall", "leaf"]
    told = run("shop", mine.parent.parent / scenario.name, *small, "--flower", "primrose")
    assert told.code == 0, told.err  # the scenario's are put aside, whatever they are


def test_files_and_flowers_are_told_apart(
    run: Run, scenario: Path, small: Sequence[str], mine: Path
) -> None:
    told = run("shop", scenario, *small, "--flowers", "primrose")
    assert told.err == (
        "--flowers: 'primrose' is a flower and no file; flowers to paint are named by --flower.\n"
    )
    told = run("shop", scenario, *small, "--flower", mine)
    assert "is a file and no flower; a file of flowers of your own is named by --flowers." in (
        told.err
    )
    told = run("shop", scenario, *small, "--flowers", "nowhere.csv")
    assert (told.code, told.out) == (2, "")
    assert told.err.startswith("nowhere.csv: there is no such file")


def test_they_are_listed_mixed_and_checked(
    run: Run, scenario: Path, small: Sequence[str], mine: Path
) -> None:
    assert run("flowers", "--names", *small, "--flowers", mine).out.splitlines() == [
        "cornflower",
        "primrose",
        "my iris",
    ]
    by_name = run("mix", "My Iris / fall", *small, "--flowers", mine, "--paper", "plain")
    by_colour = run("mix", "#8a63b8", *small, "--paper", "plain")
    assert by_name.code == by_colour.code, by_name.err
    assert by_name.out.splitlines()[1:] == by_colour.out.splitlines()[1:]
    told = run("check", scenario, *small, "--flowers", mine)
    assert told.out.endswith("Sound: 1 scenario.\nSound: 1 flower of your own.\n")
    scenario.write_text(
        scenario.read_text(encoding="utf-8").replace("cornflower", "my iris"), encoding="utf-8"
    )
    assert run("check", scenario, *small, "--flowers", mine).code == 0
    told = run("check", scenario, *small)
    assert "the flower 'my iris' is not in the catalogue" in told.err


def test_a_flower_is_kept_as_it_is_typed(run: Run, small: Sequence[str], tmp_path: Path) -> None:
    path = tmp_path / "kept.csv"
    typed = ("catalogue", "add-flower", "my poppy", "--into", path, *small)
    told = run(
        *(*typed, "--colour", "rim: Petal  Light #f2a07b", "--colour", "eye: centre 20,5,-5"),
        *("--colour", "leaf: leaf cornflower / ray"),
    )
    assert unwrapped(told.out) == unwrapped(
        f"'my poppy' is kept in '{path}', as one more. Written to '{tmp_path}': kept.csv."
    )
    assert path.read_text(encoding="utf-8").splitlines()[1:] == [
        "my poppy,rim,petal light,#f2a07b,,,,2",
        "my poppy,eye,centre,,20,5,-5,1",
        "my poppy,leaf,leaf,,42,10,-50,1",
    ]
    before = path.read_bytes()
    told = run(*typed, "--colour", "rim: petal #f2a07b")
    assert (told.code, told.out) == (2, "")
    assert "there is a flower 'my poppy' already" in told.err
    assert path.read_bytes() == before
    told = run(*typed, "--colour", "rim: petal #f2a07b", "--replace")
    assert "in the place of the one before" in flat(told.out)


def test_a_flower_of_a_scenario_is_kept(
    run: Run, scenario: Path, small: Sequence[str], tmp_path: Path
) -> None:
    scenario.write_text(scenario.read_text(encoding="utf-8") + OWN, encoding="utf-8")
    path = tmp_path / "kept.csv"
    keep = ("catalogue", "add-flower", "--into", path, *small, "--from-scenario", scenario)
    told = run(*keep, "My Poppy")
    assert told.code == 0, told.err
    assert "my poppy,petal,petal,#e0482f,,,,3" in path.read_text(encoding="utf-8")
    again = run(*keep, "my poppy")
    assert unwrapped(again.out) == unwrapped(
        f"'my poppy' is kept in '{path}' already, with these colours."
    )
    told = run(*keep, "my popy")
    assert told.err == (
        f"NAME: {scenario.name!r} holds no flower 'my popy' with colours of its own. Did you mean"
        " 'my poppy'?\n"
    )


def test_a_catalogue_that_was_only_begun_takes_a_flower(run: Run, tmp_path: Path) -> None:
    folder = tmp_path / "begun"
    assert run("catalogue", "new", folder).code == 0
    kept = run("catalogue", "add-flower", "rose", "--into", folder, "--colour", "a: petal #cc3344")
    assert kept.code == 0, kept.err
    assert run("catalogue", "merge", "demo", "--into", folder).code == 0
    assert read_catalogue(folder).flowers["rose"].swatches[0].importance == 3


@pytest.mark.parametrize(
    ("typed", "told"),
    [
        ((), "'x': is to be kept, but in which colours? Give --colour, or else --from-scenario."),
        (("--colour", "rim #112233"), "--colour: is 'rim #112233'; write its name, a colon, its"),
        (
            ("--colour", "rim: #112233"),
            "--colour: of 'rim' names no part before its colour, but says '#112233'; parts",
        ),
        (("--colour", "rim: petal #1"), "--colour: of 'rim' is '#1'; it must be written as #rrgg"),
        (
            ("--colour", ": petal #112233"),
            "--colour: is ': petal #112233'; write its name, a colon",
        ),
    ],
)
def test_what_cannot_be_kept_is_told_in_a_sentence(
    run: Run, small: Sequence[str], tmp_path: Path, *, typed: tuple[str, ...], told: str
) -> None:
    path = tmp_path / "kept.csv"
    refused = run("catalogue", "add-flower", "x", "--into", path, *small, *typed)
    assert (refused.code, refused.out) == (2, "")
    assert refused.err.startswith(told)
    assert not path.exists()
