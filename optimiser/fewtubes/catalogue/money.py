"""Amounts of money as whole hundredths of the currency, so that sums and ties are exact."""

import re
from decimal import Decimal, InvalidOperation

from fewtubes.catalogue.limits import NUMBER, NumberRange, shown

__all__ = ["amount_fault", "code_fault", "exact_amount", "hundredths"]

HUNDREDTH = Decimal("0.01")

CURRENCY = re.compile(r"[A-Z]{3}", re.ASCII)
"""Form of an ISO 4217 code."""


def exact_amount(text: str) -> Decimal | None:
    """Return the amount a text gives, exactly as written, or None if it is not a number."""
    if not NUMBER.fullmatch(text):
        return None
    try:
        return Decimal(text)
    except InvalidOperation:  # an exponent beyond what the decimal module can hold
        return None


def amount_fault(
    amount: Decimal, allowed: NumberRange, *, shown_as: str | None = None
) -> str | None:
    """Return what is wrong with an amount [currency], as the end of a sentence, or None.

    The sentence repeats the amount as it is `shown_as`, if that is given.
    """
    said = shown_as or shown(amount)
    fault = allowed.fault(amount, shown_as=said)
    if fault:
        return fault
    if amount != amount.quantize(HUNDREDTH):
        return f"is {said}; it may have at most two decimals, so round it"
    return None


def code_fault(code: str) -> str | None:
    """Return what is wrong with the code of a currency, as the end of a sentence, or None."""
    if CURRENCY.fullmatch(code):
        return None
    return f"is {shown(code)}; write the three capital letters of ISO 4217, such as EUR"


def hundredths(amount: Decimal) -> int:
    """Return an amount without fault in whole hundredths, e.g. 4.95 → 495."""
    return int(amount * 100)
