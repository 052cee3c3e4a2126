"""``fewtubes at-home`` and ``--box``: the file is kept, and every command that asks takes it."""

import json
import re
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Any

import pytest
from tests.command_line.conftest import SMALL

from fewtubes.comparison.box_contents import box_contents

Run = Callable[..., Any]

BOX = """\
title = "My tin"
[tubes]
lemon = "half" # a gift
deep-blue = "nearly empty"
leaf-green = "empty"
"""


@pytest.fixture
def box(tmp_path: Path) -> Path:
    path = tmp_path / "tin.toml"
    path.write_text(BOX, encoding="utf-8")
    return path


def test_a_new_file_is_made(run: Run, small: Sequence[str], tmp_path: Path) -> None:
    path = tmp_path / "new" / "tin.toml"
    told = run("at-home", path, *small, "--add", "lemon", "--add", "deep-blue", "--left", "half")
    assert told.code == 0, told.err
    assert f"Written: '{path}'." in told.out
    assert path.read_text(encoding="utf-8").endswith('\nlemon = "half"\ndeep-blue = "half"\n')
    again = run("box", "--box", path)  # the catalogue is named in the file
    assert again.code == 0, again.err
    assert "2 tubes." in again.out


def test_each_tube_may_be_otherwise_full(run: Run, small: Sequence[str], tmp_path: Path) -> None:
    path = tmp_path / "tin.toml"
    lemon = ("--add", "lemon", "--left", "half")
    blue = ("--add", "deep-blue", "--left", "nearly empty")
    told = run("at-home", path, *small, *lemon, *blue)
    assert told.code == 0, told.err
    text = path.read_text(encoding="utf-8")
    assert text.endswith('\nlemon = "half"\ndeep-blue = "nearly empty"\n')
    told = run("at-home", path, *small, *lemon, "--left", "full")
    assert told.code == 2
    assert told.err == (
        "--left: is said 2 times; say it once for all that are added, or once for each.\n"
    )
    assert path.read_text(encoding="utf-8") == text


def test_tubes_are_put_in_and_taken_out(run: Run, small: Sequence[str], box: Path) -> None:
    told = run(
        "at-home", box, *small, "--add", "deep-blue", "--left", 0.6, "--remove", "leaf-green"
    )
    assert told.code == 0, told.err
    assert box.read_text(encoding="utf-8") == (
        'title = "My tin"\n[tubes]\nlemon = "half" # a gift\ndeep-blue = 0.6\n'
    )
    assert "60 % full" in told.out


def test_looking_writes_nothing(run: Run, small: Sequence[str], box: Path) -> None:
    before = box.stat().st_mtime_ns
    told = run("at-home", box, *small)
    assert told.code == 0, told.err
    assert "The box at home: My tin" in told.out
    assert "3 tubes, 1 empty one among them." in told.out
    assert "Written" not in told.out
    assert box.stat().st_mtime_ns == before


@pytest.mark.parametrize(
    ("options", "words"),
    [
        (["--add", "lemmon"], "--add: the tube 'lemmon' is not in the catalogue. Did you mean"),
        (["--add", "lemon", "--left", "hal"], "--left: is 'hal'; allowed: 'full', 'half'"),
        (["--add", "lemon", "--left", "1.5"], "--left: is 1.5; it must be a number from 0 to 1"),
        (["--remove", "lemmon"], "--remove: the tube 'lemmon' is not in the box. Did you mean"),
        (["--remove", "dep blue"], "is not in the box. Did you mean 'Deep blue'?"),
        (["--add", "lemon", "--remove", "lemon"], "'lemon' is added as well; leave one of them"),
    ],
)
def test_faults_are_told_and_nothing_is_written(
    run: Run, small: Sequence[str], box: Path, options: list[str], words: str
) -> None:
    told = run("at-home", box, *small, *options)
    assert told.code == 2
    assert words in told.err
    assert box.read_text(encoding="utf-8") == BOX


def test_a_file_that_is_no_box_is_left_alone(
    run: Run, small: Sequence[str], scenario: Path, tmp_path: Path
) -> None:
    before = scenario.read_text(encoding="utf-8")
    told = run("at-home", scenario, *small, "--add", "lemon")
    assert told.code == 2
    assert "unknown key; allowed here: title, catalogue, tubes" in told.err
    assert scenario.read_text(encoding="utf-8") == before
    assert run("at-home", tmp_path / "none.toml", *small).code == 2
    assert not (tmp_path / "none.toml").exists()


