"""How much memory there is for mixing, and the refusal if that is not enough."""

import os
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from dataclasses import dataclass
from pathlib import Path

from fewtubes.errors import LimitError
from fewtubes.workers import worker_count

__all__ = ["Room", "memory_told", "room_for_libraries"]

SHARE = 0.8
"""Share of what is free that may be taken; the rest is for all that is not counted."""

UNKNOWN = 2 * 2**30
"""What is taken to be there where the system does not tell [bytes]."""

GIBIBYTE = 2**30

LIBRARIES = 256 * 2**20
"""Address space that the largest library takes when it is loaded, measured as 250 MiB [bytes]."""

LIBRARIES_CORE = 48 * 2**20
"""And for each core: its linear algebra sets aside 40 MiB for a thread [bytes]."""

NO_THREAD = "can't start new thread"
"""What Python says if there is no memory for another thread's stack."""

ADVICE = "Mix fewer tubes or for fewer colours, or close other programs"


@dataclass(frozen=True)
class Room:
    """Memory that mixing a number of tubes may take [bytes]."""

    tube_count: int
    size: int

    @classmethod
    def now(cls, tube_count: int) -> "Room":
        """Return what this process may still take, as far as the system tells."""
        told = (_available(), _in_container(), _in_process())
        least = min((size for size in told if size is not None), default=UNKNOWN)
        return cls(tube_count, int(SHARE * least))

    def refuse(self, needed: int) -> None:
        """Raise `LimitError` if more is needed than there is [bytes]."""
        if needed > self.size:
            raise LimitError(
                f"Mixing {self.tube_count:,} tubes for so many colours takes"
                f" {needed / GIBIBYTE:.2g} GiB of memory or more, and {self.size / GIBIBYTE:.2g}"
                f" GiB are free for it. {ADVICE}."
            )

    def workers(self, each: int) -> int:
        """Return how many workers to start that take so much each [bytes], at least 1.

        One for each processor, as long as half of the room is left to what they find; this process
        takes as much as one of them.
        """
        return max(1, min(worker_count(), self.size // (2 * each) - 1))


def room_for_libraries() -> None:
    """Raise `MemoryError` if address space would run out while colour-science is loaded.

    What it brings along then tries for ever, or ends in errors that tell of something else.
    """
    free = _in_process()
    if free is not None and free < LIBRARIES + LIBRARIES_CORE * (os.cpu_count() or 1):
        raise MemoryError


@contextmanager
def memory_told(tube_count: int) -> Iterator[None]:
    """Turn a lack of memory into a `LimitError`."""
    try:
        yield
    except (MemoryError, RuntimeError) as error:
        if not isinstance(error, MemoryError) and NO_THREAD not in str(error):
            raise
        raise LimitError(
            f"There is too little memory to mix {tube_count:,} tubes. {ADVICE}."
        ) from error


def _available() -> int | None:
    """Return the memory that the machine can give [bytes]; that of the machine if not told."""
    with suppress(OSError, ValueError, IndexError):
        for line in Path("/proc/meminfo").read_text(encoding="ascii").splitlines():
            if line.startswith("MemAvailable:"):
                return 1024 * int(line.split()[1])
    with suppress(OSError, ValueError, AttributeError):
        return os.sysconf("SC_PHYS_PAGES") * os.sysconf("SC_PAGE_SIZE")
    return None


def _in_container() -> int | None:
    """Return what the control group of the process has left [bytes] (Linux, cgroup v2)."""
    with suppress(OSError, ValueError):
        group = Path("/sys/fs/cgroup")
        most = int((group / "memory.max").read_text(encoding="ascii"))
        return most - int((group / "memory.current").read_text(encoding="ascii"))
    return None


def _in_process() -> int | None:
    """Return what the limit on address space (ulimit -v) leaves [bytes]; None without one."""
    try:
        import resource  # POSIX only
    except ImportError:
        return None
    limit, _ = resource.getrlimit(resource.RLIMIT_AS)
    if limit == resource.RLIM_INFINITY:
        return None
    taken = 0
    with suppress(OSError, ValueError, IndexError):
        pages = int(Path("/proc/self/statm").read_text(encoding="ascii").split()[0])
        taken = pages * resource.getpagesize()
    return max(0, limit - taken)
