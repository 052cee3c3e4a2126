"""What the search for the fairest palette does again and again: weigh, look, compare."""

import time
from collections.abc import Callable, Iterable
from dataclasses import dataclass, field, replace
from fractions import Fraction
from math import ceil, floor
from operator import mul, sub

import numpy as np

from fewtubes.masks import BoolArray
from fewtubes.selection.explore import explore
from fewtubes.selection.fairest_program import Price
from fewtubes.selection.instance import Palette
from fewtubes.selection.joint import JointInstance, JointRank
from fewtubes.selection.model import meets_demands
from fewtubes.selection.packed import IntArray, PackedSets
from fewtubes.selection.search import start_search
from fewtubes.selection.search_state import Goal, SearchState
from fewtubes.selection.start import good_palette

__all__ = ["SCALE", "FairestSearch"]

SCALE = 10**9
"""What a coverage of 1 is worth in a search; rounding all samples up costs a few millionths."""

CERTAIN = 1e-9
"""By how much a worst coverage in doubles must fall short to be surely less."""


@dataclass(eq=False)
class FairestSearch:
    """The scenarios, the best palette known, and the state that all searches share."""

    joint: JointInstance
    seconds: float
    """Time for all of it [s]."""
    most_mean: Fraction
    """Mean coverage that no palette exceeds [0–1]."""
    worst_first: bool = True
    """Whether the worst coverage goes before the mean; else it does not matter."""
    state: SearchState = field(init=False)
    began: float = field(default_factory=time.monotonic)
    found: list[tuple[Fraction, ...]] = field(default_factory=list)
    """Coverages of the palettes that the linear programs are made of."""
    best: Palette | None = None
    coverages: tuple[Fraction, ...] = ()

    def __post_init__(self) -> None:
        self.state = start_search(self.joint.base, seconds=self.seconds)

    @property
    def worst(self) -> Fraction:
        """The worst coverage of the best palette known."""
        return min(self.coverages, default=Fraction(0))

    @property
    def mean(self) -> Fraction:
        """The mean coverage of the best palette known."""
        return self.joint.mean(self.coverages) if self.coverages else Fraction(0)

    @property
    def held_cost(self) -> int:
        """The least that the tubes held cost together [hundredths of the currency]."""
        return int(self.state.prices[self.state.held].sum())

    def better(self) -> tuple[Fraction, ...]:
        """Return what a palette of a better worst coverage covers of each scenario at least."""
        worst, totals = self.worst, self.joint.totals
        return self._at_least(Fraction(floor(worst * total) + 1, total) for total in totals)

    def as_good(self) -> tuple[Fraction, ...]:
        """Return the same of one whose worst coverage is as good, as far as it matters."""
        worst, totals = self.worst if self.worst_first else Fraction(0), self.joint.totals
        return self._at_least(Fraction(ceil(worst * total), total) for total in totals)

    def _at_least(self, sought: Iterable[Fraction]) -> tuple[Fraction, ...]:
        """Return what is sought of each scenario, or what is asked of it if that is more."""
        return tuple(map(max, sought, self.joint.floors))

    def known(self) -> Palette:
        """Return the best palette known, where there is one."""
        if self.best is None:
            raise ValueError("nothing is known yet")
        return self.best

    def slots(self) -> int:
        """Return how many tubes the best palette known adds to those that must be bought."""
        return len(self.known().bought) - len(self.joint.base.must_have)

    def sought(self, price: Price, least: tuple[Fraction, ...]) -> int:
        """Return what a palette that covers so much of each is worth in a search, at least."""
        return max(1, ceil(SCALE * price.sought(least, self.mean, self.joint.shares)))

    def sought_of_floors(self, price: Price) -> int:
        """Return what a palette is worth in a search, at least, that covers what is asked for."""
        worth = sum(map(mul, price.shares, self.joint.floors), Fraction(0))
        return max(1, ceil(SCALE * worth))

    def above_floors(self) -> list[tuple[Fraction, ...]]:
        """Return by how much the palettes found cover more of each than is asked for."""
        return [tuple(map(sub, row, self.joint.floors)) for row in self.found]

    def goal(self, value: int) -> Goal:
        """Return what is sought if it is to be worth so much."""
        base = self.joint.base
        return Goal(value, base.most_tubes - len(base.must_have), base.budget)

    def under(self, price: Price, deadline: float) -> SearchState:
        """Return the search under a λ; all share what is learnt of blockers."""
        weights = self.joint.weighed(price.shares, SCALE)
        return self.over(self.state.packed.reweighed(weights), deadline)

    def over(self, packed: PackedSets, deadline: float) -> SearchState:
        """Return the search over the same sets with other weights."""
        state = replace(self.state, packed=packed, deadline=deadline)
        state.pool = self.state.pool
        return state

    def worth(self, state: SearchState, goal: Goal) -> tuple[int, ...] | None:
        """Return tubes to add that are worth what is sought, the first that come; None if none."""
        start = good_palette(state, goal)
        row = np.array([start], dtype=np.int64).reshape(1, -1)
        worth = int(state.values(row)[0])
        if worth >= goal.value and meets_demands(self.joint.base, self.palette(start)):
            return start
        return next(iter(self.any_of(state, goal)), None)

    def any_of(self, state: SearchState, goal: Goal) -> list[tuple[int, ...]]:
        """Return the tubes added by the first palette that meets a goal; none if there is none."""
        first: list[tuple[int, ...]] = []

        def visit(added: tuple[int, ...], _value: int, _cost: int) -> None:
            first.append(added)
            goal.slots = -1  # one is enough

        explore(state, goal, visit)
        self.state.nodes = state.nodes
        return first

    def explored(
        self, state: SearchState, goal: Goal, tighten: Callable[[], None]
    ) -> tuple[bool, Fraction]:
        """Compare all palettes that meet a goal with the best known; `tighten` it after each."""

        def visit(added: tuple[int, ...], _value: int, _cost: int) -> None:
            row: IntArray = np.array([added], dtype=np.int64).reshape(1, -1)
            covered = state.packed.bits(state.packed.cover(row))[0]
            if self._may_rank(covered):
                self.compare(self.palette(added))
                tighten()

        end = explore(state, goal, visit)
        self.state.nodes = state.nodes
        return end.complete, Fraction(end.bound, SCALE)

    def _may_rank(self, covered: BoolArray) -> bool:
        """Whether what covers such samples may rank before the best known, told quickly."""
        rough = self.joint.roughly(covered)
        if any(
            has < float(least) - CERTAIN
            for has, least in zip(rough, self.joint.floors, strict=True)
        ):
            return False
        if self.worst_first:
            return float(rough.min()) >= float(self.worst) - CERTAIN
        mean = sum(float(share) * has for share, has in zip(self.joint.shares, rough, strict=True))
        return self.best is None or mean >= float(self.mean) - CERTAIN

    def palette(self, added: tuple[int, ...]) -> Palette:
        """Return the palette of the tubes that must be bought and those added."""
        return self.joint.base.palette(self.joint.base.must_have.union(added))

    def add(self, palette: Palette) -> None:
        """Take a palette into the linear programs."""
        self.found.append(self.joint.of(palette))
        self.compare(palette)

    def compare(self, palette: Palette) -> None:
        """Keep a palette if it covers what is asked for and ranks before the best known."""
        coverages = self.joint.of(palette)
        if not self.joint.keeps(coverages):
            return
        if self.best is None or self._rank(palette, coverages) < self._rank(
            self.best, self.coverages
        ):
            self.best, self.coverages = palette, coverages

    def _rank(
        self, palette: Palette, coverages: tuple[Fraction, ...]
    ) -> tuple[JointRank, tuple[int, ...]]:
        return self.joint.rank(palette, coverages, worst_first=self.worst_first), palette.bought
