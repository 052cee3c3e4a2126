"""The palette whose worst coverage over several scenarios is the greatest, by exact search.

For any shares λ_k ≥ 0 with the sum 1, what covers z_k or more of each scenario k is worth
Σ λ_k·z_k or more under λ. So with one λ all palettes are looked at that are worth as much as a
better one must be; of each the coverages are counted in exact fractions, and each better one raises
what is asked for. When none is left the best known is proven best, whatever λ was; a good one only
leaves fewer to look at. It is found by linear programs over a few palettes (`fairest_program.py`),
to which whatever is worth more is added until nothing is (P. C. Gilmore, R. E. Gomory, Oper. Res.
9, 849, 1961).

This is done twice. First the worst coverage z is settled: c_k = v_k ÷ V_k comes in steps of
1 ÷ V_k, so a better palette covers (⌊z·V_k⌋ + 1) ÷ V_k of each. Then, of those that cover
⌈z·V_k⌉ ÷ V_k of each, the one of the greatest mean and the best in rank.
"""

import time
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field, replace
from fractions import Fraction
from math import ceil, floor

import numpy as np

from fewtubes.selection.explore import explore
from fewtubes.selection.fairest_program import Price, mean_price, worst_price
from fewtubes.selection.instance import Palette
from fewtubes.selection.joint import JointChoice, JointInstance
from fewtubes.selection.model import meets_demands
from fewtubes.selection.packed import IntArray
from fewtubes.selection.search import start_search
from fewtubes.selection.search_state import Goal, SearchState
from fewtubes.selection.start import good_palette

__all__ = ["fairest"]

SCALE = 10**9
"""What a coverage of 1 is worth in a search; rounding all samples up costs a few millionths."""

NEAR = Fraction(1, 1000)
"""By how much a palette must be worth more than the others to be added: less would not pay."""

MOST_ROUNDS = 60
"""Palettes added at most, for either aim; eight were enough for the ten scenarios of the demo."""

TUNING = 0.25
"""Share of the time for finding λ, for either aim."""

CERTAIN = 1e-9
"""By how much a worst coverage in doubles must fall short to be surely less."""


def fairest(joint: JointInstance, *, seconds: float, known: Sequence[Palette] = ()) -> JointChoice:
    """Find the palette of the greatest worst coverage, and of those the best in rank.

    Parameters
    ----------
    joint
        The scenarios.
    seconds
        Time after which the search stops with what it has.
    known
        Palettes to begin with, which meet the demands.
    """
    return _Fairest(joint, seconds).run(known)


