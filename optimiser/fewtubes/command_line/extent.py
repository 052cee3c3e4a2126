"""How much is compared, from options, held to limits in the words the tables use."""

from dataclasses import replace
from typing import TYPE_CHECKING

from fewtubes.catalogue.limits import NumberRange
from fewtubes.command_line.numbers import SECONDS, in_range
from fewtubes.scenario.demands import COVERAGE, MOST_TUBES

if TYPE_CHECKING:
    from fewtubes.comparison.extent import Extent

__all__ = ["extent_of"]

NEAR = NumberRange(1, 200)
"""Near-best palettes listed; more nobody reads."""


def extent_of(
    *, up_to: int, near: int, within: float, near_size: int | None, seconds: float | None
) -> "Extent":
    """Return the extent; raise `InputError` with every option that is out of bounds."""
    from fewtubes.comparison.extent import Extent

    in_range(
        (
            ("--up-to", up_to, MOST_TUBES),
            ("--near", near, NEAR),
            ("--within", within, COVERAGE),
            ("--near-size", near_size, MOST_TUBES),
            ("--seconds", seconds, SECONDS),
        )
    )
    asked = Extent(up_to=up_to, near=near, within=within, near_size=near_size)
    return asked if seconds is None else replace(asked, seconds=seconds)
