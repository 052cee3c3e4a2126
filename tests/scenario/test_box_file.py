"""The file of the box at home: read whole or not at all, every fault with its place."""

from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fewtubes.catalogue.reading import read_catalogue
from fewtubes.catalogue.records import Catalogue
from fewtubes.errors import InputError
from fewtubes.scenario.box_file import (
    faults_of_box,
    named_box,
    named_catalogue,
    read_box,
)
from fewtubes.scenario.home_box import BoxAtHome
from fewtubes.scenario.reading import read_scenario

BOX = """\
title = "My tin"
catalogue = "my-paints"
[tubes]
lemon = "half"
deep-blue = 0.3
leaf-green = "empty"
"""


@pytest.fixture
def kept(tmp_path: Path) -> Path:
    """Return the file of a sound box, apart from the scenario."""
    path = tmp_path / "home" / "tin.toml"
    path.parent.mkdir()
    path.write_text(BOX, encoding="utf-8")
    return path


def spoil(path: Path, old: str, new: str) -> Path:
    assert BOX.count(old) == 1
    path.write_text(BOX.replace(old, new), encoding="utf-8")
    return path


def test_it_is_read_as_written(kept: Path, catalogue: Catalogue) -> None:
    assert read_box(kept, catalogue) == BoxAtHome(
        {"lemon": 0.5, "deep-blue": 0.3, "leaf-green": 0.0},
        title="My tin",
        catalogue="my-paints",
    )


@pytest.mark.parametrize("text", ["", "[tubes]\n", 'title = ""\n'])
def test_a_box_may_be_empty(kept: Path, catalogue: Catalogue, text: str) -> None:
    kept.write_text(text, encoding="utf-8")
    assert read_box(kept, catalogue) == BoxAtHome()


@pytest.mark.parametrize(
    ("spoilt", "where", "what"),
    [
        (
            ("lemon =", "lemmon ="),
            "tubes, lemmon",
            "the tube 'lemmon' is not in the catalogue. Did",
        ),
        (('"half"', '"hal"'), "tubes, lemon", "is 'hal'; allowed: 'full', 'half'"),
        (
            ('"half"', "2"),
            "tubes, lemon",
            "is 2; it must be a number from 0 to 1, or one of 'full'",
        ),
        (('"half"', "nan"), "tubes, lemon", "is nan; it must be a number from 0 to 1"),
        (('"half"', "true"), "tubes, lemon", "it must be a number from 0 to 1"),
        (('"half"', "[1]"), "tubes, lemon", "it must be a number from 0 to 1"),
        (('"half"', "1979-05-27"), "tubes, lemon", "it must be a number from 0 to 1"),
        (
            ("title", "titel"),
            "titel",
            "unknown key; allowed here: title, catalogue, tubes. Did you",
        ),
        (
            ("[tubes]", 'tubes = ["lemon"]\n[x]'),
            "tubes",
            "must be written as a table under [tubes].",
        ),
        (('"my-paints"', "3"), "catalogue", "is '3'; it must be a text in quotation marks."),
        (('"my-paints"', '""'), "catalogue", "is blank; fill it in."),
        (('"My tin"', '"a\\u0007"'), "title", "holds the unprintable character U+0007"),
    ],
)
def test_a_spoilt_box_is_told(
    kept: Path, catalogue: Catalogue, spoilt: tuple[str, str], where: str, what: str
) -> None:
    faults = faults_of_box(spoil(kept, *spoilt), catalogue)
    assert any(f.where == f"tin.toml, {where}" and what in f.what for f in faults), faults


def test_all_faults_are_told_at_once(kept: Path, catalogue: Catalogue) -> None:
    kept.write_text('colour = 3\n[tubes]\nx = 3\nlemon = "no"\n', encoding="utf-8")
    assert [fault.where for fault in faults_of_box(kept, catalogue)] == [
        "tin.toml, colour",
        "tin.toml, tubes, x",
        "tin.toml, tubes, x",
        "tin.toml, tubes, lemon",
    ]


