"""How every command that keeps a catalogue begins and ends."""

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING

import typer

from fewtubes.command_line.failures import FAULT, tell
from fewtubes.errors import InputError

if TYPE_CHECKING:
    from fewtubes.keeping.kept_catalogue import KeptCatalogue
    from fewtubes.keeping.merging import Winner
    from fewtubes.keeping.outcome import Outcome

__all__ = ["catalogue_from", "every_fault_told", "finish", "settle_folder", "whose"]

DEMO_WORD = "demo"


@contextmanager
def every_fault_told() -> Iterator[None]:
    """Tell all faults there are: none of them could be asked for again."""
    try:
        yield
    except InputError as error:
        tell(error, most=None)
        raise typer.Exit(FAULT) from error


def settle_folder(folder: Path) -> None:
    """Finish or undo what a run left that was killed while it wrote there, before it is read."""
    from fewtubes.command_line.putting_down import unwritten
    from fewtubes.files.journal import leftovers

    try:
        found = leftovers(folder)
    except (OSError, ValueError):
        return  # whoever reads the folder tells what is wrong with it
    if found:
        failure = unwritten({folder: {}}, written=lambda: None)
        if failure is not None:
            raise failure


def catalogue_from(folder: Path) -> "KeptCatalogue":
    """Return a catalogue that something is taken from; the word demo stands for the demo's."""
    from fewtubes.keeping.beginning import opened
    from fewtubes.keeping.kept_catalogue import read_kept

    if str(folder) == DEMO_WORD:
        return read_kept(None)
    settle_folder(folder)
    return opened(folder)


def whose(word: str | None) -> "Winner | None":
    """Return whose content stands where two catalogues differ."""
    from fewtubes.catalogue.limits import word_fault
    from fewtubes.errors import Fault
    from fewtubes.keeping.merging import Winner

    words = {winner.value: winner for winner in Winner}
    if word is None:
        return None
    fault = word_fault(word, words)
    if fault:
        raise InputError([Fault("--keep", fault)])
    return words[word]


def finish(outcome: "Outcome") -> None:
    """Write what has changed, and say what it is.

    Raises
    ------
    OutputError
        If somebody else has changed a table since it was read.
    """
    from fewtubes.command_line.put_out import put_out
    from fewtubes.report.terminal.keeping import print_outcome

    folder = outcome.folder
    put_out(
        lambda console: print_outcome(outcome, console),
        {folder: outcome.files} if outcome.files else {},
        earlier={folder: outcome.earlier},
    )
