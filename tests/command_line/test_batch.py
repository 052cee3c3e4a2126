"""``fewtubes batch``: how it asks, tells and ends; broken off by a kill and by the keyboard."""

import json
import os
import re
import signal
import subprocess
import sys
import time
from collections.abc import Callable, Sequence
from hashlib import sha256
from pathlib import Path
from typing import Any

import pytest

Run = Callable[..., Any]

WEEK = """\
title = "Week {number}"
currency = "EUR"
budget = {budget}
paper = "plain"
light = "E"
tolerance = 12
[[flower]]
name = "{flower}"
"""

RESULTS = {"plan.json", "shopping-list.csv", "recipes.csv", "puddles.csv"}


@pytest.fixture
def weeks(tmp_path: Path) -> Path:
    """Return a folder of two scenarios for the small catalogue."""
    return written(tmp_path / "weeks", 2)


def written(folder: Path, count: int) -> Path:
    folder.mkdir()
    for number in range(1, count + 1):
        flower = "primrose" if number % 2 else "cornflower"
        budget = 4 + number / 10
        text = WEEK.format(number=number, budget=f"{budget:.2f}", flower=flower)
        (folder / f"week-{number:02}.toml").write_text(text, encoding="utf-8")
    return folder


@pytest.fixture(autouse=True)
def _alone(monkeypatch: pytest.MonkeyPatch) -> None:
    """Let what is run in this process be done in it."""
    monkeypatch.setattr("fewtubes.term.side_by_side.worker_count", lambda: 1)


def test_it_tells_and_writes(run: Run, weeks: Path, small: Sequence[str], tmp_path: Path) -> None:
    out = tmp_path / "out"
    told = run("batch", weeks, *small, "--out", out)
    assert told.code == 0, told.err
    assert "2 scenarios answered, all proven best." in told.out
    assert re.search(r"Week 1 .* EUR \d", told.out)
    assert "answers.csv, answers.html, and 2 folders of results" in told.out
    for name in ("week-01", "week-02"):
        assert {path.name for path in (out / name).iterdir()} == RESULTS
    again = run("batch", weeks, *small, "--out", out)
    assert "2 scenarios had been answered by an earlier run." in again.out
    table = (out / "answers.csv").read_bytes()
    run("batch", weeks, *small, "--out", out, "--spreadsheet", "semicolon")
    other = (out / "answers.csv").read_bytes()
    assert other.startswith(b"\xef\xbb\xbftitle;coverage;cost")
    assert table.startswith(b"title,coverage,cost")


def test_its_files_are_those_of_shop(
    run: Run, weeks: Path, small: Sequence[str], tmp_path: Path
) -> None:
    run("batch", weeks, *small, "--out", tmp_path / "batch")
    run("shop", weeks / "week-02.toml", *small, "--out", tmp_path / "shop")
    for name in RESULTS - {"plan.json"}:  # which tells how many seconds the proof took
        here = (tmp_path / "batch" / "week-02" / name).read_bytes()
        assert here == (tmp_path / "shop" / name).read_bytes()


def test_a_fault_is_told_last_and_ends_in_two(
    run: Run, weeks: Path, small: Sequence[str], tmp_path: Path
) -> None:
    (weeks / "week-01.toml").write_text("budget = = 3", encoding="utf-8")
    told = run("batch", weeks, *small, "--out", tmp_path / "out")
    assert told.code == 2
    assert told.err.startswith("week-01.toml: is not TOML")
    assert "1 scenario answered, proven best, 1 could not be answered." in told.out
    assert not (tmp_path / "out" / "week-01").exists()
    assert (tmp_path / "out" / "week-02" / "plan.json").exists()


def test_options_of_the_one_are_refused_for_the_other(
    run: Run, weeks: Path, small: Sequence[str]
) -> None:
    told = run("batch", weeks, *small, "--budget", 5, "--counts", "week-01=2")
    assert told.code == 2
    assert told.err.splitlines() == [
        "--budget: is for one set of tubes alone; give --one-set as well, or leave it out.",
        "--counts: is for one set of tubes alone; give --one-set as well, or leave it out.",
    ]
    told = run("batch", weeks, *small, "--one-set", "--again")
    assert told.code == 2
    assert told.err.startswith("--again: is for an answer to each scenario;")


def test_one_set_for_all(run: Run, weeks: Path, small: Sequence[str], tmp_path: Path) -> None:
    out = tmp_path / "out"
    told = run("batch", weeks, *small, "--one-set", "--budget", 9, "--out", out)
    assert told.code == 0, told.err
    assert "One set of tubes for 2 scenarios, each counts the same; at most EUR 9.00." in told.out
    assert "Best on average" in told.out
    assert "Best where it serves worst" in told.out
    assert "Proven best: no set within the money covers more on average" in told.out
    assert {path.name for path in out.iterdir()} == {"one-set.csv", "one-set-served.csv"}