def test_broken_files_are_told(tmp_path: Path, catalogue: Catalogue) -> None:
    assert "there is no such file" in str(faults_of_box(tmp_path / "none.toml", catalogue)[0])
    path = tmp_path / "box.toml"
    path.write_text('[tubes]\nlemon = "half"\nlemon = "full"\n', encoding="utf-8")
    assert "is not TOML" in faults_of_box(path, catalogue)[0].what
    path.write_text("[tubes]\n" + "".join(f"t{n} = 1\n" for n in range(1001)), encoding="utf-8")
    assert [fault.what for fault in faults_of_box(path, catalogue)] == [
        "has 1,001 tubes; at most 1,000 are allowed, so shorten it."
    ]


@given(text=st.text(st.sampled_from('[]tubes=lemon"half0.5{}\n#,\\ \x00é'), max_size=60))
def test_any_text_is_a_box_or_a_fault(
    text: str, catalogue: Catalogue, tmp_path_factory: pytest.TempPathFactory
) -> None:
    path = tmp_path_factory.getbasetemp() / "any.toml"
    path.write_text(text, encoding="utf-8")
    if not faults_of_box(path, catalogue):
        assert set(read_box(path, catalogue).at_hand) <= set(catalogue.tubes)


def test_without_a_catalogue_names_are_not_looked_up(kept: Path) -> None:
    assert read_box(spoil(kept, "lemon", "any-name-at-all")).left("any-name-at-all") == 0.5


def test_the_catalogue_is_seen_from_the_box(kept: Path, sound: Path) -> None:
    assert named_catalogue(kept) == kept.parent / "my-paints"
    assert named_catalogue(sound) is named_catalogue(None) is None
    assert named_catalogue(kept.parent / "none.toml") is None


def with_box(sound: Path, box: str) -> Path:
    """Return the sound scenario, naming a box."""
    text = sound.read_text(encoding="utf-8")
    sound.write_text(f'box = "{box}"\n{text}', encoding="utf-8")
    return sound


def test_a_scenario_names_a_box_from_its_own_folder(
    kept: Path, sound: Path, catalogue: Catalogue
) -> None:
    path = with_box(sound, "home/tin.toml")
    assert named_box(path) == kept
    wishes = read_scenario(path, catalogue).wishes
    assert wishes.box == read_box(kept, catalogue)
    assert wishes.owned == ("lemon",)
    assert wishes.all_owned == ("lemon",)  # deep-blue must be had, leaf-green is empty


def test_faults_of_a_scenarios_box_are_told_with_both_files(
    kept: Path, sound: Path, catalogue: Catalogue
) -> None:
    spoil(kept, '"half"', "7")
    with pytest.raises(InputError) as caught:
        read_scenario(with_box(sound, "home/tin.toml"), catalogue)
    assert str(caught.value).startswith("box.toml, box tin.toml, tubes, lemon: is 7; it must be")


@pytest.mark.parametrize(
    ("box", "what"),
    [('"none.toml"', "there is no such file"), ('""', "is blank"), ("3", "must be a text")],
)
def test_a_scenarios_box_that_is_none_is_told(
    sound: Path, catalogue: Catalogue, box: str, what: str
) -> None:
    text = sound.read_text(encoding="utf-8")
    sound.write_text(f"box = {box}\n{text}", encoding="utf-8")
    with pytest.raises(InputError, match=what):
        read_scenario(sound, catalogue)


def test_the_documented_box_can_be_read(tmp_path: Path) -> None:
    """The example of scenarios/README.md, with the demo catalogue."""
    guide = Path(__file__).parents[2] / "scenarios" / "README.md"
    (example,) = (
        block.partition("```")[0]
        for block in guide.read_text(encoding="utf-8").split("```toml\n")[1:]
        if "[tubes]" in block
    )
    path = tmp_path / "box.toml"
    path.write_text(example, encoding="utf-8")
    box = read_box(path, read_catalogue())
    assert [tube.left for tube in box.tubes] == [0.5, 1.0, 0.1, 0.3, 0.0]
