"""The process that does the long work, so that stopping it really stops it."""

import os
import traceback
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from multiprocessing.connection import Connection
from pathlib import Path

from fewtubes.errors import FewtubesError
from fewtubes.page.drawn_answer import Answer
from fewtubes.scenario.records import Scenario
from fewtubes.shopping.puddles import Puddling
from fewtubes.shopping.steadiness import MonteCarlo

__all__ = [
    "GO_ON",
    "Compared",
    "Ended",
    "Found",
    "Progress",
    "Reported",
    "Task",
    "Told",
    "messages_of",
    "work",
]

POLITENESS = 10
"""By how much work that nobody waits for falls behind (POSIX nice)."""


@dataclass(frozen=True, eq=False)
class Task:
    """What is to be done."""

    scenario: Scenario
    catalogue: Path | None
    cache: Path | None
    seconds: float
    trials: MonteCarlo | None = None
    """Whether and how paint and hand are varied."""
    puddling: Puddling = Puddling.EACH_FLOWER
    """For what puddles are shared."""
    prices: Path | None = None
    """Folder of the price list; None for the catalogue's own prices."""
    flowers: Path | None = None
    """Table of flowers beside the catalogue's; None for none."""


@dataclass(frozen=True)
class Progress:
    """Told: what is being done now."""

    words: str


@dataclass(frozen=True, eq=False)
class Found:
    """Told: the answer."""

    answer: Answer


@dataclass(frozen=True)
class Compared:
    """Told: coverage against cost, as markup that is safe as it stands; the report with it."""

    markup: str
    page: str


@dataclass(frozen=True)
class Reported:
    """Told: the illustrated report without coverage against cost."""

    page: str


@dataclass(frozen=True)
class Ended:
    """Told: why there is no answer, or nothing further to it."""

    sentence: str


Told = Progress | Found | Compared | Reported | Ended


GO_ON = "go on"
"""Said to a process that has told its answer: it may compare."""


def work(task: Task, connection: Connection) -> None:
    """Do the task and tell of it; the entry of the process.

    Once the answer and its report are told it waits for its turn to compare, and gives way to
    whoever still waits for an answer.
    """
    try:
        messages = messages_of(task, progress=lambda words: connection.send(Progress(words)))
        connection.send(next(messages))
        _give_way()
        connection.send(next(messages))
        connection.recv()
        for message in messages:
            connection.send(message)
    except FewtubesError as error:
        connection.send(Ended(str(error)))
    except (BrokenPipeError, EOFError):
        return  # nobody is listening any more
    except Exception:
        traceback.print_exc()
        connection.send(Ended("The program failed; what it says of it stands in the terminal."))
    finally:
        connection.close()


def messages_of(task: Task, *, progress: Callable[[str], None]) -> Iterator[Told]:
    """Do the task; yield the answer, its report, and then coverage against cost.

    Parameters
    ----------
    task
        What is to be done.
    progress
        Called with a few words whenever a stage begins.

    Raises
    ------
    FewtubesError
        If there is no answer: the tables have faults, or the demands clash.
    """
    from fewtubes.catalogue.reading import read_catalogue
    from fewtubes.coverage.cache import Cache
    from fewtubes.page.drawn_answer import drawn_answer
    from fewtubes.page.tables_named import beside
    from fewtubes.report.illustrated.report import AnswerReport
    from fewtubes.shopping.shop import Limits, answered

    scenario = task.scenario
    progress("reading the catalogue")
    read = read_catalogue(task.catalogue)
    catalogue = beside(read, prices=task.prices, flowers=task.flowers)
    cache = Cache(task.cache)
    found = answered(
        catalogue,
        scenario,
        limits=Limits(seconds=task.seconds),
        progress=progress,
        cache=cache,
        trials=task.trials,
        puddling=task.puddling,
    )
    progress("drawing the answer")
    report = AnswerReport(found)
    yield Found(drawn_answer(report))
    yield Reported(report.page())
    costs = report.costs(report.comparison(task.seconds))
    yield Compared(str(costs), report.page(costs))


def _give_way() -> None:
    """Let other processes go first, where the system knows of such an order."""
    if hasattr(os, "nice"):
        os.nice(POLITENESS)
