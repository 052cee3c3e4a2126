"""One piece of long work as the page sees it: started, followed, stopped."""

import threading
import time
from collections.abc import Iterator
from contextlib import contextmanager
from enum import StrEnum
from multiprocessing.connection import Connection

from fewtubes.page.drawn_answer import Answer
from fewtubes.page.processes import begun, ended
from fewtubes.page.worker import GO_ON, Compared, Ended, Found, Progress, Reported, Task, Told, work

__all__ = ["Job", "State", "start"]

TURNS = threading.BoundedSemaphore(1)
"""Comparisons at a time: they are not waited for, and each is proven sooner if it is alone."""

LOOK_SECONDS = 0.2
"""Between two looks whether a process that waits for its turn is still there [s]."""

GRACE = 2.0
"""Time for the last that it told to be taken, once it is gone [s]."""


class State(StrEnum):
    """How far the work is."""

    RUNNING = "running"
    DONE = "done"
    FAILED = "failed"
    STOPPED = "stopped"


class Job:
    """Work in a process of its own; a thread takes what it tells."""

    def __init__(self, task: Task) -> None:
        self.state = State.RUNNING
        self.stages: list[str] = ["getting ready"]
        self.sentence = ""
        """Why there is no answer."""
        self.answer: Answer | None = None
        self.costs: str | None = None
        """Markup of coverage against cost, some time after the answer."""
        self.report: str | None = None
        """The illustrated report; first without coverage against cost, then with it."""
        self.ended = threading.Event()
        """Set when nothing more will come."""
        self._begun = time.monotonic()
        self._lock = threading.Lock()
        self._process, connection = begun(work, task)
        threading.Thread(target=self._listen, args=(connection,), daemon=True).start()

    @property
    def seconds(self) -> float:
        """Time since the start [s]."""
        return time.monotonic() - self._begun

    @property
    def process_id(self) -> int | None:
        """Number of the process."""
        return self._process.pid

    def stop(self) -> None:
        """Stop the work if it is still going on; returns when its process is gone."""
        with self._lock:
            if self.state is State.RUNNING:
                self.state = State.STOPPED
        ended(self._process)
        self.ended.wait(GRACE)

    def _listen(self, connection: Connection) -> None:
        """Take everything that is told until the process is gone; let it compare in its turn."""
        with connection:
            try:
                while self.report is None:
                    self._take(connection.recv())
                with self._turn():
                    connection.send(GO_ON)
                    while True:
                        self._take(connection.recv())
            except (EOFError, OSError):
                pass
        self._process.join()
        with self._lock:
            if self.state is State.RUNNING:
                self.state = State.FAILED
                self.sentence = "The work broke off without an answer; try again."
        self.ended.set()

    @contextmanager
    def _turn(self) -> Iterator[None]:
        """Wait until no other work compares, or until the process is gone."""
        while not TURNS.acquire(timeout=LOOK_SECONDS):
            if not self._process.is_alive():
                raise EOFError
        try:
            yield
        finally:
            TURNS.release()

    def _take(self, message: Told) -> None:
        with self._lock:
            if self.state is State.STOPPED:
                return
            match message:
                case Progress():
                    self.stages.append(message.words)
                case Found():
                    self.answer, self.state = message.answer, State.DONE
                case Compared():
                    self.costs, self.report = message.markup, message.page
                case Reported():
                    self.report = message.page
                case Ended() if self.answer is None:
                    self.sentence, self.state = message.sentence, State.FAILED


def start(task: Task) -> Job:
    """Begin work on a task in a process of its own."""
    return Job(task)
