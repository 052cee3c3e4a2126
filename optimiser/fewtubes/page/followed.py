"""Work in a process of its own that tells how far it is and then one outcome."""

import threading
import time
from abc import ABC, abstractmethod
from collections.abc import Callable
from multiprocessing.connection import Connection
from typing import Any

from fewtubes.page.job import State
from fewtubes.page.processes import begun, ended
from fewtubes.page.worker import Progress

__all__ = ["Followed", "progress_of"]


class Followed(ABC):
    """The work as the page sees it; a thread takes what it tells.

    What is taken has its fields set before this begins.

    Parameters
    ----------
    work
        A function of a module, which tells what it has to say over a connection.
    task
        What it is given.
    broken_off
        The outcome if its process ends without one.
    """

    def __init__(
        self, work: Callable[[Any, Connection], None], task: object, *, broken_off: object
    ) -> None:
        self.state = State.RUNNING
        self.stages: list[str] = ["getting ready"]
        self.ended = threading.Event()
        """Set when nothing more will come."""
        self._broken_off = broken_off
        self._begun = time.monotonic()
        self._lock = threading.Lock()
        self._process, connection = begun(work, task)
        threading.Thread(target=self._listen, args=(connection,), daemon=True).start()

    @property
    def seconds(self) -> float:
        """Time since the start [s]."""
        return time.monotonic() - self._begun

    def stop(self) -> None:
        """Stop the work if it is still going on; returns when its process is gone."""
        with self._lock:
            if self.state is State.RUNNING:
                self.state = State.STOPPED
        ended(self._process)

    @abstractmethod
    def _end(self, outcome: Any) -> State:
        """Keep an outcome and return how the work ended."""

    def _listen(self, connection: Connection) -> None:
        """Take everything that is told until the process is gone."""
        with connection:
            try:
                while True:
                    self._take(connection.recv())
            except (EOFError, OSError):
                pass
        self._process.join()
        self._take(self._broken_off)
        self.ended.set()

    def _take(self, message: object) -> None:
        with self._lock:
            if self.state is not State.RUNNING:
                return
            if isinstance(message, Progress):
                self.stages.append(message.words)
            else:
                self.state = self._end(message)


def progress_of(job: Followed | None) -> dict[str, object]:
    """Return how far work is, as the script takes it; what was taken already is done."""
    if job is None:
        return {"state": State.DONE}
    return {"state": job.state, "stages": [*job.stages], "seconds": round(job.seconds)}
