"""Scenarios answered in processes of their own, one of which dies of its work."""

import os
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from typing import Any

from tests.timed_files import without_seconds

from fewtubes.coverage.cache import Cache
from fewtubes.mixing.deadline import Deadline
from fewtubes.shopping.mixed_together import mixed_together
from fewtubes.term.answering import Settings, answer
from fewtubes.term.asked import read_folder
from fewtubes.term.side_by_side import Job, answers_here

SMALL = Path(__file__).parents[1] / "catalogue" / "small_catalogue"

Write = Callable[..., Path]


class Deadly:
    """Ends the process in which it is unpacked."""

    def __reduce__(self) -> tuple[Any, ...]:
        return (os._exit, (1,))


def test_processes_answer_the_same_and_one_that_dies_takes_its_scenario_alone(
    folder: Path, write: Write, shared_cache: Cache, monkeypatch: Any
) -> None:
    monkeypatch.setattr("fewtubes.term.side_by_side.worker_count", lambda: 2)
    # What runs the tests side by side was not read from a file, but needs not be read again here.
    monkeypatch.setattr("fewtubes.term.side_by_side.processes_can_start", lambda: True)
    write("one")
    write("two", flower="primrose")
    write("worse")
    asked = read_folder(folder, SMALL)
    mixed = mixed_together(
        [(one.catalogue, one.scenario) for one in asked if one.catalogue and one.scenario],
        cache=shared_cache,
        deadline=Deadline(),
        progress=lambda _stage: None,
    )
    jobs: list[Job] = [(one, held.cache) for one, held in zip(asked, mixed, strict=True)]
    here = [answer(*job, Settings()) for job in jobs]
    deadly = replace(asked[2], catalogue=Deadly())  # type: ignore[arg-type]  # on purpose
    jobs[2] = (deadly, jobs[2][1])
    found = dict(answers_here(jobs, Settings()))
    assert sorted(found) == [0, 1, 2]
    for place in (0, 1):
        assert found[place].row == here[place].row
        assert {name: without_seconds(data) for name, data in found[place].files.items()} == {
            name: without_seconds(data) for name, data in here[place].files.items()
        }
    assert "sudden end" in found[2].row.fault
    assert found[2].row.title == "Week worse"
    assert not found[2].files
