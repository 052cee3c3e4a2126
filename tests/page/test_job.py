"""Work in processes of its own, and that nothing of it is left."""

import multiprocessing
import os
import signal
import subprocess
import sys
import time
from collections.abc import Callable
from pathlib import Path
from typing import Any

from fewtubes.catalogue.records import Catalogue
from fewtubes.page.form import scenario_of
from fewtubes.page.job import TURNS, Job, State, start
from fewtubes.page.worker import Task
from fewtubes.report.plan_files import plan_files
from fewtubes.shopping.shop import shop

PATIENCE = 60.0
"""Long enough for a busy machine [s]; a test that waits so long has failed."""


def wait_until(true: Callable[[], bool]) -> None:
    end = time.monotonic() + PATIENCE
    while not true():
        assert time.monotonic() < end
        time.sleep(0.02)


def alive(process_id: int) -> bool:
    try:
        os.kill(process_id, 0)
    except ProcessLookupError:
        return False
    stat = Path(f"/proc/{process_id}/stat")
    return not (stat.exists() and stat.read_text().rpartition(")")[2].split()[0] == "Z")


def task_for(demo: Catalogue, filled: dict[str, Any], cache: Path | None, **changed: str) -> Task:
    both = {**filled, **changed}
    values = {key: value if isinstance(value, list) else [value] for key, value in both.items()}
    return Task(scenario_of(values, demo), None, cache, 60.0)


def test_the_process_answers_as_the_library_does(
    demo: Catalogue, filled: dict[str, Any], cache_folder: Path
) -> None:
    task = task_for(demo, filled, cache_folder)
    job = start(task)
    wait_until(job.ended.is_set)
    assert job.state is State.DONE
    assert job.answer is not None
    assert job.report is not None
    assert job.report.startswith("<!DOCTYPE html>")
    assert "reading the catalogue" in job.stages
    mine, own = plan_files(job.answer.plan), plan_files(shop(demo, task.scenario))
    assert mine["shopping-list.csv"] == own["shopping-list.csv"]
    assert mine["recipes.csv"] == own["recipes.csv"]


def test_a_clash_ends_in_a_sentence(
    demo: Catalogue, filled: dict[str, Any], cache_folder: Path
) -> None:
    values = {**filled, "budget": "0.50", "tube-lemon": "must_have"}
    job = start(task_for(demo, values, cache_folder))
    wait_until(job.ended.is_set)
    assert job.state is State.FAILED
    assert "budget of EUR 0.50" in job.sentence
    assert "Traceback" not in job.sentence


def test_a_catalogue_that_went_away_ends_in_a_sentence(
    demo: Catalogue, filled: dict[str, Any], tmp_path: Path
) -> None:
    task = task_for(demo, filled, None)
    job = start(Task(task.scenario, tmp_path / "gone", None, 60.0))
    wait_until(job.ended.is_set)
    assert job.state is State.FAILED
    assert "gone" in job.sentence


def test_stopping_really_stops(demo: Catalogue, filled: dict[str, Any]) -> None:
    job = Job(task_for(demo, {**filled, "flower": list(demo.flowers)}, None))
    wait_until(lambda: len(job.stages) > 2)  # in the middle of it
    process_id = job.process_id
    assert process_id is not None
    job.stop()
    assert job.state is State.STOPPED
    assert not alive(process_id)
    assert not multiprocessing.active_children()
    assert job.answer is None


def test_a_process_that_is_killed_is_noticed(demo: Catalogue, filled: dict[str, Any]) -> None:
    job = Job(task_for(demo, {**filled, "flower": list(demo.flowers)}, None))
    wait_until(lambda: len(job.stages) > 1)
    assert job.process_id is not None
    os.kill(job.process_id, signal.SIGKILL)
    wait_until(job.ended.is_set)
    assert job.state is State.FAILED
    assert "broke off" in job.sentence


def test_one_compares_at_a_time_and_a_killed_one_keeps_its_report(
    demo: Catalogue, filled: dict[str, Any], cache_folder: Path
) -> None:
    tasks = [task_for(demo, {**filled, "budget": budget}, cache_folder) for budget in ("9", "10")]
    TURNS.acquire()
    try:
        jobs = [start(task) for task in tasks]
        for job in jobs:
            wait_until(lambda job=job: job.report is not None)  # type: ignore[misc]
        time.sleep(0.5)
        assert [job.costs for job in jobs] == [None, None]
        assert jobs[0].process_id is not None
        os.kill(jobs[0].process_id, signal.SIGKILL)
        wait_until(jobs[0].ended.is_set)
        assert jobs[0].state is State.DONE
        assert jobs[0].report is not None
        assert "Coverage against cost" not in jobs[0].report
    finally:
        TURNS.release()
    wait_until(jobs[1].ended.is_set)
    assert jobs[1].costs is not None
    assert jobs[1].report is not None
    assert "Coverage against cost" in jobs[1].report


BEGIN_AND_WAIT = """
import time
from fewtubes.catalogue.reading import read_catalogue
from fewtubes.page.form import first_values, scenario_of
from fewtubes.page.job import start
from fewtubes.page.worker import Task
if __name__ == "__main__":
    demo = read_catalogue()
    values = {**first_values(demo), "flower": list(demo.flowers)}
    job = start(Task(scenario_of(values, demo), None, None, 60.0))
    print(job.process_id, flush=True)
    time.sleep(600)
"""


def test_work_ends_with_the_page_however_that_ended(tmp_path: Path) -> None:
    script = tmp_path / "begin_and_wait.py"
    script.write_text(BEGIN_AND_WAIT, encoding="utf-8")
    with subprocess.Popen(  # noqa: S603
        [sys.executable, str(script)], stdout=subprocess.PIPE, text=True
    ) as page:
        assert page.stdout is not None
        process_id = int(page.stdout.readline())
        time.sleep(1)
        assert alive(process_id)
        page.kill()
    wait_until(lambda: not alive(process_id))
