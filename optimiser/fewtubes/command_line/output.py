"""Where commands print: the report on standard output, progress on standard error."""

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from typing import TYPE_CHECKING

import typer

if TYPE_CHECKING:
    from rich.console import Console

__all__ = ["progress", "report_console"]


def report_console() -> "Console":
    """Return the console for reports; its width and colours are those of the terminal."""
    from rich.console import Console

    return Console(highlight=False, markup=False, emoji=False)


@contextmanager
def progress(stage: str) -> Iterator[Callable[[str], None]]:
    """Show on a terminal's standard error what is being done; elsewhere say only what takes long.

    Parameters
    ----------
    stage
        The first stage, e.g. ``"reading the catalogue"``.

    Yields
    ------
    A function that takes the text of the next stage.
    """
    from rich.console import Console
    from rich.text import Text

    console = Console(stderr=True)
    if not console.is_terminal:
        yield _tell_if_long
        return
    with console.status(Text(f"{stage} …")) as status:
        yield lambda text: status.update(Text(f"{text} …"))


def _tell_if_long(stage: str) -> None:
    """Say on standard error that a stage begins that takes long."""
    from fewtubes.mixing.effort import LongStage

    if isinstance(stage, LongStage):
        typer.echo(f"{stage} …", err=True)
