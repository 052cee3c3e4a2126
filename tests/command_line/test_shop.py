"""``fewtubes shop``: how it asks, writes and tells."""

import json
import re
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Any

import pytest

import fewtubes.report.terminal.plan
from fewtubes.errors import ClashError, Fault, InputError

Run = Callable[..., Any]
FILES = {"shopping-list.csv", "recipes.csv", "puddles.csv", "plan.json"}


def test_it_prints_and_writes_nothing_without_a_folder(
    run: Run, fake_shop: Any, scenario: Path, small: Sequence[str]
) -> None:
    told = run("shop", scenario, *small)
    assert told.code == 0
    assert "A window box" in told.out
    assert "Written" not in told.out
    assert set(scenario.parent.iterdir()) == {scenario}


def test_it_writes_all_files(
    run: Run, fake_shop: Any, scenario: Path, small: Sequence[str], tmp_path: Path
) -> None:
    out = tmp_path / "deep" / "out"
    told = run("shop", scenario, *small, "--out", out)
    assert told.code == 0
    assert {path.name for path in out.iterdir()} == FILES
    assert f"Written to '{out}'" in told.out
    assert json.loads((out / "plan.json").read_text(encoding="utf-8"))["schema"] == 1


def test_it_writes_for_a_spreadsheet_with_a_decimal_comma(
    run: Run, fake_shop: Any, scenario: Path, small: Sequence[str], tmp_path: Path
) -> None:
    told = run("shop", scenario, *small, "--out", tmp_path / "out", "--spreadsheet", "semicolon")
    assert told.code == 0, told.err
    written = (tmp_path / "out" / "shopping-list.csv").read_bytes()
    assert written.startswith(b"\xef\xbb\xbfname;pigments;ml;packs;price_each;price;")
    told = run("shop", scenario, *small, "--spreadsheet", "tab")
    assert told.code == 2
    assert "'comma', 'semicolon'" in told.err


def test_options_reach_the_question(
    run: Run, fake_shop: Any, scenario: Path, small: Sequence[str]
) -> None:
    told = run(
        *("shop", scenario, *small, "--budget", "40.1", "--most-tubes", 6, "--tolerance", 3.5),
        *("--flower", "primrose", "--flower", "cornflower", "--seconds", 7),
        *("--owned", "lemon", "--must-have", "deep-blue", "--never", "leaf-green"),
    )
    assert told.code == 0, told.err
    (asked,) = fake_shop.questions
    assert (asked.budget_hundredths, asked.most_tubes, asked.tolerance) == (4010, 6, 3.5)
    assert [wish.name for wish in asked.flowers] == ["primrose", "cornflower"]
    assert asked.wishes.owned == ("lemon",)
    assert asked.wishes.must_have == ("deep-blue",)
    assert asked.wishes.never == ("leaf-green",)
    assert fake_shop.seconds == [7.0]


def test_the_cache_may_be_left_out(
    run: Run, fake_shop: Any, scenario: Path, small: Sequence[str], cache_folder: Path
) -> None:
    run("shop", scenario, *small)
    run("shop", scenario, *small, "--no-cache")
    assert [cache.folder for cache in fake_shop.caches] == [cache_folder, None]


def test_every_fault_of_the_options_is_told(
    run: Run, fake_shop: Any, scenario: Path, small: Sequence[str]
) -> None:
    told = run("shop", scenario, *small, "--budget", 0, "--flower", "primrse", "--paper", "wood")
    assert told.code == 2
    assert "--budget: the budget is 0" in told.err
    assert "'primrse' is not in the catalogue. Did you mean 'primrose'?" in told.err
    assert "--paper: the paper 'wood'" in told.err
    assert fake_shop.questions == []


@pytest.mark.parametrize("seconds", ["0", "-1", "nan", "inf"])
def test_patience_must_be_above_0_and_end(
    run: Run, fake_shop: Any, scenario: Path, small: Sequence[str], seconds: str
) -> None:
    told = run("shop", scenario, *small, "--seconds", seconds)
    assert told.code == 2
    assert "--seconds: is" in told.err


