"""Only ordinary files of a bearable length are read, and nothing hangs."""

import os
from pathlib import Path

import pytest

from fewtubes.files.regular_files import read_regular


def test_a_file_is_read_up_to_its_limit(tmp_path: Path) -> None:
    file = tmp_path / "file"
    file.write_bytes(b"a\r\n\x00")
    assert read_regular(file, most=4) == b"a\r\n\x00"
    assert read_regular(file, most=3) is None


def test_a_link_is_followed(tmp_path: Path) -> None:
    (tmp_path / "file").write_bytes(b"a")
    (tmp_path / "link").symlink_to(tmp_path / "file")
    (tmp_path / "loop").symlink_to(tmp_path / "loop")
    assert read_regular(tmp_path / "link", most=9) == b"a"
    assert read_regular(tmp_path / "loop", most=9) is None


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="no pipes and devices there")
def test_nothing_else_is_read(tmp_path: Path) -> None:
    os.mkfifo(tmp_path / "pipe")
    (tmp_path / "folder").mkdir()
    for path in (tmp_path / "pipe", tmp_path / "folder", Path("/dev/zero"), Path("/dev/full")):
        assert read_regular(path, most=9) is None, path
    assert read_regular(tmp_path / "none", most=9) is None
    assert read_regular(Path("a\0b"), most=9) is None


def test_a_huge_file_fills_no_memory(tmp_path: Path) -> None:
    """A terabyte with nothing in it: a sparse file."""
    with (tmp_path / "huge").open("wb") as file:
        file.truncate(2**40)
    assert read_regular(tmp_path / "huge", most=2**28) is None
