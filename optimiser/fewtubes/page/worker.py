"""The process that does the long work, so that stopping it really stops it."""

import multiprocessing
import os
import signal
import threading
import traceback
from dataclasses import dataclass
from multiprocessing.connection import Connection
from pathlib import Path

from fewtubes.errors import FewtubesError
from fewtubes.page.answer import Answer
from fewtubes.scenario.records import Scenario

__all__ = ["Ended", "Found", "Reported", "Stage", "Task", "work"]


@dataclass(frozen=True, eq=False)
class Task:
    """What is to be done."""

    scenario: Scenario
    catalogue: Path | None
    cache: Path | None
    seconds: float


@dataclass(frozen=True)
class Stage:
    """Told: what is being done now."""

    words: str


@dataclass(frozen=True, eq=False)
class Found:
    """Told: the answer."""

    answer: Answer


@dataclass(frozen=True)
class Reported:
    """Told: the illustrated report."""

    page: str


@dataclass(frozen=True)
class Ended:
    """Told: why there is no answer."""

    sentence: str


def work(task: Task, told: Connection) -> None:
    """Do the task and tell of it; the entry of the process.

    The process leaves a keyboard's interruption to the one that started it, and ends with that.
    """
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    threading.Thread(target=_end_with_parent, daemon=True).start()
    try:
        _work(task, told)
    except FewtubesError as error:
        told.send(Ended(str(error)))
    except BrokenPipeError:
        return  # nobody is listening any more
    except Exception:
        traceback.print_exc()
        told.send(Ended("The program failed; what it says of it stands in the terminal."))
    finally:
        told.close()


def _work(task: Task, told: Connection) -> None:
    from fewtubes.catalogue.reading import read_catalogue  # noqa: PLC0415
    from fewtubes.coverage.cache import Cache  # noqa: PLC0415
    from fewtubes.coverage.optics import optics_for  # noqa: PLC0415
    from fewtubes.page.answer import drawn_answer  # noqa: PLC0415
    from fewtubes.report.illustrated import illustrated_report  # noqa: PLC0415
    from fewtubes.shopping.shop import Limits, shop  # noqa: PLC0415

    told.send(Stage("reading the catalogue"))
    catalogue, cache = read_catalogue(task.catalogue), Cache(task.cache)
    plan = shop(
        catalogue,
        task.scenario,
        limits=Limits(seconds=task.seconds),
        progress=lambda words: told.send(Stage(words)),
        cache=cache,
    )
    told.send(Stage("drawing the answer"))
    optics = optics_for(catalogue, task.scenario.paper, task.scenario.light, cache)
    told.send(Found(drawn_answer(plan, optics)))
    told.send(Reported(illustrated_report(plan, optics)))


def _end_with_parent() -> None:
    """End this process when the one that started it is gone, however that ended."""
    parent = multiprocessing.parent_process()
    if parent is not None:
        parent.join()
        os._exit(1)
