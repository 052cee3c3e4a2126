"""Rounded figures that do not contradict what was decided by the unrounded ones.

A match of 4.03 is beyond a tolerance of 4: printed as 4.0 it would seem to be within. Decisions are
made by unrounded figures everywhere; here such a figure gets as many decimals as show the side of
the limit that it lies on, and if it is nearer to it than the last of them tells, it is rounded away
from the limit.
"""

import math
from collections.abc import Sequence
from decimal import Decimal

__all__ = [
    "FILE_DECIMALS",
    "asked_figure",
    "file_number",
    "file_share",
    "keeping_side",
    "rounded",
]

MOST_DECIMALS = 3
"""Of a figure near a limit; a thousandth of ΔE00 or of a per cent is nobody's concern."""


FILE_DECIMALS = 4
"""Of numbers in tables and JSON."""


def keeping_side(
    value: float, limits: Sequence[float], *, decimals: int, most: int = MOST_DECIMALS
) -> tuple[float, int]:
    """Return a value rounded so that it is at most each limit just where the value itself is.

    Parameters
    ----------
    value
        A finite number.
    limits
        What it was held against, by ``value <= limit``.
    decimals, most
        Decimals it is rounded to, and those it may have near a limit.

    Returns
    -------
    The rounded value and its decimals; the value itself, unrounded, if it lies between two limits
    that nothing else with so few decimals lies between.
    """
    for digits in range(decimals, most + 1):
        nearest = round(value, digits)
        if _same_side(nearest, value, limits):
            return nearest, digits
    step = 10**most
    whole = math.floor(value * step)
    for away in (whole / step, (whole + 1) / step):
        if _same_side(away, value, limits):
            return away, most
    return value, max(most, -int(Decimal(repr(value)).as_tuple().exponent))


def _same_side(one: float, other: float, limits: Sequence[float]) -> bool:
    return all((one <= limit) == (other <= limit) for limit in limits)


def rounded(value: float, *limits: float, decimals: int = 1) -> str:
    """Return a finite value as decimals, on its side of each limit (see `keeping_side`)."""
    shown, digits = keeping_side(value, limits, decimals=decimals)
    return f"{shown:.{digits}f}"


def file_number(value: float, *limits: float) -> float:
    """Return a value as files hold it: on its side of each limit; unchanged if not finite."""
    if not math.isfinite(value):
        return value
    return keeping_side(value, limits, decimals=FILE_DECIMALS, most=FILE_DECIMALS)[0] + 0.0


def file_share(share: float) -> float:
    """Return a share [0–1] as files hold it; 0 and 1 stand for none and all only."""
    shown = round(share, FILE_DECIMALS) + 0.0
    least = 10.0**-FILE_DECIMALS
    return min(max(shown, least), 1 - least) if 0 < share < 1 else shown


def asked_figure(value: float) -> str:
    """Return a figure that was asked for: with one decimal, or with all it was given."""
    return f"{value:.1f}" if round(value, 1) == value else f"{Decimal(repr(value)):f}"
