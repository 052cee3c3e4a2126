"""Shares [0–1] in per cent."""

from decimal import Decimal

from fewtubes.catalogue.exact import Number, exact

__all__ = [
    "about_percent",
    "asked_percent",
    "percent",
    "percent_below",
    "percents_apart",
    "percents_with_difference",
    "points",
]


MOST_APART = 12
"""Decimals of a per cent that may be needed to tell two shares apart; doubles hold no more."""


def percent(share: float, decimals: int = 1) -> str:
    """Return a share [0–1] in per cent; 0 and 100 stand for none and all only."""
    shown, least = 100 * share, 10.0**-decimals
    if 0 < shown < least / 2:
        return f"under {least:.{decimals}f} %"
    if 100 - least / 2 <= shown < 100:
        return f"over {100 - least:.{decimals}f} %"
    text = f"{shown:.{decimals}f}"
    return f"{text.rstrip('0').rstrip('.') if decimals else text} %"


def percents_apart(one: float, other: float) -> tuple[str, str]:
    """Return two shares [0–1] in per cent, told apart unless they are equal."""
    for decimals in range(1, MOST_APART):
        texts = percent(one, decimals), percent(other, decimals)
        if one == other or texts[0] != texts[1]:
            break
    return texts


def percents_with_difference(less: float, more: float, lost: float) -> tuple[str, str, str]:
    """Return two shares [0–1] and what the first lacks, such that they agree as printed.

    One decimal if the first two, rounded, differ by the third, rounded; else two, of which the last
    of the first share gives way; more only where two would show nothing lost.
    """
    for decimals in range(1, MOST_APART):
        first, second, gone = (round(share, decimals + 2) for share in (less, more, lost))
        agree = round(second - gone, decimals + 2) == first
        if (gone > 0) == (lost > 0) and (agree or decimals > 1):
            break
    shown = less if agree else round(second - gone, decimals + 2)
    return percent(shown, decimals), percent(more, decimals), percent(gone, decimals)


def asked_percent(share: Number) -> str:
    """Return a share [0–1] that was asked for in per cent, with all digits it was given."""
    per_cent = 100 * exact(share)
    return f"{(Decimal(per_cent.numerator) / per_cent.denominator).normalize():f} %"


def about_percent(share: float) -> str:
    """Return a share [0–1] in whole per cent, to stand behind ``about``."""
    return f"{100 * share:.0f} %"


def percent_below(part: int, whole: int) -> str:
    """Return part ÷ whole in per cent, rounded down, for what is to be asked for and reached."""
    return f"{1000 * part // whole / 10:g} %"


def points(share: float) -> str:
    """Return a difference of shares in percentage points, e.g. ``0.4 points``."""
    if 0 < abs(share) < 0.0005:
        return "under 0.1 points"
    return f"{100 * share:.1f} points"
