"""The process that does the long work, so that stopping it really stops it."""

import multiprocessing
import os
import signal
import threading
import traceback
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from multiprocessing.connection import Connection
from pathlib import Path

from fewtubes.errors import FewtubesError
from fewtubes.page.answer import Answer
from fewtubes.scenario.records import Scenario
from fewtubes.shopping.steadiness import Trials

__all__ = ["Compared", "Ended", "Found", "Reported", "Stage", "Task", "Told", "told", "work"]

POLITENESS = 10
"""By how much work that nobody waits for falls behind (POSIX nice)."""


@dataclass(frozen=True, eq=False)
class Task:
    """What is to be done."""

    scenario: Scenario
    catalogue: Path | None
    cache: Path | None
    seconds: float
    trials: Trials | None = None
    """Whether and how paint and hand are varied."""


@dataclass(frozen=True)
class Stage:
    """Told: what is being done now."""

    words: str


@dataclass(frozen=True, eq=False)
class Found:
    """Told: the answer."""

    answer: Answer


@dataclass(frozen=True)
class Compared:
    """Told: coverage against cost, as markup that is safe as it stands."""

    markup: str


@dataclass(frozen=True)
class Reported:
    """Told: the illustrated report."""

    page: str


@dataclass(frozen=True)
class Ended:
    """Told: why there is no answer, or nothing further to it."""

    sentence: str


Told = Stage | Found | Compared | Reported | Ended


def work(task: Task, telling: Connection) -> None:
    """Do the task and tell of it; the entry of the process.

    The process leaves a keyboard's interruption to the one that started it, and ends with that.
    Once the answer is told it gives way to whoever still waits for one.
    """
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    threading.Thread(target=_end_with_parent, daemon=True).start()
    try:
        for message in told(task, progress=lambda words: telling.send(Stage(words))):
            telling.send(message)
            if isinstance(message, Found):
                _give_way()
    except FewtubesError as error:
        telling.send(Ended(str(error)))
    except BrokenPipeError:
        return  # nobody is listening any more
    except Exception:
        traceback.print_exc()
        telling.send(Ended("The program failed; what it says of it stands in the terminal."))
    finally:
        telling.close()


def told(task: Task, *, progress: Callable[[str], None]) -> Iterator[Told]:
    """Do the task; yield the answer as soon as it is there, then what belongs to it.

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
    from fewtubes.catalogue.reading import read_catalogue  # noqa: PLC0415
    from fewtubes.comparison.compare import FOR_A_REPORT, compare  # noqa: PLC0415
    from fewtubes.coverage.cache import Cache  # noqa: PLC0415
    from fewtubes.coverage.optics import optics_for  # noqa: PLC0415
    from fewtubes.page.answer import drawn_answer, drawn_costs  # noqa: PLC0415
    from fewtubes.report.illustrated import illustrated_report  # noqa: PLC0415
    from fewtubes.shopping.shop import Limits, shop  # noqa: PLC0415

    scenario = task.scenario
    progress("reading the catalogue")
    catalogue, cache = read_catalogue(task.catalogue), Cache(task.cache)
    plan = shop(
        catalogue,
        scenario,
        limits=Limits(seconds=task.seconds),
        progress=progress,
        cache=cache,
        trials=task.trials,
    )
    progress("drawing the answer")
    optics = optics_for(catalogue, scenario.paper, scenario.light, cache)
    yield Found(drawn_answer(plan, optics))
    comparison = compare(catalogue, scenario, extent=FOR_A_REPORT, cache=cache)
    yield Compared(drawn_costs(plan, optics, comparison))
    yield Reported(illustrated_report(plan, optics, comparison=comparison))


def _give_way() -> None:
    """Let other processes go first, where the system knows of such an order."""
    if hasattr(os, "nice"):
        os.nice(POLITENESS)


def _end_with_parent() -> None:
    """End this process when the one that started it is gone, however that ended."""
    parent = multiprocessing.parent_process()
    if parent is not None:
        parent.join()
        os._exit(1)
