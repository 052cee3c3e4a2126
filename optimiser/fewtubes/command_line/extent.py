"""How much is compared, from options."""

from typing import TYPE_CHECKING

from fewtubes.command_line.asked import told_of_options
from fewtubes.command_line.numbers import seconds_within
from fewtubes.defaults import PROOF_SECONDS

if TYPE_CHECKING:
    from fewtubes.comparison.extent import Extent

__all__ = ["extent_of"]


def extent_of(
    *, up_to: int, near: int, within: float, near_size: int | None, seconds: float | None
) -> "Extent":
    """Return the extent; raise `InputError` with every option that is out of bounds."""
    from fewtubes.comparison.extent import Extent

    with told_of_options():
        return Extent(
            up_to=up_to,
            near=near,
            within=within,
            near_size=near_size,
            seconds=PROOF_SECONDS if seconds is None else seconds_within("--seconds", seconds),
        )
