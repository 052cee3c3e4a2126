"""Faults are collected while reading goes on, so that one run shows all of them.

A reader that meets a fault notes it and carries on with a stand-in value. Stand-ins never leave:
whoever made the collector calls `raise_if_any` before handing out what was read.
"""

from collections.abc import Collection, Mapping

from fewtubes.catalogue.limits import NumberRange
from fewtubes.errors import Fault, InputError, suggestion

__all__ = ["FaultCollector", "check_numbers"]

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
        self._compared += len(known)
        return suggestion(unknown, known) if self._compared <= MOST_COMPARED else ""

    def raise_if_any(self) -> None:
        """Raise one `InputError` that lists every fault, if there is one."""
        if self._faults:
            raise InputError(self._faults)


def check_numbers(
    given: Mapping[str, tuple[object, NumberRange]], *, whole: Collection[str] = ()
) -> None:
    """Raise `InputError` with every value that is out of its range.

    Parameters
    ----------
    given
        Value and range by the name of the field.
    whole
        Names of those that must be whole numbers.
    """
    collector = FaultCollector()
    for key, (value, allowed) in given.items():
        collector.note_fault(key, allowed.fault(value, whole=key in whole))
    collector.raise_if_any()
