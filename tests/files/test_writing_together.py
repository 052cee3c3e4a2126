"""Files in several folders are written all or none."""

import threading
from pathlib import Path

import pytest

from fewtubes.errors import OutputError
from fewtubes.files.writing import ChangedMeanwhileError, write_together


def test_every_folder_gets_its_files(tmp_path: Path) -> None:
    one, other = tmp_path / "one", tmp_path / "other" / "deep"
    write_together({one: {"a.txt": "a"}, other: {"b.bin": b"\x00", "c.txt": "ü"}})
    assert (one / "a.txt").read_text(encoding="utf-8") == "a"
    assert (other / "b.bin").read_bytes() == b"\x00"
    assert (other / "c.txt").read_bytes() == "ü".encode()
    assert {path.name for path in tmp_path.rglob("*") if path.is_file()} == {
        "a.txt",
        "b.bin",
        "c.txt",
    }


def test_a_folder_that_cannot_be_made_leaves_the_others_as_they_were(tmp_path: Path) -> None:
    kept, blocked = tmp_path / "kept", tmp_path / "file" / "folder"
    kept.mkdir()
    (kept / "a.txt").write_text("earlier", encoding="utf-8")
    (tmp_path / "file").write_text("in the way", encoding="utf-8")
    with pytest.raises(OutputError) as told:
        write_together({tmp_path / "new": {"n.txt": "n"}, kept: {"a.txt": "a"}, blocked: {"b": ""}})
    assert str(kept) in str(told.value)
    assert "nothing was changed" in str(told.value)
    assert (kept / "a.txt").read_text(encoding="utf-8") == "earlier"
    assert sorted(path.name for path in tmp_path.iterdir()) == ["file", "kept"]


def test_a_target_that_is_a_folder_leaves_the_others_as_they_were(tmp_path: Path) -> None:
    (tmp_path / "page.html").mkdir()
    with pytest.raises(OutputError, match="there is a folder of that name"):
        write_together({tmp_path / "out": {"a.txt": "a"}, tmp_path: {"page.html": "p"}})
    assert [path.name for path in tmp_path.iterdir()] == ["page.html"]


def test_nothing_to_write_writes_nothing(tmp_path: Path) -> None:
    write_together({})
    assert not list(tmp_path.iterdir())


def test_only_plain_names_are_taken(tmp_path: Path) -> None:
    with pytest.raises(ValueError, match="plain file name"):
        write_together({tmp_path: {"../a.txt": "a"}})


def test_what_another_run_wrote_since_is_not_overwritten(tmp_path: Path) -> None:
    (tmp_path / "a.txt").write_text("theirs", encoding="utf-8")
    (tmp_path / "b.txt").write_text("theirs too", encoding="utf-8")
    (tmp_path / "c.txt").write_text("as read", encoding="utf-8")
    fresh = {"a.txt": "mine", "b.txt": "mine", "c.txt": "mine"}
    earlier = {"a.txt": "as read", "b.txt": None, "c.txt": "as read"}
    with pytest.raises(ChangedMeanwhileError) as told:
        write_together({tmp_path: fresh}, earlier={tmp_path: earlier})
    assert str(told.value) == (
        f"In '{tmp_path}' a.txt and b.txt changed while this was worked out; nothing was written."
        " Give the command again."
    )
    assert {path.name: path.read_text(encoding="utf-8") for path in tmp_path.iterdir()} == {
        "a.txt": "theirs",
        "b.txt": "theirs too",
        "c.txt": "as read",
    }


def test_what_is_as_it_was_read_is_replaced(tmp_path: Path) -> None:
    (tmp_path / "a.txt").write_bytes(b"\xef\xbb\xbfas read\r\n")
    earlier: dict[str, str | bytes | None] = {"a.txt": "\ufeffas read\r\n", "b.txt": None}
    write_together({tmp_path: {"a.txt": "a", "b.txt": "b"}}, earlier={tmp_path: earlier})
    assert [path.read_bytes() for path in sorted(tmp_path.iterdir())] == [b"a", b"b"]


def test_of_runs_at_the_same_time_one_alone_replaces_what_all_have_read(tmp_path: Path) -> None:
    (tmp_path / "a.txt").write_text("as read", encoding="utf-8")
    start, lost = threading.Barrier(4), []

    def run(number: int) -> None:
        start.wait()
        try:
            write_together(
                {tmp_path: {"a.txt": f"run {number}"}}, earlier={tmp_path: {"a.txt": "as read"}}
            )
        except ChangedMeanwhileError:
            lost.append(number)

    runs = [threading.Thread(target=run, args=(number,)) for number in range(4)]
    for thread in runs:
        thread.start()
    for thread in runs:
        thread.join()
    assert len(lost) == 3
    (won,) = {0, 1, 2, 3} - set(lost)
    assert (tmp_path / "a.txt").read_text(encoding="utf-8") == f"run {won}"
