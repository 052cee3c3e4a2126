"""Scenarios for the small catalogue, in a folder, and a machine with one processor."""

from collections.abc import Callable
from pathlib import Path

import pytest

SMALL = Path(__file__).parents[1] / "catalogue" / "small_catalogue"

Write = Callable[..., Path]


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """Return an empty folder for scenarios."""
    made = tmp_path / "scenarios"
    made.mkdir()
    return made


@pytest.fixture
def write(folder: Path) -> Write:
    """Return the writer of a sound scenario, by name; `more` are further lines above the flower."""

    def written(
        name: str, budget: str = "12.50", flower: str = "cornflower", more: str = ""
    ) -> Path:
        path = folder / f"{name}.toml"
        path.write_text(
            f'title = "Week {name}"\ncurrency = "EUR"\nbudget = {budget}\npaper = "plain"\n'
            f'light = "E"\ntolerance = 12\n{more}\n[[flower]]\nname = "{flower}"\n',
            encoding="utf-8",
        )
        return path

    return written


@pytest.fixture
def alone(monkeypatch: pytest.MonkeyPatch) -> None:
    """Let there be one processor, so that all is done in this process."""
    monkeypatch.setattr("fewtubes.term.side_by_side.worker_count", lambda: 1)
