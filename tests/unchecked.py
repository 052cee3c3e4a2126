"""Values past the checks that keep hostile ones out, for what must bear them all the same."""

from copy import copy
from typing import TypeVar

__all__ = ["unchecked"]

T = TypeVar("T")


def unchecked(value: T, /, **changes: object) -> T:
    """Return a copy of a frozen value with other fields, which are not looked at."""
    made = copy(value)
    for key, changed in changes.items():
        object.__setattr__(made, key, changed)
    return made
