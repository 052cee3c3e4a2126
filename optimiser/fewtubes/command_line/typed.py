"""Numbers as they are typed on a command line: plain ones, with a point before the decimals.

Python's own readers also take ``1_000``, ``nan`` and the digits of other scripts, and say of a
decimal comma only that something is wrong. Each function here makes the reader of one option.
"""

import re
from collections.abc import Callable
from decimal import Decimal

from fewtubes.catalogue.commas import comma_hint
from fewtubes.catalogue.limits import parsed_number, shown
from fewtubes.catalogue.money import exact_amount
from fewtubes.errors import Fault, InputError

__all__ = ["amount_reader", "count_reader", "number_reader"]

WHOLE = re.compile(r"[+-]?\d{1,18}", re.ASCII)
"""A whole number; the limits of the options stay far below so many digits."""


def amount_reader(option: str) -> Callable[[str | Decimal], Decimal]:
    """Return the reader of an option that takes an amount, exactly as typed."""

    def read(text: str | Decimal) -> Decimal:
        typed = exact_amount(text) if isinstance(text, str) else text
        if typed is None:
            raise _not_a_number(option, str(text), "12.50")
        return typed

    return read


def number_reader(option: str) -> Callable[[str | float], float]:
    """Return the reader of an option that takes a number; a default is a number already."""

    def read(text: str | float) -> float:
        typed = parsed_number(text) if isinstance(text, str) else text
        if typed is None:
            raise _not_a_number(option, str(text), "2.5")
        return typed

    return read


def count_reader(option: str) -> Callable[[str | int], int]:
    """Return the reader of an option that takes a whole number; a default is one already."""

    def read(text: str | int) -> int:
        if isinstance(text, str) and not WHOLE.fullmatch(text):
            what = f"is {shown(text)}, which is not a whole number, such as 3."
            raise InputError([Fault(option, what)])
        return int(text)

    return read


def _not_a_number(option: str, text: str, example: str) -> InputError:
    hint = comma_hint(text) or f", such as {example}"
    return InputError([Fault(option, f"is {shown(text)}, which is not a plain number{hint}.")])
