"""One fit as the page sees it: started, followed, stopped."""

import threading
import time
from multiprocessing.connection import Connection

from fewtubes.errors import Fault
from fewtubes.page.fit_task import FitFound, FitRefused, FitTask, FitTold
from fewtubes.page.fit_work import fit_work
from fewtubes.page.job import State
from fewtubes.page.processes import begun, ended
from fewtubes.page.worker import Progress

__all__ = ["FitJob", "start_fit"]

BROKEN_OFF = Fault("fit", "broke off without an outcome; try again.")


class FitJob:
    """A fit in a process of its own; a thread takes what it tells."""

    def __init__(self, task: FitTask) -> None:
        self.state = State.RUNNING
        self.stages: list[str] = ["getting ready"]
        self.found: FitFound | None = None
        self.faults: tuple[Fault, ...] = ()
        """Why there is nothing found."""
        self.ended = threading.Event()
        """Set when nothing more will come."""
        self._begun = time.monotonic()
        self._lock = threading.Lock()
        self._process, connection = begun(fit_work, task)
        threading.Thread(target=self._listen, args=(connection,), daemon=True).start()

    @property
    def seconds(self) -> float:
        """Time since the start [s]."""
        return time.monotonic() - self._begun

    def stop(self) -> None:
        """Stop the fit if it is still going on; returns when its process is gone."""
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
        self._take(FitRefused((BROKEN_OFF,)))
        self.ended.set()

    def _take(self, message: FitTold) -> None:
        with self._lock:
            if self.state is not State.RUNNING:
                return
            match message:
                case Progress():
                    self.stages.append(message.words)
                case FitFound():
                    self.found, self.state = message, State.DONE
                case FitRefused():
                    self.faults, self.state = message.faults, State.FAILED


def start_fit(task: FitTask) -> FitJob:
    """Begin a fit in a process of its own."""
    return FitJob(task)
