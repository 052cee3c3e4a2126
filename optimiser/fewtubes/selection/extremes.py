"""The smallest price or number of tubes with which the demands can be met, by exact search."""

from dataclasses import dataclass
from enum import Enum

from fewtubes.selection.certificate import Status
from fewtubes.selection.explore import explore
from fewtubes.selection.instance import ChoiceInstance, Palette
from fewtubes.selection.search import start_search
from fewtubes.selection.search_state import Goal

__all__ = ["Extreme", "Small", "smallest"]


class Small(Enum):
    """The figure to be made small."""

    COST = "cost"
    TUBES = "tubes"

    def of(self, palette: Palette) -> int:
        """Return this figure of a palette."""
        return palette.cost if self is Small.COST else len(palette.bought)


@dataclass(frozen=True)
class Extreme:
    """The smallest possible figure, all demands met.

    Parameters
    ----------
    status
        PROVEN, STOPPED (then the figure is the best one found so far) or INFEASIBLE.
    figure
        The figure; None if no palette was found.
    """

    status: Status
    figure: int | None


def smallest(instance: ChoiceInstance, small: Small, *, seconds: float) -> Extreme:
    """Find the smallest figure among the palettes that meet every demand of an instance."""
    state = start_search(instance, seconds=seconds)
    slots = instance.most_tubes - len(instance.must_have)
    if slots < 0 or int(state.prices[state.held].sum()) > instance.budget:
        return Extreme(Status.INFEASIBLE, None)
    goal = Goal(instance.least_value, slots, instance.budget)
    found: list[Palette] = []

    def visit(added: tuple[int, ...], _value: int, _cost: int) -> None:
        found.append(instance.palette(instance.must_have.union(added)))
        if small is Small.COST:
            goal.money = found[-1].cost - 1
        else:
            goal.slots = len(added) - 1

    end = explore(state, goal, visit)
    figure = small.of(found[-1]) if found else None
    if not end.complete:
        return Extreme(Status.STOPPED, figure)
    return Extreme(Status.PROVEN if found else Status.INFEASIBLE, figure)
