"""One question beside the choice of tubes as the page sees it: asked, followed, stopped."""

from fewtubes.page.aside_task import AsideFound, AsideTask, Found
from fewtubes.page.aside_work import aside_work
from fewtubes.page.followed import Followed
from fewtubes.page.job import State
from fewtubes.page.worker import Ended

__all__ = ["AsideJob", "start_aside"]

BROKEN_OFF = Ended("The work broke off without an answer; try again.")


class AsideJob(Followed):
    """The work in a process of its own."""

    def __init__(self, task: AsideTask) -> None:
        self.place = task.asked.place
        self.found: Found | None = None
        self.sentence = ""
        """Why there is no answer."""
        super().__init__(aside_work, task, broken_off=BROKEN_OFF)

    def _end(self, outcome: AsideFound | Ended) -> State:
        if isinstance(outcome, Ended):
            self.sentence = outcome.sentence
            return State.FAILED
        self.found = outcome.found
        return State.DONE


def start_aside(task: AsideTask) -> AsideJob:
    """Begin to answer in a process of its own."""
    return AsideJob(task)
