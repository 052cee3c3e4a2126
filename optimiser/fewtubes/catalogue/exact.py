"""Numbers exactly as they were written."""

from decimal import Decimal
from fractions import Fraction
from numbers import Integral
from typing import Any

__all__ = ["Number", "exact", "exactly_typed", "plain_number"]

Number = int | float | Fraction
"""A number that is kept as it was given; of a float that is its shortest decimal form."""


def exact(number: Number | Decimal) -> Fraction:
    """Return a finite number as a fraction: 0.1 is a tenth, not the float nearest to it."""
    if isinstance(number, float):
        return Fraction(repr(number))
    return Fraction(number)


def exactly_typed(text: str) -> Fraction:
    """Return a plain decimal number as a fraction, however many digits it has.

    Read as a `Decimal`, since `Fraction` and `int` refuse texts of more than 4,300 digits.
    """
    return Fraction(Decimal(text))


def plain_number(value: Any) -> Number:
    """Return a finite number of any kind, numpy's for example, as a plain one, exactly."""
    if isinstance(value, Integral):
        return int(value)
    if isinstance(value, Fraction | Decimal):
        return Fraction(value)
    return float(value)