def test_a_tube_the_catalogue_lost_can_be_taken_out(
    run: Run, small: Sequence[str], box: Path
) -> None:
    box.write_text(BOX + "gone = 1\n", encoding="utf-8")
    told = run("at-home", box, *small).err
    assert told.startswith("tin.toml, tubes: the tube 'gone' is not in the catalogue.")
    assert run("at-home", box, *small, "--remove", "gone").code == 0
    assert "gone" not in box.read_text(encoding="utf-8")


def test_the_box_alone(run: Run, small: Sequence[str], box: Path) -> None:
    told = run("box", *small, "--box", box)
    assert told.code == 0, told.err
    for words in ("half full", "nearly empty", "empty", "Doubles", "Take care"):
        assert words in told.out


@pytest.mark.parametrize(
    ("options", "words"),
    [
        ([], "SCENARIO.toml: is missing; name its file, or a box at home with --box."),
        (["--box", "BOX", "--budget", "3"], "--budget: needs a scenario; name its file."),
        (["--box", "BOX", "--out", "x"], "--out: needs a scenario; name its file."),
        (["--box", "none.toml"], "none.toml: there is no such file"),
    ],
)
def test_a_box_alone_asked_too_much(
    run: Run, small: Sequence[str], box: Path, options: list[str], words: str
) -> None:
    told = run("box", *small, *[str(box) if word == "BOX" else word for word in options])
    assert told.code == 2
    assert words in told.err


def test_the_box_is_looked_into_for_a_scenario(
    run: Run, scenario: Path, small: Sequence[str], box: Path
) -> None:
    told = run("box", scenario, *small, "--box", box, "--about-to-buy", "lemon")
    assert told.code == 0, told.err
    assert "2 tubes: Lemon" in told.out
    assert "Lemon is in the box already." in told.out


def test_shop_names_the_tubes_as_owned(
    run: Run, scenario: Path, small: Sequence[str], box: Path, tmp_path: Path
) -> None:
    out = tmp_path / "out"
    told = run("shop", scenario, *small, "--box", box, "--owned", "leaf-green", "--out", out)
    assert told.code == 0, told.err
    plan = json.loads((out / "plan.json").read_text(encoding="utf-8"))
    assert plan["scenario"]["wishes"]["owned"] == ["leaf-green", "lemon", "deep-blue"]
    left = {tube["id"]: tube["left"] for tube in plan["tubes"]}
    assert left == {"lemon": 0.5, "deep-blue": 0.1, "leaf-green": 0.0}
    assert "in the box at home" in " ".join(told.out.split())


@pytest.mark.parametrize("command", ["why", "compare"])
def test_other_questions_take_it(
    run: Run, scenario: Path, small: Sequence[str], box: Path, command: str
) -> None:
    """With all three tubes there is nothing left to buy; without the box there is."""
    asked = (command, scenario, *small, "--tolerance", 12)
    told = run(*asked, "--box", box, "--owned", "leaf-green")
    assert told.code == 0, told.err
    listed = run(*asked, *every("--owned", "leaf-green", "lemon", "deep-blue"))
    assert findings(told.out) == findings(listed.out)
    assert findings(told.out) != findings(run(*asked).out)


def findings(out: str) -> str:
    """Return what is printed after title and question, which names the box, without the time."""
    told = " ".join(out.partition("\n\n")[2].split())
    return re.sub(r"\b(took) [\d.]+ s\b", r"\1 a while", told)


def every(option: str, *values: str) -> list[str]:
    """Return an option with each of the values."""
    return [word for value in values for word in (option, value)]


def test_the_option_goes_before_the_scenarios_own_box(
    run: Run, scenario: Path, small: Sequence[str], box: Path
) -> None:
    own = scenario.with_name("own.toml")
    own.write_text('[tubes]\nleaf-green = "full"\n', encoding="utf-8")
    text = scenario.read_text(encoding="utf-8")
    scenario.write_text(f'box = "own.toml"\n{text}', encoding="utf-8")
    asked = ("box", scenario, *small, "--about-to-buy", "lemon")
    assert "1 tube: Leaf green (full)." in run(*asked).out
    assert "2 tubes: Lemon" in run(*asked, "--box", box).out


def test_the_catalogue_a_box_names_is_used(run: Run, scenario: Path, box: Path) -> None:
    named = f'catalogue = "{SMALL.as_posix()}"\n'
    box.write_text(named + BOX, encoding="utf-8")
    told = run("box", scenario, "--box", box, "--about-to-buy", "lemon")
    assert told.code == 0, told.err
    text = scenario.read_text(encoding="utf-8")
    scenario.write_text(f'box = "{box.as_posix()}"\n{text}', encoding="utf-8")
    assert run("box", scenario, "--about-to-buy", "lemon").code == 0
    box.write_text('catalogue = "nowhere"\n' + BOX, encoding="utf-8")
    assert "there is no such folder" in run("box", scenario).err


