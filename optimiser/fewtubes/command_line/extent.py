"""How much is compared, from options."""

from typing import TYPE_CHECKING

from fewtubes.command_line.asked import told_of_options
from fewtubes.command_line.numbers import seconds_within
from fewtubes.defaults import PROOF_SECONDS
from fewtubes.errors import Fault, InputError

if TYPE_CHECKING:
    from fewtubes.comparison.extent import Extent

__all__ = ["extent_of"]


def extent_of(
    *, up_to: int, near: int, within: float, near_size: int | None, seconds: float | None
) -> "Extent":
    """Return the extent; raise `InputError` with every option that is out of bounds."""
    from fewtubes.comparison.extent import Extent

    faults: list[Fault] = []
    patience, extent = PROOF_SECONDS, None
    try:
        patience = patience if seconds is None else seconds_within("--seconds", seconds)
    except InputError as error:
        faults += error.faults
    try:
        with told_of_options():
            extent = Extent(up_to, near, within, near_size, patience)
    except InputError as error:
        faults = [*error.faults, *faults]
    if faults or extent is None:
        raise InputError(faults)
    return extent