def test_a_missing_scenario_is_told_in_a_sentence(run: Run, fake_shop: Any, tmp_path: Path) -> None:
    told = run("shop", tmp_path / "none.toml")
    assert told.code == 2
    assert "none.toml: there is no such file" in told.err
    assert told.out == ""


def test_demands_that_clash_are_told(
    run: Run, fake_shop: Any, scenario: Path, small: Sequence[str]
) -> None:
    fake_shop.trouble = ClashError("the must-haves cost EUR 20.00; raise the budget.\x1b[2J")
    told = run("shop", scenario, *small)
    assert (told.code, told.out) == (2, "")
    assert "the must-haves cost EUR 20.00; raise the budget.\\x1b[2J" in told.err


def test_only_the_first_faults_are_told(
    run: Run, fake_shop: Any, scenario: Path, small: Sequence[str]
) -> None:
    fake_shop.trouble = InputError([Fault(f"row {row}", "is odd.") for row in range(1, 26)])
    told = run("shop", scenario, *small)
    assert told.code == 2
    assert "row 20: is odd." in told.err
    assert "row 21" not in told.err
    assert "… and 5 more" in told.err


def test_the_painter_may_stop_it(
    run: Run, fake_shop: Any, scenario: Path, small: Sequence[str], tmp_path: Path
) -> None:
    fake_shop.trouble = KeyboardInterrupt()
    told = run("shop", scenario, *small, "--out", tmp_path / "out")
    assert told.code == 130
    assert "stopped; nothing was written" in told.err
    assert not (tmp_path / "out").exists()


def test_stopped_while_a_compiled_module_is_imported_is_stopped_all_the_same(
    run: Run, fake_shop: Any, scenario: Path, small: Sequence[str]
) -> None:
    fake_shop.trouble = ImportError("initialization failed")
    fake_shop.trouble.__cause__ = KeyboardInterrupt()
    told = run("shop", scenario, *small)
    assert told.code == 130
    assert "stopped; nothing was written" in told.err


def test_each_line_of_a_clash_is_a_line(
    run: Run, fake_shop: Any, scenario: Path, small: Sequence[str]
) -> None:
    fake_shop.trouble = ClashError("the two clash.\nThe smallest budget is 6.00 EUR.\x1b")
    told = run("shop", scenario, *small)
    assert told.code == 2
    assert told.err.splitlines() == ["the two clash.", "The smallest budget is 6.00 EUR.\\x1b"]


def test_stopped_while_printing_it_says_what_was_written(
    *,
    run: Run,
    fake_shop: Any,
    scenario: Path,
    small: Sequence[str],
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    def interrupt(*_arguments: object, **_options: object) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr(fewtubes.report.terminal.plan, "print_plan", interrupt)
    told = run("shop", scenario, *small, "--out", tmp_path / "out")
    assert told.code == 130
    assert "were written before" in told.err
    assert {path.name for path in (tmp_path / "out").iterdir()} == FILES
    assert "nothing was written" in run("shop", scenario, *small).err


def test_a_report_is_not_lost_when_it_cannot_be_written(
    run: Run, fake_shop: Any, scenario: Path, small: Sequence[str]
) -> None:
    told = run("shop", scenario, *small, "--out", scenario)  # a file, not a folder
    assert told.code == 2
    assert "A window box" in told.out
    assert "Written" not in told.out
    assert "cannot be written" in told.err


def test_a_defect_is_not_taken_for_a_fault_of_the_painter(
    run: Run, fake_shop: Any, scenario: Path, small: Sequence[str]
) -> None:
    fake_shop.trouble = ZeroDivisionError("a defect")
    with pytest.raises(ZeroDivisionError, match="a defect"):
        run("shop", scenario, *small)


def test_the_short_answer_is_printed_unless_all_is_asked_for(
    run: Run, scenario: Path, small: Sequence[str]
) -> None:
    short, full = run("shop", scenario, *small), run("shop", scenario, *small, "--full")
    assert short.code == full.code == 0
    assert "--full tells the rest" in short.out
    assert "This holds among" in full.out
    assert len(short.out) < len(full.out) / 2
    earlier = run("shop", scenario, *small, "--all")  # its earlier name still does
    effort = re.compile(r"By exact\s+search.*?\.\s", re.DOTALL)
    assert effort.sub("", earlier.out) == effort.sub("", full.out)
