"""One question beside the choice of tubes as the page sees it: asked, followed, stopped."""

import threading
import time
from multiprocessing.connection import Connection

from fewtubes.page.aside_task import AsideFound, AsideTask, AsideTold, Found
from fewtubes.page.aside_work import aside_work
from fewtubes.page.job import State
from fewtubes.page.processes import begun, ended
from fewtubes.page.worker import Ended, Progress

__all__ = ["AsideJob", "start_aside"]

BROKEN_OFF = Ended("The work broke off without an answer; try again.")


class AsideJob:
    """The work in a process of its own; a thread takes what it tells."""

    def __init__(self, task: AsideTask) -> None:
        self.place = task.asked.place
        self.state = State.RUNNING
        self.stages: list[str] = ["getting ready"]
        self.found: Found | None = None
        self.sentence = ""
        """Why there is no answer."""
        self._begun = time.monotonic()
        self._lock = threading.Lock()
        self._process, connection = begun(aside_work, task)
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

    def _listen(self, connection: Connection) -> None:
        """Take everything that is told until the process is gone."""
        with connection:
            try:
                while True:
                    self._take(connection.recv())
            except (EOFError, OSError):
                pass
        self._process.join()
        self._take(BROKEN_OFF)

    def _take(self, message: AsideTold) -> None:
        with self._lock:
            if self.state is not State.RUNNING:
                return
            match message:
                case Progress():
                    self.stages.append(message.words)
                case AsideFound():
                    self.found, self.state = message.found, State.DONE
                case Ended():
                    self.sentence, self.state = message.sentence, State.FAILED


def start_aside(task: AsideTask) -> AsideJob:
    """Begin to answer in a process of its own."""
    return AsideJob(task)
