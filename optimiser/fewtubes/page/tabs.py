"""What each tab of the browser holds, in memory only, until the program ends."""

import secrets
from collections import OrderedDict
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field

from fewtubes.colour.photograph import MainColour
from fewtubes.errors import Fault
from fewtubes.page.aside_job import AsideJob
from fewtubes.page.aside_task import Found
from fewtubes.page.drawn_answer import Answer
from fewtubes.page.fit_job import FitJob
from fewtubes.page.fit_task import FitFound
from fewtubes.page.job import Job, State
from fewtubes.tables.spreadsheet import Spreadsheet

__all__ = ["FormValues", "Held", "Tab", "Tabs"]

FormValues = Mapping[str, Sequence[str]]
"""What was filled in, as it was typed, by field."""

MOST_TABS = 40
"""The one left alone longest is given up for another."""


@dataclass(frozen=True, eq=False)
class Held:
    """An answer with the work that found it, which may still be comparing it with others."""

    answer: Answer
    job: Job
    values: FormValues
    """What was asked, as it was typed."""


@dataclass(eq=False)
class Tab:
    """The state of one tab."""

    id: str
    values: FormValues
    found: tuple[MainColour, ...] = ()
    """Main colours of the last photograph."""
    saved: str = ""
    """What became of the box at home, to say once."""
    flower_said: str = ""
    """What was found in the photograph of a flower, to say once."""
    notice: str = ""
    """Something to say once."""
    job: Job | None = None
    asked: FormValues = field(default_factory=dict)
    """What the work was asked, as it was typed."""
    last: Held | None = None
    kept: Held | None = None
    """The answer that the last one is compared with."""
    faults: dict[str, str] = field(default_factory=dict)
    """What is wrong with the values: a sentence by field."""
    fit_values: FormValues = field(default_factory=dict)
    """What was filled in last about the painter's own paints, as it was typed."""
    fit_job: FitJob | None = None
    """A fit that goes on."""
    fit_faults: tuple[Fault, ...] = ()
    """Why the last fit came to nothing, to say once."""
    fitted: FitFound | None = None
    """What was fitted last."""
    add_values: FormValues = field(default_factory=dict)
    """What was filled in about adding it to the catalogue."""
    added: tuple[str, ...] = ()
    """What became of it, to say once."""
    mix_values: FormValues = field(default_factory=dict)
    """What was filled in last about one colour to be mixed, as it was typed."""
    aside_job: AsideJob | None = None
    """A question beside the choice of tubes that is being answered."""
    aside_place: str = ""
    """The page to go to when it is."""
    aside_fault: str = ""
    """What is wrong with what was asked, to say once."""
    sum_faults: tuple[Fault, ...] = ()
    """What is wrong with the sums to buy bit by bit with, to say once."""
    asides: dict[str, Found] = field(default_factory=dict)
    """What was found last, by the place of its page."""
    spreadsheet: Spreadsheet = Spreadsheet.COMMA
    """What the tables that are taken away are made for."""

    def settle(self) -> None:
        """Take over the answer of work that is done, and what a fit found."""
        self._settle_fit()
        self._settle_aside()
        job = self.job
        if job is not None and job.state is State.DONE and job.answer is not None:
            replaced, self.last, self.job = self.last, Held(job.answer, job, self.asked), None
            self._let_go(replaced)

    def _settle_fit(self) -> None:
        """Take over what a fit found that is done, or why it found nothing."""
        job = self.fit_job
        if job is None or job.state is State.RUNNING:
            return
        self.fit_job = None
        if job.found is not None:
            self.fitted, self.add_values, self.fit_faults = job.found, {}, ()
        else:
            self.fit_faults = job.faults

    def _settle_aside(self) -> None:
        """Take over what was found beside the choice of tubes, or why nothing was."""
        job = self.aside_job
        if job is None or job.state is State.RUNNING:
            return
        self.aside_job = None
        if job.found is not None:
            self.asides[job.place], self.aside_place = job.found, job.place
        else:
            self.notice = job.sentence

    def keep(self) -> bool:
        """Keep the last answer to compare the next one with it; return whether there is one."""
        if self.last is None:
            return False
        replaced, self.kept = self.kept, self.last
        self._let_go(replaced)
        return True

    def _let_go(self, replaced: Held | None) -> None:
        """Stop the work on an answer that nobody can look at any more."""
        if replaced is not None and replaced not in (self.last, self.kept):
            replaced.job.stop()

    def stop(self) -> None:
        """Stop whatever goes on for this tab."""
        held = [item.job for item in (self.last, self.kept) if item is not None]
        for job in (self.job, self.fit_job, self.aside_job, *held):
            if job is not None:
                job.stop()


class Tabs:
    """All tabs by id, the one used last at the end."""

    def __init__(self, first_values: Callable[[], FormValues]) -> None:
        self.first_values = first_values
        """What the form of a new tab begins with."""
        self._tabs: OrderedDict[str, Tab] = OrderedDict()

    def open(self) -> Tab:
        """Return a new tab."""
        tab = Tab(secrets.token_urlsafe(12), self.first_values())
        self._tabs[tab.id] = tab
        while len(self._tabs) > MOST_TABS:
            self._tabs.popitem(last=False)[1].stop()
        return tab

    def find(self, id_: str) -> Tab | None:
        """Return a tab, or None if there is none of that id."""
        tab = self._tabs.get(id_)
        if tab is not None:
            self._tabs.move_to_end(id_)
            tab.settle()
        return tab

    def answers(self) -> int:
        """Return how many answers can be looked at in all tabs."""
        held = (item for tab in self._tabs.values() for item in (tab.last, tab.kept))
        return len({id(item) for item in held if item is not None})

    def running(self) -> int:
        """Return how many tabs have work going on."""
        jobs = (job for tab in self._tabs.values() for job in (tab.job, tab.fit_job, tab.aside_job))
        return sum(job is not None and job.state is State.RUNNING for job in jobs)

    def giving_way(self, most: int) -> list[Job]:
        """Return the comparisons to stop so that at most a given number of processes is left.

        Those of tabs left alone longest give way first; work that is waited for goes on.
        """
        for tab in self._tabs.values():
            tab.settle()  # a page that was closed meanwhile never asked for its answer
        held = [
            item.job
            for tab in self._tabs.values()
            for item in (tab.kept, tab.last)
            if item is not None and not item.job.ended.is_set()
        ]
        comparing = list(dict.fromkeys(held))
        return comparing[: max(0, len(comparing) + self.running() - most)]

    def stop_all(self) -> None:
        """Stop the work of all tabs and forget them."""
        tabs = list(self._tabs.values())  # requests may still come while they are stopped
        self._tabs.clear()
        for tab in tabs:
            tab.stop()
