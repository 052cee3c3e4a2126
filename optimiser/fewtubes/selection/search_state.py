"""What searches over one instance share, and the branches they work on."""

import time
from collections.abc import Callable
from dataclasses import dataclass, field
from typing import ClassVar, Protocol

import numpy as np
import numpy.typing as npt

from fewtubes.masks import BoolArray
from fewtubes.selection.blockers import BlockerPool, Rows
from fewtubes.selection.buying import Buying
from fewtubes.selection.least_paint import LeastPaint
from fewtubes.selection.packed import IntArray, PackedSets

__all__ = ["Goal", "Nodes", "SearchState", "Sought", "Visitor", "admits"]

Visitor = Callable[[tuple[int, ...], int, int], None]
"""Called with the tubes added, the value and the price of each palette that is sought."""


@dataclass
class Goal:
    """What is sought: palettes of at least this value within slots and money.

    The visitor may tighten it while the search runs.
    """

    value: int
    """Least covered weight."""
    slots: int
    """Most tubes added to those held."""
    money: int
    """Largest price of the tubes held and added together [hundredths of the currency]."""
    barred: BoolArray | None = None
    """Tubes ruled out for this goal alone, shape (n,); None if there are none."""
    fading: int | None = None
    """Most fading tubes held and added together; None for as many as may be."""
    way: ClassVar[int] = 0
    """None in particular; see `Sought`."""
    begun: tuple[int, ...] = ()
    """Tubes added from the start, none of them held; as many in all goals that are sought at once.
    Palettes without them are not looked at."""


class Sought(Protocol):
    """A goal, or one in one way to buy, as far as a search asks."""

    @property
    def value(self) -> int:
        """See `Goal`."""

    @property
    def slots(self) -> int:
        """See `Goal`."""

    @property
    def money(self) -> int:
        """See `Goal`."""

    @property
    def barred(self) -> BoolArray | None:
        """See `Goal`."""

    @property
    def fading(self) -> int | None:
        """See `Goal`."""

    @property
    def begun(self) -> tuple[int, ...]:
        """See `Goal`."""

    @property
    def way(self) -> int:
        """The way to buy; 0 where prices add up."""


def admits(sought: Sought, value: int, added: int, cost: int, fading: int) -> bool:
    """Whether a palette of this value, number of tubes, price and fading tubes is sought."""
    few_fade = sought.fading is None or fading <= sought.fading
    return value >= sought.value and added <= sought.slots and cost <= sought.money and few_fade


@dataclass
class SearchState:
    """An instance made ready, with the blockers found so far and a count of branches."""

    packed: PackedSets
    prices: IntArray
    """Price of each tube, shape (n,); 0 for owned ones."""
    held: BoolArray
    """Tubes in every palette: owned and must-have ones, shape (n,)."""
    deadline: float
    """Value of `time.monotonic` at which to stop."""
    barred: BoolArray
    """Tubes in no palette, shape (n,); may be changed between searches, the blockers still hold."""
    fading: BoolArray
    """Tubes counted as fading if they are bought, shape (n,); no owned ones."""
    excluding: BoolArray | None = None
    """Whether a tube added rules another out, shape (n, n); None if none does. What those held rule
    out is barred."""
    buying: Buying | None = None
    """What palettes truly cost, and the ways to buy them, where that is no sum of `prices`."""
    pool: BlockerPool = field(init=False)
    nodes: int = 0
    most_nodes: int | None = None
    """Count of branches at which to stop, the same on every machine; None for none."""

    @property
    def may_go_on(self) -> bool:
        """Whether neither the deadline nor the limit on branches is reached."""
        few = self.most_nodes is None or self.nodes < self.most_nodes
        return few and time.monotonic() < self.deadline

    def __post_init__(self) -> None:
        self.pool = BlockerPool(self.packed)

    @property
    def least_paint(self) -> LeastPaint | None:
        """What paint costs at least, where pictures are planned and it is known by now."""
        if self.buying is None or self.buying.least_paint is None:
            return None
        return self.buying.least_paint(self.deadline)

    def ruled_out_beside(self, added: IntArray) -> BoolArray:
        """Return which tubes those added rule out, (branches, depth) to (branches, n)."""
        if self.excluding is None:
            return np.zeros((len(added), len(self.prices)), dtype=np.bool_)
        return np.asarray(self.excluding[added].any(axis=1))

    def prices_in(self, ways: IntArray | int) -> IntArray:
        """Return the prices of tubes in ways to buy.

        Parameters
        ----------
        ways
            The way of each branch, shape (branches,), or of all.

        Returns
        -------
        Shape (n,) where prices add up, or for one way; else (branches, n).
        """
        return self.prices if self.buying is None else self.buying.ways.prices[ways]

    def costs(self, added: IntArray, ways: IntArray | None = None) -> IntArray:
        """Return the price of held and added tubes, (branches, depth) to (branches,).

        Under terms it is the least that they cost, in the ways to buy given, shape (branches,).
        """
        if self.buying is not None and ways is not None:
            return self.buying.costs(added, ways)
        return np.asarray(self.prices[added].sum(axis=1) + int(self.prices[self.held].sum()))

    def likely_costs(self, added: IntArray) -> IntArray:
        """Return the price of held and added tubes, (palettes, depth) to (palettes,).

        Under terms it is a guess, mostly right or somewhat too high (`Buying.likely`).
        """
        return self.costs(added) if self.buying is None else self.buying.likely(added)

    def likely_costs_with_each(self, added: IntArray) -> IntArray:
        """Return the same with each further tube, (palettes, depth) to (palettes, n)."""
        if self.buying is not None:
            return self.buying.likely_with_each(added)
        return np.asarray(self.costs(added)[:, None] + self.prices)

    def fading_in(self, added: IntArray) -> IntArray:
        """Return how many of held and added tubes fade, (branches, depth) to (branches,)."""
        return np.asarray(self.fading[added].sum(axis=1) + int(self.fading[self.held].sum()))

    def values(self, added: IntArray) -> IntArray:
        """Return the value of held and added tubes, (branches, depth) to (branches,)."""
        return self.packed.value(self.packed.cover(added))

    def has_surplus(self, added: tuple[int, ...], value: int) -> bool:
        """Whether one of the tubes added could be left away at no loss of value."""
        if not added:
            return False
        rest = [added[:place] + added[place + 1 :] for place in range(len(added))]
        rows = np.array(rest, dtype=np.int64).reshape(len(added), -1)
        return bool((self.values(rows) == value).any())


@dataclass(frozen=True, eq=False)
class Nodes:
    """Branches waiting; all have the same number of tubes added."""

    goals: IntArray
    """Number of the goal each is looked at for, shape (branches,)."""
    added: IntArray
    """Tubes added to the held ones, shape (branches, depth)."""
    excluded: BoolArray
    """Tubes ruled out, shape (branches, n)."""
    columns: npt.NDArray[np.intp]
    """The blockers that the parents were charged for, ascending, shape (columns,)."""
    charges: Rows
    """Charges of the parents, shape (branches, columns)."""
    bound: IntArray
    """Upper bound on the value of any palette in the branch, shape (branches,)."""

    def __len__(self) -> int:
        return len(self.bound)

    def __getitem__(self, rows: slice | BoolArray | npt.NDArray[np.intp]) -> "Nodes":
        return Nodes(
            self.goals[rows],
            self.added[rows],
            self.excluded[rows],
            self.columns,
            self.charges[rows],
            self.bound[rows],
        )
