"""What is said about memory before and when it runs out."""

import subprocess
import sys

import pytest

from fewtubes.errors import LimitError
from fewtubes.mixing.room import Room, memory_told

MEBIBYTE = 2**20

LITTLE = """
import resource
import numpy, fewtubes.mixing.room as room
taken = int(open("/proc/self/statm").read().split()[0]) * resource.getpagesize()
resource.setrlimit(resource.RLIMIT_AS, (taken + 100 * 2**20,) * 2)
print(room.Room.now(72).size // 2**20)
try:
    with room.memory_told(72):
        numpy.ones(2**40)
except room.LimitError as error:
    print(error)
"""


def test_more_than_there_is_is_refused_with_both_figures() -> None:
    room = Room(240, 3 * 2**30)
    room.refuse(3 * 2**30)
    with pytest.raises(LimitError, match=r"240 tubes .* takes 4 GiB .* and 3 GiB are free"):
        room.refuse(4 * 2**30)


@pytest.mark.parametrize(
    ("processors", "gibibytes", "workers"),
    [
        (2, 8.0, 2),  # as many as there are processors
        (64, 8.0, 15),  # half of 8 GiB holds 16 times a quarter: 15 beside this process
        (64, 1.0, 1),  # half holds 2
        (64, 0.1, 1),  # less than one needs, which is refused elsewhere
    ],
)
def test_more_processors_start_no_more_workers_than_there_is_memory_for(
    monkeypatch: pytest.MonkeyPatch, processors: int, gibibytes: float, workers: int
) -> None:
    monkeypatch.setattr("fewtubes.mixing.room.worker_count", lambda: processors)
    assert Room(240, int(gibibytes * 2**30)).workers(2**28) == workers


def test_there_is_some() -> None:
    assert Room.now(72).size > 50 * MEBIBYTE


@pytest.mark.skipif(sys.platform != "linux", reason="reads /proc")
def test_a_limit_on_the_process_counts_and_is_told_when_it_is_hit() -> None:
    """A hundred mebibytes are left, of which four fifths may be taken."""
    done = subprocess.run(  # noqa: S603  # our own script
        [sys.executable, "-c", LITTLE], capture_output=True, text=True, check=True, timeout=60
    )
    size, sentence = done.stdout.splitlines()
    assert 70 <= int(size) <= 80
    assert sentence.startswith("There is too little memory to mix 72 tubes.")


def test_other_errors_are_left_alone() -> None:
    with pytest.raises(RuntimeError, match="else"), memory_told(3):
        raise RuntimeError("something else")
    with pytest.raises(LimitError), memory_told(3):
        raise RuntimeError("can't start new thread")
