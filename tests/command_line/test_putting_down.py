"""What is said of files: written or not, and whether those that were there belonged together."""

import json
import os
import signal
from collections.abc import Callable, Sequence
from hashlib import sha256
from pathlib import Path
from typing import Any

import pytest

from fewtubes.files.journal import Journal, Move

Run = Callable[..., Any]
FILES = {"shopping-list.csv", "recipes.csv", "puddles.csv", "plan.json"}


def signalling(function: Callable[..., Any], place: int) -> Callable[..., Any]:
    """Return the function with the keyboard interrupting its call number `place` (0 = first)."""
    calls = iter(range(1_000_000))

    def counted(*args: Any, **kwargs: Any) -> Any:
        if next(calls) == place:
            signal.raise_signal(signal.SIGINT)
        return function(*args, **kwargs)

    return counted


@pytest.mark.parametrize("place", range(3))
@pytest.mark.parametrize("command", ["shop", "why"])
def test_stopped_late_in_writing_it_says_that_all_is_written(
    run: Run,
    scenario: Path,
    small: Sequence[str],
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    *,
    place: int,
    command: str,
) -> None:
    """While the files take their places: the signal is held until the last one has."""
    with monkeypatch.context() as patch:
        patch.setattr(os, "replace", signalling(os.replace, place))
        told = run(command, scenario, *small, "--no-cache", "--out", tmp_path / "out")
    assert told.code == 130
    assert told.err == f"stopped; the files in '{tmp_path / 'out'}' were written before\n"
    assert len(list((tmp_path / "out").iterdir())) == {"shop": 4, "why": 3}[command]


def test_stopped_early_in_writing_it_says_that_nothing_is_written(
    run: Run,
    fake_shop: Any,
    scenario: Path,
    small: Sequence[str],
    tmp_path: Path,
    *,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    with monkeypatch.context() as patch:
        patch.setattr(os, "fsync", signalling(os.fsync, 1))
        told = run("shop", scenario, *small, "--out", tmp_path / "out")
    assert told.code == 130
    assert told.err == "stopped; nothing was written\n"
    assert not (tmp_path / "out").exists()


def test_files_that_did_not_belong_together_are_told(
    run: Run, fake_shop: Any, scenario: Path, small: Sequence[str], tmp_path: Path
) -> None:
    out = tmp_path / "out"
    assert run("shop", scenario, *small, "--out", out).err == ""
    assert run("shop", scenario, *small, "--out", out).err == ""
    (out / "recipes.csv").write_text("of another run", encoding="utf-8")
    told = run("shop", scenario, *small, "--out", out)
    assert told.code == 0
    assert told.err == (
        f"In '{out}' recipes.csv was not the file that plan.json names there: changed since, or of"
        " another run.\n"
    )
    assert run("shop", scenario, *small, "--out", out).err == ""


def test_a_run_that_was_cut_off_is_told(
    run: Run, fake_shop: Any, scenario: Path, small: Sequence[str], tmp_path: Path
) -> None:
    out = tmp_path / "out"
    run("shop", scenario, *small, "--out", out)
    texts = {
        name: (out / name).read_text(encoding="utf-8") for name in ("recipes.csv", "plan.json")
    }
    moves = [
        Move(name, sha256(f"{text} ".encode()).hexdigest(), sha256(text.encode()).hexdigest())
        for name, text in texts.items()
    ]
    journal = Journal(out.resolve(), "0" * 16, tuple(moves))
    journal.write()
    journal.target(0).write_text(f"{texts['recipes.csv']} ", encoding="utf-8")
    journal.staged(1).write_text(f"{texts['plan.json']} ", encoding="utf-8")
    told = run("shop", scenario, *small, "--out", out)
    assert told.code == 0
    assert told.err == (
        f"An earlier run broke off while it wrote to '{out}'; what it had ready was put in place.\n"
    )
    assert {path.name for path in out.iterdir()} == FILES
    assert "fellow_files_sha256" in json.loads((out / "plan.json").read_text(encoding="utf-8"))
