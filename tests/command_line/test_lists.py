"""``fewtubes flowers``, ``fewtubes tubes`` and ``fewtubes check`` on the small catalogue."""

import io
import re
from collections.abc import Callable, Sequence
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest
from rich.console import Console

from fewtubes.catalogue.reading import read_catalogue
from fewtubes.catalogue.records import Hazard
from fewtubes.comparison.tube_listing import ListedTube
from fewtubes.mixing.opacity import Transparency
from fewtubes.report.terminal.tubes import print_tubes

Run = Callable[..., Any]

LAB = (50.0, 0.0, 0.0)


def flat(text: str) -> str:
    return " ".join(text.split())


def test_flowers_are_listed_with_their_swatches(run: Run, small: Sequence[str]) -> None:
    told = run("flowers", *small)
    assert told.code == 0
    assert "cornflower" in told.out
    assert "ray petal 42, 10, -50 2" in flat(told.out)
    assert "2 of 2 flowers." in told.out


@pytest.mark.parametrize(
    ("text", "found"), [("PRIM", "primrose"), ("heart centre", "cornflower"), ("face", "primrose")]
)
def test_flowers_are_found_by_words(run: Run, small: Sequence[str], text: str, found: str) -> None:
    told = run("flowers", text, *small)
    assert found in told.out
    assert "1 of 2 flowers." in told.out


def test_flowers_by_name_alone(run: Run, small: Sequence[str]) -> None:
    assert run("flowers", "--names", *small).out == "cornflower\nprimrose\n"
    assert run("flowers", "heart", "--names", *small).out == "cornflower\n"


def test_a_flower_that_is_not_there(run: Run, small: Sequence[str]) -> None:
    assert run("flowers", "[bold]", *small).out == "0 of 2 flowers.\n"


def test_tubes_are_listed_with_packs_and_traits(run: Run, small: Sequence[str]) -> None:
    told = run("tubes", *small)
    assert told.code == 0, told.err
    text = flat(told.out)
    assert "Deep blue deep-blue PB29; lightfastness I, excellent;" in text
    assert "5 ml EUR 3.50; 15 ml EUR 8.95" in text
    assert "PY154 60 %, PG50 40 %" in text
    assert "take care: holds cobalt" in text
    assert "lifts off; granulates" in text  # of the blue; the worst of the green's is slight
    assert "stains slightly; granulates slightly" in text
    assert "3 of 3 tubes." in text


@pytest.mark.parametrize(
    ("options", "left"),
    [
        (("--pigment", "py154"), {"lemon", "leaf-green"}),
        (("--without-hazard", "cobalt"), {"deep-blue", "lemon"}),
        (("--without-hazard", "any"), {"deep-blue", "lemon"}),
        (("--lightfastness", "i"), {"deep-blue"}),
        (("--lightfastness-at-least", "i"), {"deep-blue"}),  # its earlier name
        (("--most-price", "3.75"), {"deep-blue", "leaf-green"}),
        (("--transparency", "semi-opaque"), {"deep-blue", "lemon", "leaf-green"}),
        (("--transparent", "semi-opaque"), {"deep-blue", "lemon", "leaf-green"}),
        (("sea",), {"leaf-green"}),
        (("--pigment", "PB29", "--most-price", "1"), set()),
    ],
)
def test_tubes_are_sifted(
    run: Run, small: Sequence[str], options: tuple[str, ...], left: set[str]
) -> None:
    told = run("tubes", *options, *small)
    assert told.code == 0, told.err
    assert {id_ for id_ in ("deep-blue", "lemon", "leaf-green") if id_ in told.out} == left


@pytest.mark.parametrize(
    ("options", "message"),
    [
        (("--transparency", "clear"), "--transparency: is 'clear'; allowed: transparent"),
        (("--lightfastness-at-least", "VI"), "--lightfastness: is 'VI'; allowed: I, II"),
        (("--without-hazard", "cadmum"), "Did you mean 'cadmium'?"),
        (("--transparent", "opaque"), "--transparency: is 'opaque'; allowed: transparent, semi-tr"),
        (("--most-price", "cheap"), "--most-price: the price 'cheap' is not a plain number; give"),
        (("--most-price", "8,50"), "decimals take a point: write 8.50."),
        (("--without-hazard", "arsenic"), "--without-hazard: is 'arsenic'; allowed: cadmium"),
        (("--most-price", "1.234"), "at most two decimals"),
        (("--light", "moon"), "--light: the light 'moon' is not in the catalogue"),
        (("--paper", "wood"), "--paper: the paper 'wood' is not in the catalogue"),
    ],
)
def test_words_that_are_not_allowed_are_told(
    run: Run, small: Sequence[str], options: tuple[str, ...], message: str
) -> None:
    told = run("tubes", *options, *small)
    assert told.code == 2
    assert message in told.err


