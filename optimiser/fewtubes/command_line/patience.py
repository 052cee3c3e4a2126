"""How long a command may take, from its option."""

from typing import TYPE_CHECKING

from fewtubes.command_line.numbers import seconds_within

if TYPE_CHECKING:
    from fewtubes.selection.certificate import Method
    from fewtubes.shopping.shop import Limits

__all__ = ["limits_asked", "seconds_for_mixing"]

KEPT_FOR_DRAWING = 0.4
"""Share of the time after mixing that is kept for comparing, if that is to be drawn."""


def limits_asked(
    seconds: float | None, *, method: "Method | None" = None, drawn: bool = False
) -> "Limits":
    """Return the limits; a time that is given is for the whole answer, mixing included.

    Parameters
    ----------
    seconds
        As given [s]; None if it was not.
    method
        The exact method that proves; the usual one if None.
    drawn
        Whether a report or pictures follow, which hold more than the answer.
    """
    from fewtubes.selection.certificate import Method
    from fewtubes.shopping.shop import Limits

    method = method or Method.SEARCH
    if seconds is None:
        return Limits(method=method)
    kept = KEPT_FOR_DRAWING if drawn else 0.0
    return Limits(seconds_within("--seconds", seconds), method, whole=True, kept=kept)


def seconds_for_mixing(seconds: float | None) -> float:
    """Return how long mixing may go on [s]."""
    from fewtubes.mixing.effort import MIXING_SECONDS

    return MIXING_SECONDS if seconds is None else seconds_within("--seconds", seconds)
