"""What ends a command: a fault in the input, or the painter's own hand on the keyboard.

Exit codes: 0 all is well; 1 the reader of the output went away; 2 something in the input has to be
put right; 130 stopped by the keyboard, as shells have it.
"""

import errno
import os
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING, Any

import typer
from typer.core import TyperGroup

from fewtubes.errors import DefectError, FewtubesError, InputError

if TYPE_CHECKING:
    from collections.abc import Sequence

__all__ = ["DEFECT", "FAULT", "MOST_FAULTS", "STOPPED", "TellingGroup", "after_writing", "tell"]

FAULT = 2
DEFECT = 3
STOPPED = 130
"""128 and the number of the interrupt signal, 2."""

NO_ROOM = (errno.ENOSPC, errno.EDQUOT)
"""What the system says when a disk, or a painter's share of it, is full."""

MOST_FAULTS = 20
"""Faults told in one go, unless all are asked for; a screenful."""


class TellingGroup(TyperGroup):
    """Commands whose foreseen errors end in a sentence and an exit code, not in a traceback."""

    def invoke(self, ctx: Any) -> Any:
        """Run the command that was asked for."""
        try:
            return super().invoke(ctx)
        except FewtubesError as error:
            tell(error)
            raise typer.Exit(DEFECT if isinstance(error, DefectError) else FAULT) from error
        except KeyboardInterrupt as error:
            raise _stopped() from error
        except ImportError as error:
            # A compiled module that is being imported turns the interruption into this.
            if not isinstance(error.__cause__ or error.__context__, KeyboardInterrupt):
                raise
            raise _stopped() from error
        except OSError as error:
            if error.errno not in NO_ROOM:
                raise
            _leave_output()
            reason = os.strerror(error.errno)
            typer.echo(f"The report cannot be put out ({reason}); make room for it.", err=True)
            raise typer.Exit(FAULT) from error


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
        typer.echo(_safe(line), err=True)
    rest = len(lines) - len(lines[:most])
    if rest:
        typer.echo(f"… and {rest:,} more; `fewtubes check` tells all of them.", err=True)


@contextmanager
def after_writing(folder: Path | None) -> Iterator[None]:
    """Let an interruption say that the files are there already; None if none were written."""
    try:
        yield
    except KeyboardInterrupt as error:
        if folder is None:
            raise
        typer.echo(_safe(f"stopped; the files in '{folder}' were written before"), err=True)
        raise typer.Exit(STOPPED) from error


def _stopped() -> typer.Exit:
    """Say that the keyboard stopped it, and return how the command ends."""
    typer.echo("stopped; nothing was written", err=True)
    return typer.Exit(STOPPED)


def _leave_output() -> None:
    """Point standard output to nowhere, so that what is left in its buffer fails no more."""
    with open(os.devnull, "w", encoding="utf-8") as nowhere:  # noqa: PTH123  # no path of a file
        os.dup2(nowhere.fileno(), sys.stdout.fileno())


def _safe(line: str) -> str:
    """Return a line without signs that a terminal would obey."""
    return "".join(sign if sign.isprintable() else f"\\x{ord(sign):02x}" for sign in line)
