"""A copy of the small catalogue that a test may spoil."""

import shutil
from collections.abc import Callable
from pathlib import Path

import pytest

SMALL = Path(__file__).parent / "small_catalogue"

Change = Callable[[str, str, str], None]


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """Return a fresh copy of the small catalogue."""
    return Path(shutil.copytree(SMALL, tmp_path / "small"))


@pytest.fixture
def change(folder: Path) -> Change:
    """Return a function that replaces the one place of a text in a table."""

    def replace_once(table: str, old: str, new: str) -> None:
        text = (folder / table).read_text(encoding="utf-8")
        assert text.count(old) == 1, f"{old!r} must stand once in {table}"
        (folder / table).write_text(text.replace(old, new), encoding="utf-8")

    return replace_once
