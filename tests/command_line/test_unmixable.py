"""``fewtubes unmixable`` on the small catalogue: it tells, writes and remembers."""

from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Any

import pytest

import fewtubes.report.terminal.unmixable

Run = Callable[..., Any]


def test_it_ranks_the_tubes(run: Run, small: Sequence[str]) -> None:
    told = run("unmixable", *small)
    assert told.code == 0, told.err
    assert "One of each must be bought" in told.out
    assert "Lemon  (lemon)" in told.out
    assert "Each of 3 tubes was compared" in told.out


def test_it_writes_both_tables(run: Run, small: Sequence[str], tmp_path: Path) -> None:
    semicolons = run("unmixable", *small, "--out", tmp_path / "two", "--spreadsheet", "semicolon")
    assert semicolons.code == 0, semicolons.err
    assert b"\xbfname;largest;" in (tmp_path / "two" / "unmixable.csv").read_bytes()
    told = run("unmixable", *small, "--out", tmp_path / "out", "--all")
    assert told.code == 0, told.err
    names = {path.name for path in (tmp_path / "out").iterdir()}
    assert names == {"unmixable.csv", "unmixable-washes.csv"}
    text = (tmp_path / "out" / "unmixable-washes.csv").read_text(encoding="utf-8")
    assert len(text.splitlines()) == 1 + 3 * 12


def test_twins_may_count_and_tubes_be_left_out(run: Run, small: Sequence[str]) -> None:
    told = run("unmixable", *small, "--count-twins", "--never", "leaf-green", "--no-cache")
    assert told.code == 0, told.err
    assert "Every tube was a family of its own" in " ".join(told.out.split())
    assert "Leaf green" not in told.out
    assert "Each of 2 tubes was compared" in told.out


def test_faults_are_told_in_a_sentence(run: Run, small: Sequence[str]) -> None:
    told = run("unmixable", *small, "--never", "lemmon")
    assert told.code == 2
    assert "--never: " in told.err
    assert "Did you mean 'lemon'?" in told.err
    assert run("unmixable", *small, "--paper", "wood").code == 2


def test_stopped_while_printing_it_says_what_was_written(
    run: Run, small: Sequence[str], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def interrupt(*_arguments: object, **_options: object) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr(fewtubes.report.terminal.unmixable, "print_unmixable", interrupt)
    told = run("unmixable", *small, "--out", tmp_path / "out")
    assert told.code == 130
    assert "were written before" in told.err
    assert "nothing was written" in run("unmixable", *small).err
