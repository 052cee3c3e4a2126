"""One scenario answered, from values to the bytes of its files: what each worker does.

Neither the scenario nor what was mixed for it is read from a disk, and nothing is written, so that
it makes no difference in which process and on which machine it is done.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field, replace

from fewtubes.coverage.carried import CarriedCache
from fewtubes.errors import Fault, FewtubesError
from fewtubes.report.illustrated.basis import Basis
from fewtubes.report.illustrated.handout_page import handout_page
from fewtubes.report.illustrated.report import STAND_INS_SECONDS, AnswerReport
from fewtubes.report.plan_files import plan_files
from fewtubes.shopping.shop import Answered, Limits, answered
from fewtubes.tables.spreadsheet import Spreadsheet
from fewtubes.term.asked import Asked, faults_of
from fewtubes.term.findings import BatchRow, row_of

__all__ = ["HANDOUT", "PAGE", "TOO_LITTLE_MEMORY", "Answer", "Settings", "answer"]

PAGE = "report.html"
"""Name of the illustrated report beside the other results."""

HANDOUT = "hand-out.html"
"""Name of the page that each painter of a class gets."""

TOO_LITTLE_MEMORY = (
    "There is too little memory for that; close other programs, or ask for less: fewer tubes or"
    " fewer colours."
)


@dataclass(frozen=True)
class Settings:
    """What is the same for all scenarios."""

    limits: Limits = field(default_factory=Limits)
    spreadsheet: Spreadsheet = Spreadsheet.COMMA
    reports: bool = False
    """Whether the illustrated report of each, and the hand-out of a class, is drawn as well."""


@dataclass(frozen=True, eq=False)
class Answer:
    """The answer to one scenario: its row, and its files unless it failed."""

    row: BatchRow
    files: Mapping[str, bytes] = field(default_factory=dict)
    """Content by plain file name."""


def answer(asked: Asked, mixed: CarriedCache, settings: Settings) -> Answer:
    """Return the answer to one scenario without fault; what goes wrong is told in its row."""
    row = BatchRow(asked.name, asked.file, asked.title)
    if asked.catalogue is None or asked.scenario is None:
        return Answer(replace(row, faults=asked.faults))
    try:
        found = answered(asked.catalogue, asked.scenario, limits=settings.limits, cache=mixed)
        files = _files(found, settings)
    except FewtubesError as error:
        return Answer(replace(row, faults=faults_of(error, asked.file)))
    except MemoryError:
        return Answer(replace(row, faults=(Fault(asked.file, TOO_LITTLE_MEMORY),)))
    return Answer(row_of(found.plan, name=asked.name, file=asked.file), files)


def _files(found: Answered, settings: Settings) -> Mapping[str, bytes]:
    """Return the files as the command `shop` writes them, with the pages if they are asked for."""
    beside: dict[str, str] = {}
    if settings.reports:
        beside[PAGE] = _report(found, settings.limits.seconds)
    if settings.reports and found.plan.class_share is not None:
        beside[HANDOUT] = handout_page(Basis(found.plan, found.question.optics))
    files = {**plan_files(found.plan, beside=beside, spreadsheet=settings.spreadsheet), **beside}
    return {name: content.encode("utf-8") for name, content in files.items()}


def _report(found: Answered, seconds: float) -> str:
    """Return the illustrated report; `seconds` is the time for coverage against cost."""
    report = AnswerReport(found, stand_ins_seconds=min(STAND_INS_SECONDS, seconds))
    return report.page(report.costs(report.comparison(seconds)))
