"""Scenarios answered side by side, on all processors of this machine (joblib).

The processes are deaf to the keyboard, which their parent alone hears, and end with it, however
that ends. One that dies, mostly for lack of memory, takes only the scenario with it that it was at.
"""

import os
import threading
import time
import warnings
from collections.abc import Generator, Iterator, Sequence
from contextlib import contextmanager

from fewtubes.coverage.carried import CarriedCache
from fewtubes.coverage.side_by_side import deaf, processes_can_start
from fewtubes.errors import Fault
from fewtubes.mixing.room import Room
from fewtubes.term.answering import TOO_LITTLE_MEMORY, Answer, Settings, answer
from fewtubes.term.asked import Asked
from fewtubes.term.findings import BatchRow
from fewtubes.workers import worker_count

__all__ = ["Job", "answers_here"]

_watching: list[threading.Thread] = []
"""In a working process: what ends it with its parent."""

Job = tuple[Asked, CarriedCache]
"""A scenario without fault, and what was mixed for it."""

WORKER_BYTES = 400 * 2**20
"""What a working process takes, roughly [bytes]: 234 MiB were measured with 72 tubes."""

LOOKS_EVERY = 1.0
"""How often a process looks whether its parent is still there [s]."""

ENDED = "The process that worked on it came to a sudden end, mostly for lack of memory."


def answers_here(jobs: Sequence[Job], settings: Settings) -> Iterator[tuple[int, Answer]]:
    """Yield the answer to each job with its place, as they come."""
    left = dict(enumerate(jobs))
    workers = min(len(jobs), worker_count(), Room.now(0).size // WORKER_BYTES)
    if workers <= 1 or not processes_can_start():
        for place, (asked, mixed) in left.items():
            yield place, answer(asked, mixed, settings)
        return
    try:
        for place, found in _side_by_side(left, settings, workers):
            del left[place]
            yield place, found
    except _worker_died():
        for place, job in left.items():
            yield place, _apart(job, settings)


def _side_by_side(
    jobs: dict[int, Job], settings: Settings, workers: int
) -> Iterator[tuple[int, Answer]]:
    """Yield the answers to all jobs, as they come."""
    from joblib import Parallel, delayed

    todo = list(jobs.items())
    parallel = Parallel(workers, backend="loky", return_as="generator_unordered", batch_size=1)
    with parallel:
        with deaf():
            list(parallel(delayed(_ready)() for _ in range(workers)))  # starts all of them
        parent = os.getpid()
        answers = parallel(delayed(_numbered)(parent, *job, settings) for job in todo)
        try:
            while (found := _next_of(answers)) is not None:
                yield found
        finally:
            with _untold():
                answers.close()


def _next_of(answers: Generator[tuple[int, Answer], None, None]) -> tuple[int, Answer] | None:
    """Return the next answer; None if there is none left."""
    with _untold():
        return next(answers, None)


@contextmanager
def _untold() -> Iterator[None]:
    """Keep joblib from telling that work was dropped: it is told elsewhere, in one sentence."""
    with warnings.catch_warnings():
        warnings.filterwarnings("ignore", category=UserWarning, module="joblib")
        yield


def _apart(job: Job, settings: Settings) -> Answer:
    """Return the answer to one job from a process of its own, which may die of it."""
    try:
        ((_, found),) = _side_by_side({0: job}, settings, 2)
    except _worker_died():
        asked = job[0]
        fault = Fault(asked.file, f"{ENDED} {TOO_LITTLE_MEMORY}")
        return Answer(BatchRow(asked.name, asked.file, asked.title, (fault,)))
    return found


def _ready() -> None:
    """Do nothing, once the process is ready."""


def _numbered(parent: int, place: int, job: Job, settings: Settings) -> tuple[int, Answer]:
    """Return a job's place and its answer, in a working process."""
    if not _watching:
        _watching.append(threading.Thread(target=_end_with, args=(parent,), daemon=True))
        _watching[0].start()
    return place, answer(*job, settings)


def _worker_died() -> type[Exception]:
    """Return what is raised when a process came to a sudden end."""
    from joblib.externals.loky.process_executor import BrokenProcessPool

    broken: type[Exception] = BrokenProcessPool
    return broken


def _end_with(parent: int) -> None:
    """End this process when the one that started it is gone."""
    while os.getppid() == parent:
        time.sleep(LOOKS_EVERY)
    os._exit(1)
