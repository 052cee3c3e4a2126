"""How every command ends: its files are written, its report is printed, and what was written told.

Written first, so that nothing is lost if whoever reads the report goes away; told last, so that it
is not scrolled away.
"""

from collections.abc import Callable, Mapping
from pathlib import Path
from typing import TYPE_CHECKING

import typer

from fewtubes.command_line.failures import stopping
from fewtubes.command_line.putting_down import unwritten

if TYPE_CHECKING:
    from rich.console import Console

    from fewtubes.files.writing import Earlier

__all__ = ["Files", "in_folder", "put_out"]

Files = Mapping[Path, Mapping[str, bytes | str]]
"""For each folder the content of its files by name."""


def put_out(
    show: "Callable[[Console], None]",
    files: Files | None = None,
    *,
    told: str = "",
    earlier: "Earlier | None" = None,
) -> None:
    """Write all files or none, print the report, and tell where the files are.

    Parameters
    ----------
    show
        Prints the report.
    files
        What is to be written; nothing if none.
    told
        What is said of the files once they are written; by default their names by folder.
    earlier
        What they were made from, if another run's work must not be lost.

    Raises
    ------
    OutputError
        If the files could not be written; the report is printed before. If what they were made
        from has changed; there is no report then, since it would tell of what is not so.
    """
    from fewtubes.command_line.output import report_console
    from fewtubes.files.writing import ChangedMeanwhileError

    files = files or {}
    with stopping(next(iter(files), None)) as written:
        failure = unwritten(files, written=written, earlier=earlier) if files else None
        if isinstance(failure, ChangedMeanwhileError):
            raise failure
        show(report_console())
        if files and failure is None:
            typer.echo(f"\n{told or _told(files)}")
    if failure is not None:
        raise failure


def in_folder(folder: Path | None, files: Callable[[], Mapping[str, str]]) -> Files:
    """Return files, made only if there is a folder to write them to."""
    return {} if folder is None else {folder: files()}


def _told(files: Files) -> str:
    """Return the names of the files, a line a folder."""
    return "\n".join(
        f"Written to '{folder}': {', '.join(names)}." for folder, names in files.items()
    )
