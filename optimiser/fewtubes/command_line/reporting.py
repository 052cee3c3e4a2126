"""A report that is written to files first and printed then, so that nothing is lost on the way."""

from collections.abc import Callable, Mapping
from pathlib import Path

import typer

from fewtubes.command_line.failures import stopping
from fewtubes.command_line.putting_down import unwritten

__all__ = ["write_and_print"]


def write_and_print(
    folder: Path | None, files: Callable[[], Mapping[str, str]], show: Callable[[], None]
) -> None:
    """Write all files or none, print the report, and say where the files are.

    Parameters
    ----------
    folder
        Where to write; None writes nothing.
    files
        Returns the content of each file by its name.
    show
        Prints the report.

    Raises
    ------
    OutputError
        If the files could not be written; the report is printed before.
    """
    contents = {} if folder is None else files()
    with stopping(folder) as written:
        failure = None if folder is None else unwritten({folder: contents}, written=written)
        show()
        if folder is not None and failure is None:
            typer.echo(f"\nWritten to '{folder}': {', '.join(contents)}.")
    if failure is not None:
        raise failure
