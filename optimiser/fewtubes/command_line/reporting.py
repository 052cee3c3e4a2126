"""A report that is written to files first and printed then, so that nothing is lost on the way."""

from collections.abc import Callable, Mapping
from pathlib import Path

import typer

from fewtubes.command_line.failures import after_writing

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
    from fewtubes.errors import OutputError  # noqa: PLC0415
    from fewtubes.writing import write_all  # noqa: PLC0415

    unwritten: OutputError | None = None
    contents = {} if folder is None else files()
    if folder is not None:
        try:
            write_all(folder, contents)
        except OutputError as error:
            unwritten = error
    with after_writing(None if unwritten else folder):
        show()
        if folder is not None and unwritten is None:
            typer.echo(f"\nWritten to '{folder}': {', '.join(contents)}.")
    if unwritten is not None:
        raise unwritten
