"""Answers all scenarios of a folder, and goes on where an earlier run broke off."""

from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import closing
from dataclasses import replace
from pathlib import Path

from fewtubes.coverage.cache import Cache
from fewtubes.errors import Fault, OutputError
from fewtubes.files.writing import write_all
from fewtubes.shopping.mixed_together import mixed_together
from fewtubes.term.answering import Answer, Settings
from fewtubes.term.answers_page import answers_page
from fewtubes.term.answers_table import answers_table
from fewtubes.term.asked import Asked, faults_of
from fewtubes.term.findings import Batch, BatchRow
from fewtubes.term.record import Records
from fewtubes.term.side_by_side import Job, answers_here

__all__ = ["ANSWERS", "PAGE", "answer_all", "told"]

ANSWERS = "answers.csv"
PAGE = "answers.html"
"""Names of the files that hold all answers."""

TAKEN = frozenset({ANSWERS, PAGE})


def answer_all(
    asked: Sequence[Asked],
    *,
    settings: Settings,
    out: Path | None = None,
    again: bool = False,
    cluster: str | None = None,
    cache: Cache,
    progress: Callable[[str], None],
) -> Batch:
    """Answer all scenarios, writing the results of each as soon as they are there.

    Parameters
    ----------
    asked
        The scenarios, or what is wrong with them.
    settings
        What is the same for all.
    out
        Folder of the results; None writes nothing.
    again
        Whether to answer anew what an earlier run has answered.
    cluster
        Address of a Dask cluster; None for this machine alone.
    cache
        Where mixing is remembered from run to run.
    progress
        Called with a few words whenever a stage begins.

    Raises
    ------
    OutputError
        If the table and the page of all answers could not be written.
    LimitError, InputError
        If the cluster cannot be used.
    """
    asked = [_named(one) for one in asked]
    rows: dict[str, BatchRow] = {
        one.name: BatchRow(one.name, one.file, one.title, faults=one.faults)
        for one in asked
        if one.faults
    }
    records = None if out is None else Records(out, settings)
    if records is not None and not again:
        known = [records.done(one) for one in asked if not one.faults]
        rows |= {row.name: row for row in known if row is not None}
    todo = [one for one in asked if one.name not in rows]
    for one, found in _answers(todo, settings, cluster=cluster, cache=cache, progress=progress):
        rows[one.name] = found.row
        if records is not None and not found.row.failed:
            try:
                records.write(one, found)
            except OutputError as error:
                rows[one.name] = replace(found.row, faults=faults_of(error, one.file))
        progress(told(len(rows), len(asked)))
    batch = Batch(tuple(rows[one.name] for one in asked))
    if out is not None:
        write_all(out, _files(batch, settings))
    return batch


def told(done: int, count: int) -> str:
    """Return how far it has come, in words."""
    return f"answering the scenarios, {done:,} of {count:,} done"


def _named(one: Asked) -> Asked:
    """Return a scenario, at fault where its results would stand in the way of the answers."""
    if one.name not in TAKEN or one.faults:
        return one
    what = f"'{one.name}' is what all answers are written to; give it another name."
    return replace(one, faults=(Fault(one.file, what),))


def _answers(
    todo: Sequence[Asked],
    settings: Settings,
    *,
    cluster: str | None,
    cache: Cache,
    progress: Callable[[str], None],
) -> Iterator[tuple[Asked, Answer]]:
    """Yield each scenario with its answer, as they come; mixing is done once for all."""
    if not todo:
        return
    spread: Callable[[Sequence[Job], Settings], Iterator[tuple[int, Answer]]] = answers_here
    if cluster is not None:
        from fewtubes.term.cluster import reached

        spread = reached(cluster)
    sound = [(one.catalogue, one.scenario) for one in todo]
    mixed = mixed_together(
        [(tables, one) for tables, one in sound if tables is not None and one is not None],
        cache=cache,
        deadline=settings.limits.mixing(),
        progress=progress,
    )
    jobs: list[Job] = []
    places: list[Asked] = []
    for one, held in zip(todo, mixed, strict=True):
        if held.error is not None:
            row = BatchRow(one.name, one.file, one.title)
            yield one, Answer(replace(row, faults=faults_of(held.error, one.file)))
        else:
            jobs.append((one, held.cache))
            places.append(one)
    progress("answering the scenarios")
    if jobs:
        with closing(spread(jobs, settings)) as answers:  # type: ignore[type-var]
            for place, found in answers:
                yield places[place], found


def _files(batch: Batch, settings: Settings) -> Mapping[str, str]:
    """Return the table and the page of all answers."""
    return {
        ANSWERS: answers_table(batch).csv_text(settings.spreadsheet),
        PAGE: answers_page(batch, reports=settings.reports),
    }