@pytest.mark.parametrize(
    ("given", "told"),
    [
        (("--counts", "week-01"), "--counts: is 'week-01'; give a scenario's name, = and a number"),
        (("--counts", "week-9=2"), "--counts: there is no scenario 'week-9'. Did you mean"),
        (("--counts", "week-01=0"), "--counts: of 'week-01' is '0'; it must be above 0"),
        (("--counts", "week-01=x"), "--counts: of 'week-01' is 'x', which is not a plain number"),
        (("--counts", "week-01=1", "--counts", "week-01.toml=2"), "--counts: is given twice"),
        (("--budget", "0"), "--budget: is '0'; it must be above 0"),
    ],
)
def test_bad_counts_and_budgets_are_told(
    given: Sequence[str], told: str, run: Run, weeks: Path, small: Sequence[str]
) -> None:
    found = run("batch", weeks, *small, "--one-set", *given)
    assert found.code == 2
    assert told in found.err


def test_one_set_needs_sound_scenarios(run: Run, weeks: Path, small: Sequence[str]) -> None:
    (weeks / "week-01.toml").write_text("budget = = 3", encoding="utf-8")
    found = run("batch", weeks, *small, "--one-set")
    assert found.code == 2
    assert found.err.startswith("week-01.toml: is not TOML")


MANY = 40


@pytest.mark.skipif(not Path("/proc/self/task").exists(), reason="asks Linux for processes")
@pytest.mark.parametrize("number", [signal.SIGKILL, signal.SIGINT])
def test_broken_off_it_leaves_whole_results_and_goes_on(
    number: int, small: Sequence[str], tmp_path: Path, cache_folder: Path
) -> None:
    folder, out = written(tmp_path / "weeks", MANY), tmp_path / "out"
    command = [sys.executable, "-m", "fewtubes", "batch", str(folder), *small, "--out", str(out)]
    with subprocess.Popen(  # noqa: S603  # this very interpreter
        command,
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
        env={**os.environ, "FEWTUBES_CACHE": str(cache_folder)},
        preexec_fn=lambda: signal.signal(signal.SIGINT, signal.default_int_handler),  # noqa: PLW1509
    ) as process:
        end = time.monotonic() + 120
        while len(records(out)) < 3 and process.poll() is None:
            assert time.monotonic() < end
            time.sleep(0.01)
        workers = children(process.pid)
        process.send_signal(number)
        _, err = process.communicate(timeout=60)
    before = records(out)
    assert before
    for name, record in before.items():
        # A journal that a kill left is settled by the next run (`fewtubes.files`).
        whole = {path.name: digest(path) for path in (out / name).glob("[!.]*")}
        assert whole == record["files"]
        assert set(whole) == RESULTS
    if number == signal.SIGINT and process.returncode:
        assert (process.returncode, err) == (
            130,
            f"stopped; what was done is in '{out}', and the same command goes on from there\n",
        )
    end = time.monotonic() + 20
    while any(Path(f"/proc/{worker}/exe").exists() for worker in workers):
        assert time.monotonic() < end, "processes outlive the one that started them"
        time.sleep(0.1)
    told = subprocess.run(command, capture_output=True, text=True, check=True)  # noqa: S603
    assert f"{MANY} scenarios answered, all proven best." in " ".join(told.stdout.split())
    assert "had been answered by an earlier run" in told.stdout
    after = records(out)
    assert len(after) == MANY
    assert {name: after[name] for name in before} == before


def test_stopped_before_any_answer_it_claims_none(
    small: Sequence[str], tmp_path: Path, run: Run, monkeypatch: pytest.MonkeyPatch
) -> None:
    def stopped(*_args: object, **_options: object) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr("fewtubes.term.run.answer_all", stopped)
    folder, out = written(tmp_path / "weeks", 1), tmp_path / "out"
    told = run("batch", folder, *small, "--out", out)
    assert (told.code, told.err) == (130, "stopped; no scenario was answered yet\n")
    out.mkdir()
    again = run("batch", folder, *small, "--out", out)
    assert again.err.startswith(f"stopped; what was done is in '{out}'")


def records(out: Path) -> dict[str, Any]:
    """Return what is told to be done, by name."""
    found = (out / ".done").glob("[!.]*.json")
    return {path.stem: json.loads(path.read_text(encoding="utf-8")) for path in found}


def digest(path: Path) -> str:
    return sha256(path.read_bytes()).hexdigest()


def children(process: int) -> list[int]:
    """Return the processes that one has started, as Linux tells it; none if it is gone."""
    try:
        folder = Path(f"/proc/{process}/task/{process}/children")
        return [int(number) for number in folder.read_text(encoding="ascii").split()]
    except OSError:
        return []
