"""Faults are collected while reading goes on, so that one run shows all of them.

A reader that meets a fault notes it and carries on with a stand-in value. Stand-ins never leave:
whoever made the collector calls `raise_if_any` before handing out what was read.
"""

from collections.abc import Collection, Mapping

from fewtubes.catalogue.exact import plain_number
from fewtubes.catalogue.limits import NumberRange
from fewtubes.errors import Fault, InputError, suggestion

__all__ = ["FaultCollector", "settle_numbers"]

MOST_COMPARED = 100_000
"""Names looked through for suggestions; about a second's work, and more than anyone reads."""


class FaultCollector:
    """The faults found so far, in the order of finding."""

    def __init__(self) -> None:
        self._faults: list[Fault] = []
        self._compared = 0

    def note(self, where: str, what: str) -> None:
        """Add one fault; see `fewtubes.errors.Fault` for the two texts."""
        self._faults.append(Fault(where, what))

    def note_fault(self, where: str, fault: str | None) -> None:
        """Add a fault told as the end of a sentence, if there is one."""
        if fault:
            self.note(where, fault if fault.endswith((".", "?")) else f"{fault}.")

    @property
    def is_empty(self) -> bool:
        """Whether no fault was found so far."""
        return not self._faults

    def suggestion(self, unknown: str, known: Collection[str]) -> str:
        """Return what `fewtubes.errors.suggestion` does, "" once `MOST_COMPARED` is reached.

        Faults by the thousand are still told one by one, but not each with names to choose from.
        """
        return suggestion(unknown, known) if self.may_compare(len(known)) else ""

    def may_compare(self, count: int) -> bool:
        """Return whether so many more names may still be looked through, and count them."""
        self._compared += count
        return self._compared <= MOST_COMPARED

    def raise_if_any(self) -> None:
        """Raise one `InputError` that lists every fault, if there is one."""
        if self._faults:
            raise InputError(self._faults)


def settle_numbers(
    holder: object,
    ranges: Mapping[str, NumberRange],
    *,
    whole: Collection[str] = (),
    exactly: Collection[str] = (),
    flags: Collection[str] = (),
    optional: Collection[str] = (),
    collector: FaultCollector | None = None,
) -> None:
    """Hold the numbers of a value to their ranges and keep them as plain ones.

    Numbers of numpy, for example, pass as well, and are plain `int`, `float` or `Fraction` from
    then on.

    Parameters
    ----------
    holder
        The value, which may be frozen; it is being made.
    ranges
        The range of each field.
    whole, exactly
        Fields that must be whole numbers, and those that are kept exactly as given.
    flags
        Fields that must be True or False.
    optional
        Fields that may be None.
    collector
        Takes the faults; without one they are raised.

    Raises
    ------
    InputError
        With every field at fault, unless there is a collector.
    """
    faults = collector or FaultCollector()
    for key, allowed in ranges.items():
        value = getattr(holder, key)
        if value is None and key in optional:
            continue
        fault = allowed.fault(value, whole=key in whole)
        faults.note_fault(key, fault)
        if fault is None:
            plain = int(value) if key in whole else plain_number(value)
            kept = plain if key in whole or key in exactly else float(plain)
            object.__setattr__(holder, key, kept)
    for key in flags:
        value = getattr(holder, key)
        if type(value).__name__ not in ("bool", "bool_"):
            faults.note(key, f"is {value!r}; it must be True or False.")
        object.__setattr__(holder, key, bool(value))
    if collector is None:
        faults.raise_if_any()
