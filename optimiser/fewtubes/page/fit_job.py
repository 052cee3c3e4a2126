"""One fit as the page sees it: started, followed, stopped."""

from fewtubes.errors import Fault
from fewtubes.page.fit_task import FitFound, FitRefused, FitTask
from fewtubes.page.fit_work import fit_work
from fewtubes.page.followed import Followed
from fewtubes.page.job import State

__all__ = ["FitJob", "start_fit"]

BROKEN_OFF = Fault("fit", "broke off without an outcome; try again.")


class FitJob(Followed):
    """A fit in a process of its own."""

    def __init__(self, task: FitTask) -> None:
        self.found: FitFound | None = None
        self.faults: tuple[Fault, ...] = ()
        """Why there is nothing found."""
        super().__init__(fit_work, task, broken_off=FitRefused((BROKEN_OFF,)))

    def _end(self, outcome: FitFound | FitRefused) -> State:
        if isinstance(outcome, FitRefused):
            self.faults = outcome.faults
            return State.FAILED
        self.found = outcome
        return State.DONE


def start_fit(task: FitTask) -> FitJob:
    """Begin a fit in a process of its own."""
    return FitJob(task)
