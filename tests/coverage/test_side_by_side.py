"""Work in threads and in processes gives the same; processes that cannot start do no harm."""

import operator
import subprocess
import sys
from pathlib import Path

import pytest

from fewtubes.coverage.side_by_side import in_processes, in_threads

SCRIPT = """
import operator
import fewtubes.coverage.side_by_side as side_by_side

def never(*_):
    raise AssertionError("the work was not done in processes")

if __name__ == "__main__":
    side_by_side.in_threads = never
    assert side_by_side.processes_can_start()
    print(list(side_by_side.in_processes(operator.add, 10, list(range(40)))))
"""

UNGUARDED = """
import operator
from fewtubes.coverage.side_by_side import in_processes
print(list(in_processes(operator.add, 10, [1, 2])))
"""


def run(script: str, folder: Path) -> str:
    path = folder / "script.py"
    path.write_text(script, encoding="utf-8")
    done = subprocess.run(  # noqa: S603  # our own script
        [sys.executable, str(path)], capture_output=True, text=True, check=True, timeout=120
    )
    return done.stdout.strip()


def test_threads_keep_the_order() -> None:
    assert list(in_threads(operator.add, 10, range(40))) == list(range(10, 50))


def test_processes_keep_the_order(tmp_path: Path) -> None:
    assert run(SCRIPT, tmp_path) == str(list(range(10, 50)))


def test_script_that_processes_cannot_read_again_is_done_in_threads(tmp_path: Path) -> None:
    """A script without a guard for its main part cannot start processes."""
    assert run(UNGUARDED, tmp_path).splitlines()[-1] == "[11, 12]"


def test_error_of_the_work_is_told() -> None:
    with pytest.raises(TypeError):
        list(in_threads(operator.add, 10, ["no number"]))
    with pytest.raises(TypeError):
        list(in_processes(operator.add, 10, ["no number"]))
