"""``fewtubes card``: it writes a card and its layout, both or none."""

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from fewtubes.card.layout_file import read_layout

Run = Callable[..., Any]


def test_it_writes_the_card_and_its_layout(run: Run, tmp_path: Path) -> None:
    told = run("card", "--names", "my rose, my blue", "--paper-size", "letter", "--out", tmp_path)
    assert told.code == 0, told.err
    assert "A card for 2 tubes on 1 sheet of Letter paper" in told.out
    assert f"Written to '{tmp_path}': card.pdf, card-layout.toml." in told.out
    assert (tmp_path / "card.pdf").read_bytes().startswith(b"%PDF-")
    layout = read_layout(tmp_path / "card-layout.toml")
    assert [row.name for row in layout.sheets[0].rows] == ["my rose", "my blue"]


def test_without_a_folder_it_writes_where_one_is(
    run: Run, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    told = run("card")
    assert told.code == 0, told.err
    assert sorted(path.name for path in tmp_path.iterdir()) == ["card-layout.toml", "card.pdf"]
    assert "fewtubes fit PHOTOGRAPH --layout card-layout.toml" in " ".join(told.out.split())


def test_several_sheets_are_told(run: Run, tmp_path: Path) -> None:
    told = run("card", "--tubes", 14, "--out", tmp_path / "new")
    assert told.code == 0, told.err
    assert "A card for 14 tubes on 2 sheets of A4 paper" in told.out
    assert "Write name and pigments of each tube" in " ".join(told.out.split())


def test_names_that_were_written_down_are_never_lost(run: Run, tmp_path: Path) -> None:
    assert run("card", "--out", tmp_path).code == 0
    assert run("card", "--out", tmp_path).code == 0  # nothing was written in it
    layout, card = tmp_path / "card-layout.toml", tmp_path / "card.pdf"
    named = layout.read_text(encoding="utf-8").replace('name = ""', 'name = "mine"', 1)
    layout.write_text(named, encoding="utf-8")
    card.write_bytes(b"kept")
    told = run("card", "--out", tmp_path)
    assert told.code == 2
    assert "names may be written in it; name another folder" in told.err
    assert layout.read_text(encoding="utf-8") == named
    assert card.read_bytes() == b"kept"


@pytest.mark.parametrize(
    ("options", "told"),
    [
        (("--paper-size", "A5"), "--paper-size: is 'A5'; allowed: A4, Letter."),
        (("--tubes", 0), "--tubes: is 0; it must be from 1 to 96."),
        (("--names", "a,,b"), "--names, entry 2: is blank"),
        (("--names", "a", "--tubes", 3), "--tubes: cannot be given together with names"),
    ],
)
def test_faults_are_told_and_nothing_is_written(
    options: tuple[object, ...], told: str, run: Run, tmp_path: Path
) -> None:
    ended = run("card", *options, "--out", tmp_path / "new")
    assert ended.code == 2
    assert told in ended.err
    assert not (tmp_path / "new").exists()


def test_without_a_folder_it_is_written_to_this_one(
    run: Run, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    told = run("card")
    assert told.code == 0, told.err
    assert {path.name for path in tmp_path.iterdir()} == {"card.pdf", "card-layout.toml"}


def test_another_file_in_the_place_of_the_card_is_not_lost(run: Run, tmp_path: Path) -> None:
    (tmp_path / "card.pdf").write_bytes(b"a birthday card")
    told = run("card", "--out", tmp_path)
    assert told.code == 2
    assert "card.pdf: lies there already, and is no card of this layout" in told.err
    assert [path.name for path in tmp_path.iterdir()] == ["card.pdf"]
    assert (tmp_path / "card.pdf").read_bytes() == b"a birthday card"
