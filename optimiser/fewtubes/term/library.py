"""Many scenarios answered at once, for whoever has them as values."""

from collections.abc import Callable, Mapping
from os import PathLike
from pathlib import Path

from fewtubes.catalogue.records import Catalogue
from fewtubes.coverage.cache import Cache, cache_of
from fewtubes.errors import Fault, InputError
from fewtubes.scenario.records import Scenario
from fewtubes.shopping.shop import Limits
from fewtubes.tables.spreadsheet import Spreadsheet
from fewtubes.term.answering import Settings
from fewtubes.term.asked import Asked
from fewtubes.term.findings import Batch
from fewtubes.term.run import answer_all

__all__ = ["batch"]


def batch(
    catalogue: Catalogue,
    scenarios: Mapping[str, Scenario],
    *,
    out: str | PathLike[str] | None = None,
    again: bool = False,
    reports: bool = False,
    spreadsheet: Spreadsheet = Spreadsheet.COMMA,
    limits: Limits | None = None,
    cluster: str | None = None,
    progress: Callable[[str], None] | None = None,
    cache: Cache | None = None,
) -> Batch:
    """Return the answers to many scenarios, mixed for once and answered side by side.

    Parameters
    ----------
    catalogue, scenarios
        As read; the scenarios, by name, refer to this catalogue. A name is that of a folder.
    out
        Folder to write to: for each scenario a folder of its name, and the table and the page of
        all answers. What is there already and unchanged is not done again.
    again
        Whether to answer all anew.
    reports
        Whether to write the illustrated report of each, and the hand-out of each class, too.
    spreadsheet
        What the tables are made for.
    limits
        Time limit and method of proof, for each scenario.
    cluster
        Address of a Dask cluster to work on; by default this machine's processors do. Whoever
        reaches a cluster can run programs on it, so one's own network alone is fit for it.
    progress
        Called with a few words whenever a stage begins or a scenario is done.
    cache
        Where mixing results are kept from run to run; by default nowhere (see `default_cache`).

    Raises
    ------
    InputError
        If a name is none of a folder, or the cluster cannot be used.
    OutputError
        If the table and the page could not be written. Whatever else is wrong is told of the
        scenario that it is wrong with, in its row.

    Examples
    --------
    >>> from fewtubes import Scenario, batch, default_cache, read_catalogue
    >>> weeks = {"one": Scenario(budget=9, currency="EUR", flowers=["primrose"])}
    >>> found = batch(read_catalogue(), weeks, cache=default_cache())
    >>> [(row.name, row.proven, row.fault) for row in found.rows]
    [('one', True, '')]
    """
    faults = [
        Fault("scenarios", f"{name!r} is no name of a folder; give it a plain one.")
        for name in scenarios
        if not name or name.startswith(".") or Path(name).name != name or "\0" in name
    ]
    if faults:
        raise InputError(faults)
    return answer_all(
        [Asked(name, "", one.title, catalogue, one) for name, one in scenarios.items()],
        settings=Settings(limits or Limits(), Spreadsheet(spreadsheet), reports),
        out=None if out is None else Path(out),
        again=again,
        cluster=cluster,
        cache=cache_of(cache),
        progress=progress or (lambda _stage: None),
    )
