"""The figures a palette is ranked by, and the steps in which the solver counts them."""

from enum import Enum

from fewtubes.selection.instance import Palette

__all__ = ["LOOSENED", "MOST_STEPS_BITS", "Figure", "step_of"]

MOST_STEPS_BITS = 17
"""The solver counts a figure in fewer than 2^17 steps: a tolerance of 1e-6 is then not much more
than a tenth of a step."""

LOOSENED = 0.25
"""Steps by which a bound on a figure is loosened where a step is more than a unit. Whatever keeps
the bound keeps the loosened one with more to spare than the solver's tolerances can eat up."""


class Figure(Enum):
    """The figures a palette is ranked by, in order; the value is its place in `Palette.rank`."""

    VALUE = 0
    TUBES = 1
    FADING = 2
    COST = 3
    WORST_FADE = 4
    FADE_SUM = 5

    def of(self, palette: Palette) -> int:
        """Return this figure of a palette."""
        ranked = palette.rank[self.value]
        return -ranked if self is Figure.VALUE else ranked


def step_of(total: int, unit: int) -> int:
    """Return the step in which a figure of this total is counted: the unit times a power of 2."""
    return unit << max(0, (total // unit).bit_length() - MOST_STEPS_BITS)
