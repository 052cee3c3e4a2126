"""A fit in a process of its own: followed, refused, stopped."""

from tests.page.painter import SWATCHES

from fewtubes.catalogue.files import HeldFile
from fewtubes.page import fit_job
from fewtubes.page.fit_job import FitJob, start_fit
from fewtubes.page.fit_task import FitTask
from fewtubes.page.job import State

PATIENCE = 60.0
"""For a fit on a busy machine [s]."""


def task(text: str) -> FitTask:
    return FitTask(HeldFile("my.csv", text.encode()), None, None)


def ended(job: FitJob) -> FitJob:
    assert job.ended.wait(PATIENCE)
    return job


def test_tubes_come_from_a_process_that_is_gone() -> None:
    job = ended(start_fit(task(SWATCHES)))
    assert job.state is State.DONE
    assert job.found is not None
    assert [card.name for card in job.found.cards] == ["my rose", "<b>sky</b>"]
    assert job.stages[1:] == [
        "reading the swatches",
        "fitting tube 1 of 2",
        "fitting tube 2 of 2",
    ]
    assert job.seconds > 0


def test_faults_are_told() -> None:
    job = ended(start_fit(task("tube,strength,hex\nrose,1,#b3204f\n")))
    assert job.state is State.FAILED
    assert "has no row for the bare paper" in str(job.faults[0])


def test_a_fit_that_is_stopped_or_breaks_off() -> None:
    stopped, broken = start_fit(task(SWATCHES)), start_fit(task(SWATCHES))
    stopped.stop()
    assert ended(stopped).state is State.STOPPED
    broken._process.kill()
    assert ended(broken).state is State.FAILED
    assert broken.faults == (fit_job.BROKEN_OFF,)
