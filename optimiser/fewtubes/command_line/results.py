"""Which files a plan is to be written to, and what they hold."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from fewtubes.errors import Fault, InputError
from fewtubes.files.real_path import real_path
from fewtubes.tables.spreadsheet import Spreadsheet

if TYPE_CHECKING:
    from fewtubes.shopping.clock import Clock
    from fewtubes.shopping.shop import Answered

__all__ = ["Files", "Results", "page_faults", "results_asked"]

PAGE_ENDINGS = (".html", ".htm")

PROGRAM_ENDING = ".lp"

TABLES = (
    "shopping-list.csv",
    "recipes.csv",
    "puddles.csv",
    "for-the-class.csv",
    "paint.csv",
    "plan.json",
)
"""What a plan may be written to, in the order in which it is told."""

STAND_INS_OF_LEFT = 0.2
"""Share of the time left for what stands in for tubes that are sold out."""

Files = dict[Path, dict[str, bytes | str]]
"""For each folder the content of its files by name."""


@dataclass(frozen=True)
class Results:
    """What is asked for; None where it is not."""

    tables: Path | None
    """Folder for shopping list, recipes, puddles and plan."""
    page: Path | None
    """File of the illustrated report."""
    pictures: Path | None
    """Folder for the pictures."""
    program: Path | None = None
    """File of the integer program."""
    chart: Path | None = None
    """File of the sheet to paint."""
    handout: Path | None = None
    """File of the hand-out for each painter."""
    spreadsheet: Spreadsheet = Spreadsheet.COMMA
    """What the tables are made for."""

    @property
    def is_drawn(self) -> bool:
        """Whether there is anything to draw, for which palettes are compared."""
        return self.page is not None or self.pictures is not None

    def drawn(
        self,
        answered: "Answered",
        *,
        clock: "Clock",
        progress: Callable[[str], None],
    ) -> Files:
        """Return everything to be written; pictures take their time."""
        from fewtubes.report.fellow_files import paths_from
        from fewtubes.report.plan_files import plan_files

        drawn: Files = {}
        if self.is_drawn:
            drawn = self._illustrated(answered, clock=clock, progress=progress)
        if self.program is not None:
            from fewtubes.shopping.program_file import program_text

            progress("writing down the integer program")
            text = program_text(answered.question)
            drawn.setdefault(self.program.parent, {})[self.program.name] = text
        if self.chart is not None:
            from fewtubes.report.illustrated.basis import Basis
            from fewtubes.report.illustrated.chart_page import chart_page

            page = chart_page(Basis(answered.plan, answered.question.optics))
            drawn.setdefault(self.chart.parent, {})[self.chart.name] = page
        if self.handout is not None:
            from fewtubes.report.illustrated.basis import Basis
            from fewtubes.report.illustrated.handout_page import handout_page

            page = handout_page(Basis(answered.plan, answered.question.optics))
            drawn.setdefault(self.handout.parent, {})[self.handout.name] = page
        files: Files = {}
        if self.tables is not None:
            files[self.tables] = dict(
                plan_files(
                    answered.plan,
                    beside=paths_from(self.tables, drawn),
                    spreadsheet=self.spreadsheet,
                )
            )
        for folder, contents in drawn.items():
            files.setdefault(folder, {}).update(contents)
        return files

    def _illustrated(
        self,
        answered: "Answered",
        *,
        clock: "Clock",
        progress: Callable[[str], None],
    ) -> Files:
        """Return the report and the pictures, as asked for."""
        from fewtubes.report.illustrated.report import STAND_INS_SECONDS, AnswerReport

        files: Files = {}
        seconds = min(STAND_INS_SECONDS, clock.share(1.0, of_left=STAND_INS_OF_LEFT))
        report = AnswerReport(answered, stand_ins_seconds=seconds)
        comparison = report.comparison(clock.share(1.0, of_left=1.0), progress)
        progress("drawing up the results")
        if self.page is not None:
            page = report.page(report.costs(comparison))
            files.setdefault(self.page.parent, {})[self.page.name] = page
        if self.pictures is not None:
            files.setdefault(self.pictures, {}).update(report.pictures(comparison))
        return files

    def told(self, files: Files) -> str:
        """Return what was written and where, a line each."""
        lines = []
        if self.tables is not None:
            names = [name for name in TABLES if name in files[self.tables]]
            lines.append(f"Written to '{self.tables}': {', '.join(names)}.")
        if self.page is not None:
            lines.append(f"Written: '{self.page}', the illustrated report.")
        if self.pictures is not None:
            count = sum(name.endswith(".svg") for name in files[self.pictures])
            lines.append(f"Written to '{self.pictures}': {count} pictures, as SVG and as PNG.")
        if self.chart is not None:
            lines.append(f"Written: '{self.chart}', the sheet to paint.")
        if self.handout is not None:
            lines.append(
                f"Written: '{self.handout}', the hand-out, to print once for each painter."
            )
        if self.program is not None:
            lines.append(f"Written: '{self.program}', the integer program.")
        return "\n".join(lines)


def results_asked(
    *,
    out: Path | None,
    report: Path | None,
    pictures: Path | None,
    program: Path | None = None,
    chart: Path | None = None,
    handout: Path | None = None,
    spreadsheet: Spreadsheet = Spreadsheet.COMMA,
) -> Results:
    """Return what is asked for.

    Raises
    ------
    InputError
        If the name of a page or the program does not tell what it is, or two pages would be one
        file.
    """
    faults = [*_page_faults({"report": report, "chart": chart, "hand-out": handout})]
    if program is not None and program.suffix.lower() != PROGRAM_ENDING:
        what = "the program is in the LP format, so its name must end in .lp."
        faults.append(Fault("--write-program", f"{_ending(program)}; {what}"))
    if faults:
        raise InputError(faults)
    return Results(out, report, pictures, program, chart, handout, spreadsheet)


def _page_faults(pages: dict[str, Path | None]) -> Iterator[Fault]:
    """Yield what is wrong with the names of pages, by what each is called."""
    taken: dict[Path, str] = {}
    for page, path in pages.items():
        if path is None:
            continue
        option = f"--{page.replace('-', '')}"
        unfit = page_faults(option, path, page)
        if unfit:
            yield from unfit
            continue
        other = taken.setdefault(real_path(path), page)
        if other != page:
            what = f"is where the {other} is to go; give the {page} a name of its own."
            yield Fault(option, f"'{path}' {what}")


def page_faults(option: str, path: Path | None, what: str) -> list[Fault]:
    """Return what is wrong with the name of a page that an option writes; empty if nothing is."""
    if path is None or path.suffix.lower() in PAGE_ENDINGS:
        return []
    told = f"the {what} is a page, so its name must end in .html or .htm."
    return [Fault(option, f"{_ending(path)}; {told}")]


def _ending(path: Path) -> str:
    """Return a path with what its ending is."""
    return f"'{path}' has {f'the ending {path.suffix}' if path.suffix else 'no ending'}"
