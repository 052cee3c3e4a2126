"""Copies of the small catalogue, and small files beside them."""

import shutil
from collections.abc import Callable, Mapping
from pathlib import Path

import pytest

SMALL = Path(__file__).parents[1] / "catalogue" / "small_catalogue"

Change = Callable[[Path, str, str, str], None]


@pytest.fixture
def ours(tmp_path: Path) -> Path:
    """Return a fresh copy of the small catalogue."""
    return Path(shutil.copytree(SMALL, tmp_path / "ours"))


@pytest.fixture
def theirs(tmp_path: Path) -> Path:
    """Return another copy."""
    return Path(shutil.copytree(SMALL, tmp_path / "theirs"))


@pytest.fixture
def change() -> Change:
    """Return a function that replaces the one place of a text in a table of a folder."""

    def replace_once(folder: Path, table: str, old: str, new: str) -> None:
        data = (folder / table).read_bytes()
        assert data.count(old.encode()) == 1, f"{old!r} must stand once in {table}"
        (folder / table).write_bytes(data.replace(old.encode(), new.encode()))

    return replace_once


def written(folder: Path, files: Mapping[str, str]) -> Path:
    """Write what a function of the package says is to be written; return the folder."""
    folder.mkdir(exist_ok=True)
    for name, text in files.items():
        (folder / name).write_bytes(text.encode("utf-8"))
    return folder


def contents(folder: Path) -> dict[str, bytes]:
    """Return all that a folder holds."""
    return {path.name: path.read_bytes() for path in folder.iterdir()}