@dataclass(eq=False)
class _Fairest:
    """One run of the search."""

    joint: JointInstance
    seconds: float
    state: SearchState = field(init=False)
    began: float = field(default_factory=time.monotonic)
    found: list[tuple[Fraction, ...]] = field(default_factory=list)
    """Coverages of the palettes that the linear programs are made of."""
    best: Palette | None = None
    coverages: tuple[Fraction, ...] = ()

    def __post_init__(self) -> None:
        self.state = start_search(self.joint.base, seconds=self.seconds)

    def run(self, known: Sequence[Palette]) -> JointChoice:
        """Settle the worst coverage, then the rest."""
        base = self.joint.base
        if len(base.must_have) > base.most_tubes or self._held_cost > base.budget:
            return self._choice(Fraction(0), proven=False, infeasible=True)
        least = base.palette(base.must_have)
        for palette in ([least] if meets_demands(base, least) else []) + list(known):
            self._add(palette)
        if not self.found and not self._any():
            done = time.monotonic() < self.began + self.seconds
            return self._choice(Fraction(1), proven=False, infeasible=done)
        price = self._tuned(lambda: worst_price(self.found), self._better)
        complete, left = self._all_under(price, self._better)
        bound = min(Fraction(1), max(self._worst, left))
        if complete:
            price = self._tuned(
                lambda: mean_price(self.found, self._as_good(), self.joint.shares), self._as_good
            )
            complete, _ = self._all_under(price, self._as_good)
        return self._choice(bound, proven=complete, infeasible=False)

    @property
    def _held_cost(self) -> int:
        """The least that the tubes held cost together [hundredths of the currency]."""
        return int(self.state.prices[self.state.held].sum())

    def _any(self) -> bool:
        """Find any palette that can be had, where the tubes that must be bought cannot alone."""
        price = Price(self.joint.shares, Fraction(1), Fraction(0))
        state = self._under(price, self.began + self.seconds)
        added = self._worth(state, self._goal(1))
        if added is not None:
            self._add(self._palette(added))
        return added is not None

    @property
    def _worst(self) -> Fraction:
        """The worst coverage of the best palette known."""
        return min(self.coverages, default=Fraction(0))

    def _better(self) -> tuple[Fraction, ...]:
        """Return what a palette of a better worst coverage covers of each scenario at least."""
        worst = self._worst
        return tuple(Fraction(floor(worst * total) + 1, total) for total in self.joint.totals)

    def _as_good(self) -> tuple[Fraction, ...]:
        """Return the same of one whose worst coverage is as good."""
        worst = self._worst
        return tuple(Fraction(ceil(worst * total), total) for total in self.joint.totals)

    def _sought(self, price: Price, least: tuple[Fraction, ...]) -> int:
        """Return what a palette that covers so much of each is worth in a search, at least."""
        mean = self.joint.mean(self.coverages)
        return max(1, ceil(SCALE * price.sought(least, mean, self.joint.shares)))

    def _goal(self, value: int) -> Goal:
        base = self.joint.base
        return Goal(value, base.most_tubes - len(base.must_have), base.budget)

    def _under(self, price: Price, deadline: float) -> SearchState:
        """Return the search under a λ; all share what is learnt of blockers."""
        weights = self.joint.weighed(price.shares, SCALE)
        packed = self.state.packed.reweighed(weights)
        state = replace(self.state, packed=packed, deadline=deadline)
        state.pool = self.state.pool
        return state

    def _tuned(
        self, program: Callable[[], Price], least: Callable[[], tuple[Fraction, ...]]
    ) -> Price:
        """Return the λ of a linear program, or what is near it when time is up."""
        deadline = time.monotonic() + TUNING * self.seconds
        price = program()
        for _ in range(MOST_ROUNDS):
            if time.monotonic() > deadline:
                break
            state = self._under(price, deadline)
            more = ceil(SCALE * (price.upper + NEAR))
            added = self._worth(state, self._goal(max(more, self._sought(price, least()))))
            self.state.nodes = state.nodes
            if added is None:
                break
            self._add(self._palette(added))
            price = program()
        return price

    def _worth(self, state: SearchState, goal: Goal) -> tuple[int, ...] | None:
        """Return tubes to add that are worth what is sought, the first that come; None if none."""
        start = good_palette(state, goal)
        row = np.array([start], dtype=np.int64).reshape(1, -1)
        worth = int(state.values(row)[0])
        if worth >= goal.value and meets_demands(self.joint.base, self._palette(start)):
            return start
        first: list[tuple[int, ...]] = []

        def visit(added: tuple[int, ...], _value: int, _cost: int) -> None:
            first.append(added)
            goal.slots = -1  # one is enough

        explore(state, goal, visit)
        return first[0] if first else None

    def _all_under(
        self, price: Price, least: Callable[[], tuple[Fraction, ...]]
    ) -> tuple[bool, Fraction]:
        """Look at all palettes that may be better.

        Returns
        -------
        Whether these were all, and else what those left are worth at most [0–1].
        """
        state = self._under(price, self.began + self.seconds)
        goal = self._goal(self._sought(price, least()))

        def visit(added: tuple[int, ...], _value: int, _cost: int) -> None:
            row: IntArray = np.array([added], dtype=np.int64).reshape(1, -1)
            covered = state.packed.bits(state.packed.cover(row))[0]
            if self.joint.roughly(covered) >= float(self._worst) - CERTAIN:
                self._compare(self._palette(added))
                goal.value = self._sought(price, least())

        end = explore(state, goal, visit)
        self.state.nodes = state.nodes
        return end.complete, Fraction(end.bound, SCALE)

    def _palette(self, added: tuple[int, ...]) -> Palette:
        return self.joint.base.palette(self.joint.base.must_have.union(added))

    def _add(self, palette: Palette) -> None:
        """Take a palette into the linear programs."""
        self.found.append(self.joint.of(palette))
        self._compare(palette)

    def _compare(self, palette: Palette) -> None:
        """Keep a palette if it ranks before the best known."""
        coverages = self.joint.of(palette)
        rank = (*self.joint.rank(palette, coverages), palette.bought)
        if self.best is None or rank < (
            *self.joint.rank(self.best, self.coverages),
            self.best.bought,
        ):
            self.best, self.coverages = palette, coverages

    def _choice(self, bound: Fraction, *, proven: bool, infeasible: bool) -> JointChoice:
        return JointChoice(
            palette=None if infeasible else self.best,
            coverages=() if infeasible else self.coverages,
            bound=bound,
            proven=proven,
            infeasible=infeasible,
            nodes=self.state.nodes,
            seconds=time.monotonic() - self.began,
            aim=self._worst,
        )
