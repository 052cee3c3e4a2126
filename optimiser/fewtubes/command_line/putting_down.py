"""Files are written all or none, and whoever wrote there before is told of."""

from collections.abc import Callable, Mapping
from pathlib import Path
from typing import TYPE_CHECKING

from fewtubes.command_line.failures import say
from fewtubes.errors import OutputError
from fewtubes.files.real_path import real_path

if TYPE_CHECKING:
    from fewtubes.files.settling import Settled
    from fewtubes.files.writing import Earlier

__all__ = ["unwritten"]


def unwritten(
    files: Mapping[Path, Mapping[str, bytes | str]],
    *,
    written: Callable[[], None],
    earlier: "Earlier | None" = None,
) -> OutputError | None:
    """Write the files; return what kept them from being written, so that it is told last.

    Parameters
    ----------
    files
        For each folder the content of its files by name.
    written
        Called once all are in their places.
    earlier
        What they were made from; see `fewtubes.files.writing.write_together`.
    """
    from fewtubes.files.writing import write_together
    from fewtubes.report.fellow_files import strangers

    apart = {folder: names for folder in files if (names := strangers(folder))}
    settled: list[Path] = []

    def tell(folder: Path, outcome: "Settled") -> None:
        settled.append(folder)
        say(f"An earlier run broke off while it wrote to '{folder}'; {outcome}.")

    try:
        write_together(files, earlier=earlier or {}, written=written, settled=tell)
    except OutputError as error:
        return error
    finally:
        for folder, names in apart.items():
            if real_path(folder) not in settled:
                say(_apart(folder, names))
    return None


def _apart(folder: Path, names: tuple[str, ...]) -> str:
    """Return what is to be said of files that were found not to belong together."""
    if len(names) == 1:
        what = f"{names[0]} was not the file that plan.json names there"
    else:
        what = f"{', '.join(names)} were not the files that plan.json names there"
    return f"In '{folder}' {what}: changed since, or of another run."
