"""How many workers a machine keeps busy."""

import os

__all__ = ["MOST_THREADS", "MOST_WORKERS", "thread_count", "worker_count"]

MOST_WORKERS = 60
"""No more are started on any machine: Windows waits for 63 handles at once, of which the standard
library's pool of processes leaves 61 to them (`concurrent.futures`)."""

MOST_THREADS = 2
"""Threads that mix side by side in one process. They wait for each other wherever numpy is not at
work: two took 0.85 to 1.0 of the time of one, four 1.05 to 1.1, eight 1.2 (two cores, 72 tubes)."""


def worker_count() -> int:
    """Return how many processors this process may use, at least 1 and at most `MOST_WORKERS`.

    What was allowed to the process counts (`os.process_cpu_count` from Python 3.13 on, else its
    affinity), where the system tells it; else what the machine has.
    """
    allowed = getattr(os, "process_cpu_count", None)
    if allowed is not None:
        count = allowed()
    elif hasattr(os, "sched_getaffinity"):
        count = len(os.sched_getaffinity(0))
    else:
        count = os.cpu_count()
    return max(1, min(count or 1, MOST_WORKERS))


def thread_count() -> int:
    """Return how many threads to mix with in one process, 1 or 2."""
    return min(MOST_THREADS, worker_count())
