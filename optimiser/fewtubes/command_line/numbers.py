"""Numbers given as options, held to their limits in the words the tables use."""

from collections.abc import Iterable
from decimal import Decimal

from fewtubes.catalogue.commas import comma_hint
from fewtubes.catalogue.limits import PRICE, NumberRange, shown
from fewtubes.catalogue.money import amount_fault, exact_amount, hundredths
from fewtubes.errors import Fault, InputError

__all__ = [
    "SECONDS",
    "in_range",
    "price_within",
    "seconds_within",
]

SECONDS = NumberRange(0, 86_400, above=True)
"""Patience [s]; a day at most."""


def seconds_within(option: str, value: float) -> float:
    """Return a time [s]; raise `InputError` if it is out of bounds."""
    in_range([(option, value, SECONDS)])
    return value


def price_within(option: str, text: str | None) -> int | None:
    """Return a price in hundredths of the currency; raise `InputError` if it is none."""
    if text is None:
        return None
    price = exact_amount(text)
    hint = comma_hint(text) or "; give an amount such as 8.00"
    fault = f"{shown(text)} is not a plain number{hint}"
    if price is not None:
        fault = amount_fault(price, PRICE) or ""
    if fault:
        raise InputError([Fault(option, f"the price {fault}.")])
    return hundredths(price or Decimal(0))


def in_range(given: Iterable[tuple[str, float | None, NumberRange]]) -> None:
    """Raise `InputError` with every option whose value, if it has one, is out of its range."""
    faults = [
        Fault(option, f"{fault}.")
        for option, value, allowed in given
        if value is not None and (fault := allowed.fault(value))
    ]
    if faults:
        raise InputError(faults)
