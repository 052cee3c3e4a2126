"""Work in threads and in processes gives the same; processes that cannot start do no harm."""

import operator
import os
import signal
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from fewtubes.coverage.side_by_side import AHEAD, in_processes, in_threads

SCRIPT = """
import operator
import fewtubes.coverage.side_by_side as side_by_side

def never(*_):
    raise AssertionError("the work was not done in processes")

if __name__ == "__main__":
    side_by_side.in_threads = never
    assert side_by_side.processes_can_start()
    print(list(side_by_side.in_processes(operator.add, 10, list(range(40)), workers=2)))
"""

UNGUARDED = """
import operator
from fewtubes.coverage.side_by_side import in_processes
print(list(in_processes(operator.add, 10, [1, 2], workers=2)))
"""


DYING = """
import os
from fewtubes.coverage.side_by_side import in_processes

if os.getppid() != PARENT:
    os._exit(3)

def length(shared, chunk):
    return len(shared) + chunk

print(list(in_processes(length, bytes(10**7), [1, 2], workers=2)))
"""

DEAF = """
import signal
from fewtubes.coverage.side_by_side import in_processes

def heard(_shared, _chunk):
    return signal.SIGINT in signal.pthread_sigmask(signal.SIG_BLOCK, set())

if __name__ == "__main__":
    print(list(in_processes(heard, None, [1, 2, 3], workers=2)))
    print(signal.SIGINT in signal.pthread_sigmask(signal.SIG_BLOCK, set()))
"""


def run(script: str, folder: Path) -> str:
    path = folder / "script.py"
    path.write_text(script, encoding="utf-8")
    done = subprocess.run(  # noqa: S603  # our own script
        [sys.executable, str(path)], capture_output=True, text=True, check=True, timeout=120
    )
    return done.stdout.strip()


@pytest.mark.parametrize("workers", [1, 2, 4])
def test_threads_keep_the_order(workers: int) -> None:
    assert list(in_threads(operator.add, 10, range(40), workers=workers)) == list(range(10, 50))


@pytest.mark.parametrize("workers", [1, 2, 4])
def test_processes_keep_the_order(tmp_path: Path, workers: int) -> None:
    script = SCRIPT.replace("workers=2", f"workers={workers}")
    assert run(script, tmp_path) == str(list(range(10, 50)))


def test_script_that_processes_cannot_read_again_is_done_in_threads(tmp_path: Path) -> None:
    """A script without a guard for its main part cannot start processes."""
    assert run(UNGUARDED, tmp_path).splitlines()[-1] == "[11, 12]"


def test_processes_that_die_before_they_take_what_they_share_are_not_waited_for(
    tmp_path: Path,
) -> None:
    """Much more is to be handed over than a pipe holds (64 KiB, pipe(7))."""
    script = DYING.replace("PARENT", str(os.getpid()))
    assert run(script, tmp_path) == "[10000001, 10000002]"


def test_error_of_the_work_is_told() -> None:
    with pytest.raises(TypeError):
        list(in_threads(operator.add, 10, ["no number"], workers=2))
    with pytest.raises(TypeError):
        list(in_processes(operator.add, 10, ["no number"], workers=2))


def test_chunks_are_taken_only_as_they_are_needed() -> None:
    taken = []

    def chunks() -> Iterator[int]:
        for number in range(1000):
            taken.append(number)
            yield number

    results = in_threads(operator.add, 10, chunks(), workers=2)
    assert next(results) == 10
    assert len(taken) <= 2 * AHEAD
    results.close()
    assert len(taken) <= 2 * AHEAD


@pytest.mark.skipif(not hasattr(signal, "pthread_sigmask"), reason="POSIX only")
def test_processes_never_hear_of_an_interrupt(tmp_path: Path) -> None:
    """Not even before they could be told to leave it to their parent, who still hears of it."""
    assert run(DEAF, tmp_path).splitlines() == ["[True, True, True]", "False"]


LONG = """
import multiprocessing
import time
import fewtubes.coverage.side_by_side as side_by_side

def slow(folder, chunk):
    import os, pathlib
    (pathlib.Path(folder) / str(os.getpid())).touch()
    time.sleep(chunk)

if __name__ == "__main__":
    import sys
    list(side_by_side.in_processes(slow, sys.argv[1], [0.05] * 2000, workers=3))
"""


def is_running(process: int) -> bool:
    """Whether a process is there and not only waiting to be noticed as ended."""
    try:
        state = (
            Path(f"/proc/{process}/stat").read_text(encoding="ascii").rsplit(")", 1)[1].split()[0]
        )
    except (FileNotFoundError, ProcessLookupError):
        return False
    return state not in "ZX"


@pytest.mark.skipif(not Path("/proc/self/stat").exists(), reason="processes are told by Linux")
@pytest.mark.parametrize("number", [signal.SIGTERM, signal.SIGHUP, signal.SIGKILL])
def test_processes_end_with_their_parent(tmp_path: Path, number: signal.Signals) -> None:
    """However it ends; told to, it ends them itself and does not leave with a warning."""
    script, ids = tmp_path / "script.py", tmp_path / "ids"
    script.write_text(LONG, encoding="utf-8")
    ids.mkdir()
    with subprocess.Popen(  # noqa: S603  # our own script
        [sys.executable, script, ids], stderr=subprocess.PIPE, text=True
    ) as parent:
        wait_until(lambda: len(list(ids.iterdir())) == 3)
        parent.send_signal(number)
        _, told = parent.communicate(timeout=60)
    workers = [int(path.name) for path in ids.iterdir()]
    wait_until(lambda: not any(map(is_running, workers)))
    if number is not signal.SIGKILL:
        assert told.splitlines()[-1].endswith(f"Stopped: {int(number)}")  # as it was raised
        assert "leaked" not in told


def wait_until(true: Callable[[], bool]) -> None:
    """Wait for a minute at most."""
    until = time.monotonic() + 60
    while not true():
        assert time.monotonic() < until, "it did not come true"
        time.sleep(0.02)
