"""A set that is cut off at any step is old or new, or a mixture that tells of itself.

Killed at every step, so that nothing of the program runs any more; and signalled at every step by
the signals that the program holds.
"""

import json
import os
import runpy
import signal
import subprocess
import sys
from hashlib import sha256
from pathlib import Path

import pytest

from fewtubes.files.settling import Settled
from fewtubes.files.writing import write_together

pytestmark = pytest.mark.skipif(not hasattr(signal, "SIGKILL"), reason="no such signals there")

SCRIPT = Path(__file__).with_name("cut_off.py")

SETS = runpy.run_path(str(SCRIPT))["SETS"]


@pytest.fixture(autouse=True)
def quick_disk(monkeypatch: pytest.MonkeyPatch) -> None:
    """Leave out flushing to the disk, which takes its time and which a kill does not need."""
    monkeypatch.setattr(os, "fsync", lambda _handle: None)


Held = dict[str, dict[str, str]]
"""Content by folder and name."""


def cut_off(place: Path, *arguments: object) -> dict[str, int]:
    """Run the program of its own; return how the last child of each step ended."""
    told = subprocess.run(  # noqa: S603  # this very interpreter
        [sys.executable, SCRIPT, place, *map(str, arguments)],
        capture_output=True,
        text=True,
        check=True,
    )
    return {line.split()[0]: int(line.split()[1]) for line in told.stdout.splitlines()}


def visible(place: Path) -> Held:
    """Return what a reader sees."""
    return {
        folder.name: {
            path.name: path.read_text(encoding="utf-8")
            for path in folder.iterdir()
            if not path.name.startswith(".")
        }
        for folder in place.iterdir()
    }


def hidden(place: Path) -> list[Path]:
    return [path for path in place.rglob(".*") if path.is_file()]


def is_told(out: dict[str, str]) -> bool:
    """Whether `plan.json` tells that a file beside it is of another run, as the README has it."""
    named: dict[str, str] = json.loads(out["plan.json"])["fellow_files_sha256"]
    return any(sha256(out[name].encode()).hexdigest() != told for name, told in named.items())


def without_why(seen: Held) -> Held:
    """Leave out what only the run afterwards wrote."""
    return {
        folder: {name: text for name, text in files.items() if not name.startswith("why")}
        for folder, files in seen.items()
    }


def check_killed(place: Path, *, afterwards: str) -> tuple[bool, bool]:
    """Check what a killed run left, and what the next run makes of it.

    Returns
    -------
    Whether the set was a mixture, and whether it is new in the end.
    """
    seen = without_why(visible(place))
    mixed = seen not in (SETS["old"], SETS["new"])
    out_mixed = seen["out"] not in (SETS["old"]["out"], SETS["new"]["out"])
    assert is_told(seen["out"]) == out_mixed
    settled: dict[Path, Settled] = {}
    write_together(
        {place / folder: files for folder, files in SETS[afterwards].items()},
        settled=settled.__setitem__,
    )
    after = visible(place)
    assert without_why(after) in (SETS["old"], SETS["new"])
    for folder, files in SETS[afterwards].items():
        assert files.items() <= after[folder].items()
        assert hidden(place / folder) == []
    assert mixed == bool(settled)
    # Only if the run was killed at its first or last step may a file lie in the other folder alone.
    write_together({place / folder: files for folder, files in SETS["why"].items()})
    assert without_why(visible(place)) == without_why(after)
    assert hidden(place) == []
    return mixed, without_why(after) == SETS["new"]


@pytest.mark.parametrize("when", ["before", "after"])
@pytest.mark.parametrize("afterwards", ["other", "other picture"])
def test_killed_at_any_step(tmp_path: Path, when: str, afterwards: str) -> None:
    """Whichever of the two folders the next run writes to, both are settled."""
    ended = cut_off(tmp_path, signal.SIGKILL, when, "new")
    *killed, last = ended.values()
    assert set(killed) == {signal.SIGKILL}
    assert last == 0
    steps = list(ended)[:-1]
    outcomes = [check_killed(tmp_path / step, afterwards=afterwards) for step in steps]
    assert sum(mixed for mixed, _ in outcomes) >= len(SETS["new"]["out"])
    became_new = [new for _, new in outcomes]
    assert became_new == sorted(became_new)  # up to some step old, from there on new
    assert set(became_new) == {False, True}


@pytest.mark.parametrize("when", ["before", "after"])
def test_killed_while_settling_what_was_killed(tmp_path: Path, when: str) -> None:
    """Every step of the next run after every step of the first that leaves a mixture."""
    ended = cut_off(tmp_path, signal.SIGKILL, when, "new", signal.SIGKILL, "other")
    assert len(ended) > 30
    for step in ended:
        check_killed(tmp_path / step, afterwards="other picture")


@pytest.mark.parametrize("when", ["before", "after"])
@pytest.mark.parametrize("number", [signal.SIGTERM, signal.SIGHUP, signal.SIGINT])
def test_signalled_at_any_step(tmp_path: Path, when: str, number: signal.Signals) -> None:
    ended = cut_off(tmp_path, number, when, "new")
    steps = list(ended)[:-1]
    by_signal = 130 << 8 if number is signal.SIGINT else int(number)  # as waitpid(2) tells it
    assert [ended[step] for step in steps] == [by_signal] * len(steps)
    finished = []
    for step in steps:
        place = tmp_path / step
        told = place.with_name(f"{step}.written").exists()
        assert visible(place) == SETS["new" if told else "old"]
        assert hidden(place) == []
        finished.append(told)
    assert finished == sorted(finished)
    assert set(finished) == {False, True}
