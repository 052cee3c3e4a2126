"""The sums to buy bit by bit with, as they are typed beside an answer."""

from collections.abc import Sequence
from decimal import Decimal

from fewtubes.catalogue.collector import FaultCollector
from fewtubes.catalogue.money import amount_fault
from fewtubes.comparison.instalment_terms import SUM, terms_of
from fewtubes.errors import Fault, InputError
from fewtubes.page.amounts import read_amount
from fewtubes.page.tabs import FormValues

__all__ = ["MOST_TYPED", "SUMS", "sums_asked", "sums_typed", "whole_of_sums"]

SUMS = "sum"
"""The field of every sum, in their order."""

MOST_TYPED = 6
"""Sums that can be typed; `fewtubes instalments` takes more."""

NONE_GIVEN = (
    "no sum is given; give one for each time that you can buy something, the first for now."
)

TOO_MANY = (
    f"there are more than the {MOST_TYPED} that this page takes; ask with `fewtubes instalments`."
)


def sums_typed(values: FormValues) -> list[str]:
    """Return what was typed into each field, blank where nothing was."""
    typed = [*values.get(SUMS, ())][:MOST_TYPED]
    return [*typed, *([""] * (MOST_TYPED - len(typed)))]


def sums_asked(values: FormValues, currency: str) -> tuple[Decimal, ...]:
    """Return the sums in their order; fields that are blank are left out.

    Raises
    ------
    InputError
        With every fault found; `where` of a fault is ``sum-`` and the number of its field from 1.
    """
    collector = FaultCollector()
    if len(values.get(SUMS, ())) > MOST_TYPED:
        raise InputError([Fault(f"{SUMS}-1", TOO_MANY)])
    sums = []
    for place, typed in enumerate(sums_typed(values), start=1):
        if not typed.strip():
            continue
        amount, fault = read_amount(
            typed, currency, lambda given: amount_fault(given, SUM), such_as="8.00"
        )
        if fault:
            collector.note(f"{SUMS}-{place}", fault)
        sums.append(amount)
    if not sums:
        collector.note(f"{SUMS}-1", NONE_GIVEN)
    collector.raise_if_any()
    _check_together(sums)
    return tuple(sums)


def _check_together(sums: Sequence[Decimal]) -> None:
    """Raise what is wrong with the sums together, told of the first field."""
    try:
        terms_of(sums, None)
    except InputError as error:
        told = " ".join(fault.what for fault in error.faults)
        raise InputError([Fault(f"{SUMS}-1", told)]) from None


def whole_of_sums(values: FormValues) -> str:
    """Return the sums that were typed in a row, e.g. ``8 + 5 + 5``; blank if none was."""
    return " + ".join(typed.strip() for typed in sums_typed(values) if typed.strip())
