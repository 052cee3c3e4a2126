"""Amounts of money as they are typed into the page: with a currency's sign, or a comma."""

import re
from collections.abc import Callable
from decimal import Decimal

from fewtubes.catalogue.limits import shown
from fewtubes.catalogue.money import exact_amount

__all__ = ["read_amount"]

SIGNS = {"EUR": "€", "GBP": "£", "JPY": "¥", "INR": "₹", "USD": "$"}
"""Signs of currencies by ISO 4217 code; where one sign serves many, the best known."""

THOUSANDS = re.compile(r"\d{1,3}([.,' ]\d{3})+([.,]\d*)?", re.ASCII)
"""An amount with a sign between thousands, which elsewhere would be a decimal point."""


def read_amount(
    typed: str, currency: str, fault_of: Callable[[Decimal], str | None], *, such_as: str
) -> tuple[Decimal, str]:
    """Return an amount and what is wrong with it, a sentence; blank if nothing is.

    Parameters
    ----------
    typed
        As typed.
    currency
        ISO 4217 code; it, or its sign, may stand before or behind the amount.
    fault_of
        Tells what is wrong with a number, as the end of a sentence without full stop.
    such_as
        An amount that will do.
    """
    typed = typed.strip()
    bare = _without_currency(typed, currency)
    if THOUSANDS.fullmatch(bare):
        told = "leave out signs between thousands, and give at most two decimals"
        return Decimal(1), f"is {shown(typed)}; {told}."
    amount = exact_amount(bare.replace(",", "."))
    if amount is None:
        return Decimal(1), f"is {shown(typed)}; give an amount such as {such_as}."
    fault = fault_of(amount)
    return amount, f"{fault}." if fault else ""


def _without_currency(typed: str, currency: str) -> str:
    """Return an amount without the currency's code or sign, before or behind it."""
    for word in (currency, SIGNS.get(currency, "")):
        if word and typed[: len(word)].upper() == word:
            return typed[len(word) :].strip()
        if word and typed[-len(word) :].upper() == word:
            return typed[: -len(word)].strip()
    return typed
