"""What ends a command: a fault in the input, an output that fails, a hand, too little memory.

Exit codes: 0 all is well; 1 the reader of the output went away; 2 something in the input has to be
put right, or the output cannot be put out; 3 too little memory; 4 the program contradicts itself;
128 and the number of the signal that stopped it, as shells have it: 130 the keyboard, 143 asked to
end, 129 the terminal was closed.
"""

import contextlib
import errno
import os
import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING, Any

import typer
from typer.core import TyperGroup

from fewtubes.errors import DefectError, FewtubesError, InputError
from fewtubes.files.interruptions import Stopped
from fewtubes.quoting import escaped

if TYPE_CHECKING:
    from collections.abc import Sequence

__all__ = [
    "DEFECT",
    "FAULT",
    "MOST_FAULTS",
    "NO_MEMORY",
    "STOPPED",
    "TellingGroup",
    "leave_output",
    "say",
    "stopped",
    "stopped_with",
    "stopping",
    "tell",
]

READER_GONE = 1
FAULT = 2
NO_MEMORY = 3
DEFECT = 4
SIGNALLED = 128
STOPPED = 130
"""128 and the number of the interrupt signal, 2."""

NO_ROOM = (errno.ENOSPC, errno.EDQUOT)
"""What the system says when a disk, or a painter's share of it, is full."""

OUTPUT_FAILS = (errno.EFBIG, errno.EIO, errno.EBADF, errno.ENXIO)
"""What it says of other outputs: too long, broken or gone, not to be written to."""

MEMORY_SHORT = ("failed to map segment", "cannot allocate memory", "can't start new thread")
"""What errors say that are no `MemoryError`, while programs are loaded and threads are started."""

MOST_FAULTS = 20
"""Faults told in one go, unless all are asked for; a screenful."""


class TellingGroup(TyperGroup):
    """Commands whose foreseen errors end in a sentence and an exit code, not in a traceback."""

    def main(self, *args: Any, **kwargs: Any) -> Any:
        """Run the command line; help and wrong usage are put out before `invoke`."""
        try:
            return super().main(*args, **kwargs)
        except (OSError, MemoryError, ImportError, RuntimeError) as error:
            code = _foreseen(error)
            if code is None:
                raise
        sys.exit(code)

    def invoke(self, ctx: Any) -> Any:
        """Run the command that was asked for."""
        try:
            return super().invoke(ctx)
        except FewtubesError as error:
            tell(error)
            raise typer.Exit(DEFECT if isinstance(error, DefectError) else FAULT) from error
        except KeyboardInterrupt as error:
            raise stopped(error) from error
        except (ImportError, OSError) as error:
            # A compiled module that is being imported turns the interruption into the first, and a
            # terminal that was closed fails while what was shown there is cleared.
            interruption = _interruption_behind(error)
            if interruption is None:
                raise
            raise stopped(interruption) from error


def _foreseen(error: BaseException) -> int | None:
    """Say what the machine lacks, and return the exit code; None if it is a defect."""
    short = isinstance(error, MemoryError) or (
        isinstance(error, OSError) and error.errno == errno.ENOMEM
    )
    if short or any(words in str(error).lower() for words in MEMORY_SHORT):
        say(
            "There is too little memory for that; close other programs, or ask for less: fewer"
            " tubes or fewer colours."
        )
        return NO_MEMORY
    if not isinstance(error, OSError):
        return None
    if error.errno == errno.EPIPE:
        leave_output()
        return READER_GONE
    failing = error.errno in OUTPUT_FAILS and error.filename is None  # not a file that was read
    if error.errno not in NO_ROOM and not failing:
        return None
    leave_output()
    say(
        f"The report cannot be put out ({error.strerror}); make room for it or let it go elsewhere."
    )
    return FAULT


def tell(error: FewtubesError, *, most: int | None = MOST_FAULTS) -> None:
    """Say on standard error what is wrong, a line a fault or clash.

    Parameters
    ----------
    error
        What was raised.
    most
        Faults told; None tells all of them.
    """
    lines: Sequence[str] = str(error).split("\n")
    if isinstance(error, InputError):
        lines = [str(fault) for fault in error.faults]
    for line in lines[:most]:
        say(line)
    rest = len(lines) - len(lines[:most])
    if rest:
        say(f"… and {rest:,} more; `fewtubes check` tells all of them.")


@contextmanager
def stopping(place: Path | None) -> Iterator[Callable[[], None]]:
    """Let an interruption say whether the files are there already.

    Parameters
    ----------
    place
        Where they are written; None if none are.

    Yields
    ------
    A function to be called once they are written.
    """
    done: list[Path] = []
    try:
        yield lambda: None if place is None else done.append(place)
    except KeyboardInterrupt as error:
        if not done:
            raise
        say(f"stopped; the files in '{done[0]}' were written before")
        raise typer.Exit(_code_of(error)) from error


def stopped(error: KeyboardInterrupt) -> typer.Exit:
    """Say that it was stopped, and return how the command ends."""
    say("stopped; nothing was written")
    return stopped_with(error)


def stopped_with(error: KeyboardInterrupt) -> typer.Exit:
    """Return how a command ends that was stopped, once that is told."""
    return typer.Exit(_code_of(error))


def _code_of(error: KeyboardInterrupt) -> int:
    return SIGNALLED + error.number if isinstance(error, Stopped) else STOPPED


def _interruption_behind(error: BaseException) -> KeyboardInterrupt | None:
    """Return the interruption that an error came of, if any."""
    behind: BaseException | None = error
    while behind is not None and not isinstance(behind, KeyboardInterrupt):
        behind = behind.__cause__ or behind.__context__
    return behind


def leave_output() -> None:
    """Point standard output to nowhere, so that what is left in its buffer fails no more."""
    if sys.stdout is None:
        return
    with contextlib.suppress(OSError, ValueError):  # ValueError: it is no file
        nowhere = os.open(os.devnull, os.O_WRONLY)
        os.dup2(nowhere, sys.stdout.fileno())
        os.close(nowhere)


def say(line: str) -> None:
    """Say something on standard error, if anybody can still hear it."""
    with contextlib.suppress(OSError):
        typer.echo(escaped(line), err=True)
