"""Faults are collected while reading goes on, so that one run shows all of them.

A reader that meets a fault notes it and carries on with a stand-in value. Stand-ins never leave:
whoever made the collector calls `raise_if_any` before handing out what was read.
"""

from fewtubes.errors import Fault, InputError

__all__ = ["FaultCollector"]


class FaultCollector:
    """The faults found so far, in the order of finding."""

    def __init__(self) -> None:
        self._faults: list[Fault] = []

    def note(self, where: str, what: str) -> None:
        """Add one fault; see `fewtubes.errors.Fault` for the two texts."""
        self._faults.append(Fault(where, what))

    def raise_if_any(self) -> None:
        """Raise one `InputError` that lists every fault, if there is one."""
        if self._faults:
            raise InputError(self._faults)
