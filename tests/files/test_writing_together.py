"""Files in several folders are written all or none."""

from pathlib import Path

import pytest

from fewtubes.errors import OutputError
from fewtubes.files.writing import write_together


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
