"""Which files buying bit by bit is to be written to, and what they hold."""

from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from fewtubes.command_line.results import page_faults
from fewtubes.errors import InputError
from fewtubes.tables.spreadsheet import Spreadsheet

if TYPE_CHECKING:
    from fewtubes.comparison.instalment_findings import Instalments

__all__ = ["InstalmentResults", "instalment_results"]


@dataclass(frozen=True)
class InstalmentResults:
    """What is asked for; None where it is not."""

    tables: Path | None
    """Folder for the table and for the JSON file."""
    page: Path | None
    """File of the illustrated report."""
    spreadsheet: Spreadsheet

    def drawn(self, found: "Instalments") -> dict[Path, dict[str, bytes | str]]:
        """Return the content of each file by folder and name."""
        from fewtubes.report.answer_files import instalment_files
        from fewtubes.report.fellow_files import paths_from

        drawn: dict[Path, dict[str, bytes | str]] = {}
        if self.page is not None:
            from fewtubes.report.illustrated.instalments_page import InstalmentsReport

            drawn[self.page.parent] = {self.page.name: InstalmentsReport(found).page()}
        if self.tables is None:
            return drawn
        beside = paths_from(self.tables, drawn)
        files: dict[Path, dict[str, bytes | str]] = {
            self.tables: dict(instalment_files(found, self.spreadsheet, beside=beside))
        }
        for folder, contents in drawn.items():
            files.setdefault(folder, {}).update(contents)
        return files

    def told(self) -> str:
        """Return what was written and where, a line each."""
        lines = []
        if self.tables is not None:
            lines.append(f"Written to '{self.tables}': instalments.csv, instalments.json.")
        if self.page is not None:
            lines.append(f"Written: '{self.page}', the illustrated report.")
        return "\n".join(lines)


def instalment_results(
    *, out: Path | None, report: Path | None, spreadsheet: Spreadsheet
) -> InstalmentResults:
    """Return what is asked for.

    Raises
    ------
    InputError
        If the name of the report does not tell that it is a page.
    """
    faults = page_faults("--report", report, "report")
    if faults:
        raise InputError(faults)
    return InstalmentResults(out, report, spreadsheet)
