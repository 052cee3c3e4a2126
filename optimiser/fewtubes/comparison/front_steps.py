"""The steps of a Pareto front of coverage and cost, each with what is proven of it.

A palette is on the front if none covers more for as little, and none as much for less.
"""

from bisect import bisect_right
from dataclasses import dataclass

from fewtubes.selection.instance import Palette

__all__ = ["Front", "FrontStep"]


@dataclass(frozen=True)
class FrontStep:
    """One step of the front: no palette covers more for as little, none as much for less.

    Parameters
    ----------
    palette
        A palette of this cost and value; there may be others.
    proven
        Whether both were proven; if not, a better palette may exist.
    sure_up_to_next
        Whether it is proven that nothing cheaper than the next step covers more; for the last
        step, that nothing does at any price.
    """

    palette: Palette
    proven: bool
    sure_up_to_next: bool


@dataclass(frozen=True)
class Front:
    """All steps, cheapest first; none if the must-have tubes cannot be bought together."""

    steps: tuple[FrontStep, ...]

    @property
    def complete(self) -> bool:
        """Whether every step is proven and none is missing."""
        return all(step.sure_up_to_next for step in self.steps)

    def within(self, money: int) -> FrontStep | None:
        """Return the step of greatest value within a price; None if no palette is as cheap."""
        place = bisect_right([step.palette.cost for step in self.steps], money)
        return self.steps[place - 1] if place else None

    def reaching(self, value: int) -> FrontStep | None:
        """Return the cheapest step of at least this value; None if no step reaches it."""
        return next((step for step in self.steps if step.palette.value >= value), None)