def test_what_is_sound_is_counted(run: Run, small: Sequence[str], scenario: Path) -> None:
    told = run("check", scenario.parent, scenario, *small)
    assert told.code == 0, told.err
    assert "3 tubes, 3 pigments, 2 flowers, 1 paper and" in flat(told.out)
    assert "Sound: 2 scenarios." in told.out


def test_all_faults_are_told_at_once(run: Run, small: Sequence[str], tmp_path: Path) -> None:
    flowers = "".join(f'[[flower]]\nname = "weed {place}"\n' for place in range(30))
    head = 'title = "x"\ncurrency = "EUR"\nbudget = 1\npaper = "plain"\nlight = "E"\n'
    (tmp_path / "a.toml").write_text(head + flowers, encoding="utf-8")
    (tmp_path / "b.toml").write_text("title = ", encoding="utf-8")
    told = run("check", tmp_path, tmp_path / "none", *small)
    assert told.code == 2
    assert told.err.count("weed ") == 30
    assert "b.toml: is not TOML" in told.err
    assert "none: there is no such file" in told.err
    assert told.out == ""


def test_a_catalogue_that_is_not_there(run: Run, tmp_path: Path) -> None:
    for command in ("check", "flowers", "tubes"):
        told = run(command, "--catalogue", tmp_path / "none")
        assert told.code == 2
        assert "there is no such folder" in told.err


def test_a_folder_without_scenarios(run: Run, small: Sequence[str], tmp_path: Path) -> None:
    told = run("check", tmp_path, *small)
    assert told.code == 2
    assert "holds no scenario" in told.err


@pytest.mark.parametrize(
    ("asked", "said"),
    [
        ("primroses", "1 of 2 flowers."),
        ("Primrosé", "1 of 2 flowers."),
        ("primorse", "1 of 2 flowers. Read primorse as primrose."),
        ("corn flower", "1 of 2 flowers."),
        ("primrose heart", "0 of 2 flowers. Did you mean 'cornflower' or 'primrose'?"),
    ],
)
def test_plurals_and_slips_are_forgiven(
    run: Run, small: Sequence[str], asked: str, said: str
) -> None:
    told = run("flowers", asked, *small)
    assert told.code == 0
    assert told.out.splitlines()[-1] == said


@pytest.mark.parametrize(
    ("asked", "said"),
    [
        ("lemons", "1 of 3 tubes."),
        ("lemmon", "1 of 3 tubes. Read lemmon as lemon."),
        ("blue deep", "1 of 3 tubes."),
        ("crimson", "0 of 3 tubes. Did you mean 'Leaf green'"),
    ],
)
def test_so_they_are_among_tubes(run: Run, small: Sequence[str], asked: str, said: str) -> None:
    told = run("tubes", asked, *small)
    assert told.code == 0
    assert told.out.splitlines()[-1].startswith(said)


def test_a_long_list_takes_a_line_each(run: Run) -> None:
    told = run("flowers")
    assert told.code == 0
    lines = told.out.splitlines()
    assert len(lines) <= 60  # 48 flowers, and the end
    assert "rose, red: light edge, petal, petal fold, deep centre, leaf, leaf shadow" in lines
    assert "--full tells the rest" in told.out
    full = run("flowers", "--full").out
    assert len(full.splitlines()) > 400
    assert "--full" not in full
    assert len(run("flowers", "roses").out.splitlines()) > 3 * 8  # three, at length


def test_a_long_list_of_tubes_leaves_no_hazard_out(run: Run) -> None:
    lines = re.split(r"from EUR [\d.]+ ", flat(run("tubes").out))
    demo = read_catalogue()
    assert len(run("tubes").out.splitlines()) < 100
    for tube in demo.tubes.values():
        (line,) = [line for line in lines if line.startswith(f"{tube.name}: ")]
        assert all(hazard in line for hazard in tube.hazards if hazard != "other"), line
    assert "lifts off; granulates" in flat(run("tubes", "--full").out)


def test_a_hazard_without_a_word_of_its_own_is_told_in_a_line_too() -> None:
    demo = read_catalogue()
    (pigment, share), *_ = demo.tubes["magenta"].pigments
    odd = replace(pigment, hazards=(Hazard.OTHER,), hazard_note="smells odd.")
    listed = [
        ListedTube(replace(tube, pigments=((odd, share),)), 0.1, Transparency.OPAQUE, LAB, LAB)
        for tube in demo.tubes.values()
    ]
    console = Console(file=io.StringIO(), width=200, color_system=None, _environ={})
    print_tubes(listed, console, of=72)
    assert isinstance(console.file, io.StringIO)
    assert console.file.getvalue().count("; noted: smells odd; from EUR") == 72
