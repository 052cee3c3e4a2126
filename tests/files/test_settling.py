"""What becomes of sets that were left half done, state by state, and what is not touched."""

import os
import time
from hashlib import sha256
from pathlib import Path

import pytest

from fewtubes.files.journal import Journal, Move, leftovers, mark, read_journal
from fewtubes.files.settling import Settled, involved, settle

RUN = "0123456789abcdef"


def digest(text: str) -> str:
    return sha256(text.encode()).hexdigest()


@pytest.fixture
def journal(tmp_path: Path) -> Journal:
    """Return a set of three all ready: two over earlier files, and one where nothing was."""
    moves = (
        Move("a", digest("new a"), digest("old a")),
        Move("b", digest("new b"), digest("old b")),
        Move("c", digest("new c"), None),
    )
    journal = Journal(tmp_path, RUN, moves)
    journal.write()
    for place, move in enumerate(moves):
        journal.staged(place).write_text(f"new {move.name}", encoding="utf-8")
        if move.earlier is not None:
            journal.target(place).write_text(f"old {move.name}", encoding="utf-8")
            os.link(journal.target(place), journal.kept(place))
    return journal


def contents(folder: Path) -> dict[str, str]:
    return {path.name: path.read_text(encoding="utf-8") for path in folder.iterdir()}


NEW = {"a": "new a", "b": "new b", "c": "new c"}
OLD = {"a": "old a", "b": "old b"}


def settled(folder: Path) -> Settled | None:
    return settle([folder], locked=[folder]).get(folder)


def test_what_had_not_begun_is_dropped(journal: Journal) -> None:
    assert settled(journal.folder) is None
    assert contents(journal.folder) == OLD


def test_what_had_begun_is_finished(journal: Journal) -> None:
    journal.staged(1).replace(journal.target(1))
    assert settled(journal.folder) is Settled.FINISHED
    assert contents(journal.folder) == NEW


def test_what_was_complete_is_tidied_up(journal: Journal) -> None:
    for place in range(3):
        journal.staged(place).replace(journal.target(place))
    assert settled(journal.folder) is None
    assert contents(journal.folder) == NEW


@pytest.mark.parametrize("damage", ["gone", "cut off", "a link"])
def test_what_cannot_be_finished_is_undone(journal: Journal, damage: str) -> None:
    journal.staged(0).replace(journal.target(0))
    journal.staged(2).replace(journal.target(2))
    journal.staged(1).unlink()
    if damage == "cut off":
        journal.staged(1).write_text("new", encoding="utf-8")
    elif damage == "a link":
        journal.staged(1).symlink_to(journal.target(0))
    assert settled(journal.folder) is Settled.UNDONE
    assert contents(journal.folder) == OLD


def test_what_was_changed_since_is_left_alone(journal: Journal) -> None:
    journal.staged(0).replace(journal.target(0))
    journal.target(1).unlink()
    journal.target(1).write_text("by hand", encoding="utf-8")
    assert settled(journal.folder) is Settled.LEFT
    assert contents(journal.folder) == {"a": "old a", "b": "by hand"}


def test_a_folder_that_was_moved_is_settled_where_it_is(journal: Journal, tmp_path: Path) -> None:
    journal.staged(0).replace(journal.target(0))
    moved = tmp_path.rename(tmp_path.with_name("moved"))
    assert settled(moved) is Settled.FINISHED
    assert contents(moved) == NEW


def test_a_folder_of_the_set_that_is_gone_lets_the_rest_be_undone(tmp_path: Path) -> None:
    here, gone = tmp_path / "here", tmp_path / "gone"
    here.mkdir()
    moves = (Move("a", digest("new"), None), Move("b", digest("new"), None))
    journal = Journal(here, RUN, moves, (gone,))
    journal.write()
    journal.target(0).write_text("new", encoding="utf-8")
    journal.staged(1).write_text("new", encoding="utf-8")
    assert involved([here]) == [here]
    assert settle([here], locked=[here]) == {here: Settled.UNDONE}
    assert contents(here) == {}


def test_where_folders_cannot_be_locked_only_old_leftovers_are_touched(
    journal: Journal, monkeypatch: pytest.MonkeyPatch
) -> None:
    before = contents(journal.folder)
    assert settle([journal.folder], locked=[]) == {}
    assert contents(journal.folder) == before
    now = time.time()
    monkeypatch.setattr(time, "time", lambda: now + 3601)
    settle([journal.folder], locked=[])
    assert contents(journal.folder) == OLD


@pytest.mark.parametrize(
    "told",
    [
        "",
        '{"format": 1, "others": [], "moves": [["a", ',
        "[]",
        '{"format": 2, "others": [], "moves": []}',
        '{"format": 1, "moves": []}',
        '{"format": 1, "others": [], "moves": [["a"]]}',
        '{"format": 1, "others": [], "moves": [["a", 1, null]]}',
        '{"format": 1, "others": [], "moves": [["a", "xy", null]]}',
        *(
            f'{{"format": 1, "others": [], "moves": [["{name}", "{"0" * 64}", null]]}}'
            for name in ("../a", "/etc/passwd", "", ".", "..", f".fewtubes-{RUN}-0.old")
        ),
        "[" * 100_000,
    ],
)
def test_a_journal_that_makes_no_sense_is_none(tmp_path: Path, told: str) -> None:
    """Above all it must speak of files in its own folder only."""
    (tmp_path / f".fewtubes-{RUN}.journal").write_text(told, encoding="utf-8")
    assert read_journal(tmp_path, RUN) is None
    settle([tmp_path], locked=[tmp_path])
    assert contents(tmp_path) == {}


def test_a_journal_of_somebody_else_is_not_believed(
    journal: Journal, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(os, "geteuid", lambda: journal.folder.stat().st_uid + 1)
    assert read_journal(journal.folder, RUN) is None
    left = leftovers(journal.folder)[RUN]
    assert {path.suffix for path in left} == {".old"}  # a second name of a file of anybody's


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="no pipes there")
def test_a_pipe_in_place_of_a_journal_does_not_hang(tmp_path: Path) -> None:
    os.mkfifo(tmp_path / f".fewtubes-{RUN}.journal")
    assert read_journal(tmp_path, RUN) is None
    assert settle([tmp_path], locked=[tmp_path]) == {}


def test_marks_tell_one_content_from_another(tmp_path: Path) -> None:
    """SHA-256 of "abc" from FIPS 180-2, appendix B.1 (from memory)."""
    file, link = tmp_path / "file", tmp_path / "link"
    assert mark(file) is None
    file.write_bytes(b"abc")
    assert mark(file) == "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"
    link.symlink_to(file)
    assert mark(link) == f"link to {file}"
    assert mark(tmp_path) == mark(tmp_path) != mark(tmp_path.parent)
