"""Amounts of paint in words, no finer than they are known.

How much paint a picture takes is known to a factor of two at best: hands, papers and palettes
differ. So an amount has one figure, and where that is a 1, a half behind it: 1, 1.5, 2, 3 … 9, 10,
15, 20. It still tells on which side of a pack it is: what is decided by the unrounded figure is
not contradicted by the printed one.
"""

import math
from decimal import Decimal

__all__ = [
    "FILE_FIGURES",
    "about_money",
    "coarse",
    "file_amount",
    "file_need",
    "file_price",
    "millilitres",
    "pictures_words",
]

LEAST_ML = 0.01
"""Less than this [ml] is told as being less: a drop has about five times as much."""

FILE_FIGURES = 2
"""Significant figures of amounts in tables and JSON."""


def coarse(value: float) -> float:
    """Return a number ≥ 0 rounded to one figure, a leading 1 to 1 or 1.5.

    Examples
    --------
    >>> [coarse(value) for value in (0.083, 0.12, 1.3, 1.8, 27.0, 960.0)]
    [0.08, 0.1, 1.5, 2.0, 30.0, 1000.0]
    """
    if not value > 0:
        return 0.0
    power = math.floor(math.log10(value))
    leading = value / 10.0**power
    kept = round(2 * leading) / 2 if leading < 2 else float(round(leading))
    return float(f"{kept * 10.0**power:.3g}")


def millilitres(ml: float, *packs: float) -> str:
    """Return an amount of paint, e.g. ``about 0.3 ml``.

    Parameters
    ----------
    ml
        [ml], ≥ 0.
    packs
        What it was held against [ml], such as the content of a pack: where the rounded figure
        would stand on the other side, it is told as being just more or just less.

    Examples
    --------
    >>> millilitres(0.272), millilitres(0.004), millilitres(5.2, 5, 15), millilitres(0.0)
    ('about 0.3 ml', 'less than 0.01 ml', 'just over 5 ml', 'none')
    """
    if not ml > 0:
        return "none"
    if ml < LEAST_ML:
        return f"less than {LEAST_ML:g} ml"
    shown = coarse(ml)
    crossed = [pack for pack in packs if (ml <= pack) != (shown <= pack)]
    if crossed:
        nearest = min(crossed, key=lambda pack: abs(ml - pack))
        return f"just {'over' if ml > nearest else 'under'} {nearest:g} ml"
    return f"about {shown:g} ml"


def pictures_words(pictures: float, planned: int) -> str:
    """Return for how many pictures paint lasts, e.g. ``about 40``.

    Parameters
    ----------
    pictures
        How many, ≥ 0; infinite where none is used.
    planned
        How many there are to be; the words are on the same side of it.

    Examples
    --------
    >>> pictures_words(43.7, 12), pictures_words(19.6, 20), pictures_words(20.4, 20)
    ('about 40', 'not quite 20', 'about 20')
    """
    if math.isinf(pictures):
        return "any number"
    shown = coarse(math.floor(pictures)) if pictures >= 1 else coarse(pictures)
    whole = f"about {shown:,.0f}" if shown >= 2 else "one or two" if pictures >= 1 else "not one"
    enough = pictures >= planned
    if enough and shown < planned:
        return f"about {planned:,}"
    if not enough and shown >= planned:
        return f"not quite {planned:,}"
    return whole


def about_money(price: float, currency: str) -> str:
    """Return a sum that follows from an amount of paint, e.g. ``about EUR 0.15``.

    Parameters
    ----------
    price
        [hundredths of the currency], ≥ 0.
    currency
        ISO 4217 code.

    Examples
    --------
    >>> about_money(14.2, "EUR"), about_money(0.3, "EUR"), about_money(0, "EUR")
    ('about EUR 0.15', 'less than EUR 0.01', 'nothing')
    """
    if not price > 0:
        return "nothing"
    if price < 1:
        return f"less than {currency} 0.01"
    return f"about {currency} {max(1, round(coarse(price))) / 100:.2f}"


def file_amount(value: float) -> float:
    """Return an amount as files hold it: to two significant figures.

    Examples
    --------
    >>> file_amount(0.27349), file_amount(1234.0)
    (0.27, 1200.0)
    """
    return float(f"{value:.{FILE_FIGURES}g}") if math.isfinite(value) else value


def file_need(ml: float, held: float) -> float:
    """Return what is needed of an amount that is enough [ml], as files hold it.

    To two significant figures, and not more than there is, so that what is left adds up.

    Examples
    --------
    >>> file_need(9.66, 10), file_need(12.6, 12.8)
    (9.7, 12.8)
    """
    return min(file_amount(ml), held)


def file_price(price: float) -> Decimal:
    """Return a sum [hundredths] that follows from an amount of paint as files hold it.

    Examples
    --------
    >>> print(file_price(14.23), file_price(0.0312))
    0.14 0.00031
    """
    return Decimal(f"{file_amount(price / 100):f}".rstrip("0").rstrip(".") or "0")
