"""Goals under terms: each is sought in every way to buy, and what is found is visited at its cost.

A goal's ways share its value, slots and money, so that what its visitor tightens holds for all.
"""

import time
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field

from fewtubes.masks import BoolArray
from fewtubes.selection.buying import Buying
from fewtubes.selection.search_state import Goal, SearchState
from fewtubes.selection.terms import OUT_OF_REACH

__all__ = ["InWay", "TrueVisits", "goals_in_ways"]

NumberedVisitor = Callable[[int, tuple[int, ...], int, int], None]


@dataclass(frozen=True)
class InWay:
    """A goal sought in one way to buy."""

    goal: Goal
    number: int
    """Of the goal."""
    way: int

    @property
    def value(self) -> int:
        """Least covered weight."""
        return self.goal.value

    @property
    def slots(self) -> int:
        """Most tubes added."""
        return self.goal.slots

    @property
    def money(self) -> int:
        """Largest cost [hundredths of the currency]."""
        return self.goal.money

    @property
    def barred(self) -> BoolArray | None:
        """Tubes ruled out for this goal."""
        return self.goal.barred

    @property
    def fading(self) -> int | None:
        """Most fading tubes."""
        return self.goal.fading

    @property
    def begun(self) -> tuple[int, ...]:
        """Tubes added from the start."""
        return self.goal.begun


def goals_in_ways(buying: Buying, goals: Sequence[Goal]) -> list[InWay]:
    """Return each goal in each way that its money may be enough for."""
    return [
        InWay(goal, number, way)
        for number, goal in enumerate(goals)
        for way in buying.ways.within(min(goal.money, OUT_OF_REACH - 1)).tolist()
    ]


@dataclass(eq=False)
class TrueVisits:
    """A visitor of goals in ways that lets through what is sought, once, at its true cost."""

    state: SearchState
    buying: Buying
    goals: Sequence[InWay]
    """By the numbers that it is called with."""
    visit: NumberedVisitor
    """Is called with the numbers of the goals themselves."""
    seen: set[tuple[int, tuple[int, ...]]] = field(default_factory=set)
    unseen: dict[int, int] = field(default_factory=dict)
    """By number of the goal the greatest value of palettes for whose cost no time was left."""

    def __call__(self, number: int, added: tuple[int, ...], value: int, _least: int) -> None:
        """Visit a palette of the value, if it is sought."""
        sought = self.goals[number]
        key = sought.number, added
        if key in self.seen:
            return
        if time.monotonic() > self.state.deadline:
            self.unseen[sought.number] = max(value, self.unseen.get(sought.number, 0))
            return
        self.seen.add(key)
        if self.buying.must_serve and self.state.has_surplus(added, value):
            return
        cost = self.buying.cost(added, min(sought.money, OUT_OF_REACH - 1))
        if cost is not None:
            self.visit(sought.number, added, value, cost)