def test_mixes_and_lists_are_of_the_tubes_at_home(
    run: Run, small: Sequence[str], box: Path
) -> None:
    here = ("--paper", "plain", "--light", "E")
    mixed = run("mix", "#6a8a50", *small, *here, "--box", box)
    assert mixed.code == 0, mixed.err
    assert "Leaf green" not in mixed.out
    listed = run("tubes", *small, *here, "--box", box)
    assert listed.out.count("At home: ") == 3
    assert "At home: nearly empty." in listed.out
    ranked = run("unmixable", *small, *here, "--box", box, "--all")
    assert ranked.code == 0, ranked.err
    assert "Leaf green" not in ranked.out
    assert "Lemon" in ranked.out


@pytest.mark.parametrize("command", [("mix", "#6a8a50"), ("unmixable",)])
def test_a_box_of_empty_tubes_mixes_nothing(
    run: Run, small: Sequence[str], box: Path, command: tuple[str, ...]
) -> None:
    box.write_text('[tubes]\nlemon = "empty"\n', encoding="utf-8")
    told = run(*command, *small, "--paper", "plain", "--light", "E", "--box", box)
    assert told.code == 2
    assert "--box: holds no tube that is not empty; fill it in" in told.err


def test_check_knows_a_box_from_a_scenario(
    run: Run, scenario: Path, small: Sequence[str], box: Path
) -> None:
    told = run("check", scenario, box, *small)
    assert told.code == 0, told.err
    assert "Sound: 1 scenario." in told.out
    assert "Sound: 1 box." in told.out
    box.write_text("[tubes]\nlemmon = 1\n", encoding="utf-8")
    assert "tin.toml, tubes, lemmon: the tube 'lemmon' is not" in run("check", box, *small).err


def test_what_another_run_put_in_meanwhile_is_not_lost(
    run: Run, small: Sequence[str], box: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Another run writes after this one has read, before it writes."""
    added = BOX + 'warm-red = "full"\n'

    def slowly(*asked: Any, **options: Any) -> Any:
        box.write_text(added, encoding="utf-8")
        return box_contents(*asked, **options)

    monkeypatch.setattr("fewtubes.comparison.box_contents.box_contents", slowly)
    told = run("at-home", box, *small, "--add", "deep-blue")
    assert (told.code, told.out) == (2, "")
    assert told.err == (
        f"In '{box.parent}' {box.name} changed while this was worked out; nothing was written. Give"
        " the command again.\n"
    )
    assert box.read_text(encoding="utf-8") == added


def test_how_full_is_said_of_nothing_without_a_tube_put_in(
    run: Run, small: Sequence[str], box: Path
) -> None:
    told = run("at-home", box, *small, "--left", "half", "--remove", "lemon")
    assert told.code == 2
    assert told.err == "--left: is of the tubes that are put in; name them with --add.\n"
    assert box.read_text(encoding="utf-8") == BOX


def test_tubes_are_put_in_and_taken_out_by_name(
    run: Run, small: Sequence[str], tmp_path: Path
) -> None:
    box = tmp_path / "box.toml"
    box.write_text('[tubes]\n"Deep Blue" = "full" # from my aunt\n', encoding="utf-8")
    told = run("at-home", box, "--add", "LEMON", "--add", "deep-blue", "--left", "half", *small)
    assert told.code == 0, told.err
    assert box.read_text(encoding="utf-8") == (
        '[tubes]\n"Deep Blue" = "half" # from my aunt\nlemon = "half"\n'
    )
    told = run("at-home", box, "--remove", "deep BLUE", *small)
    assert told.code == 0, told.err
    assert box.read_text(encoding="utf-8") == '[tubes]\nlemon = "half"\n'


def test_one_tube_under_two_names_is_told_and_one_can_be_taken_out(
    run: Run, small: Sequence[str], tmp_path: Path
) -> None:
    path = tmp_path / "tin.toml"
    path.write_text('[tubes]\nlemon = "half"\n"LEMON" = "full"\n', encoding="utf-8")
    told = run("at-home", path, *small)
    assert told.code == 2
    assert told.err == (
        "tin.toml, tubes, LEMON: is the same tube as 'lemon', which stands there before it; keep"
        " one of the two.\n"
    )
    told = run("at-home", path, *small, "--remove", "lemon")
    assert told.code == 0, told.err
    assert path.read_text(encoding="utf-8") == '[tubes]\nlemon = "half"\n'
