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
⌈z·V_k⌉ ÷ V_k of each, the greatest mean, unless it is known that none is greater. Last, of those
with both, the fewest tubes, the fewest that fade, and the lowest price, one after the other.

Where of a scenario k some coverage f_k is asked for at least, whatever is looked for covers the
larger of that and of what is said above, and the argument stays the same. Whether any palette
covers f_k of each is settled before: under any λ it would be worth Σ λ_k·f_k. The greatest mean
above such floors (`fairest_mean`) is the second step alone, with z = 0.
"""

import time
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from math import ceil

from fewtubes.selection.fairest_program import Price, mean_price, worst_price
from fewtubes.selection.fairest_search import SCALE, FairestSearch
from fewtubes.selection.instance import Palette
from fewtubes.selection.joint import JointChoice, JointInstance
from fewtubes.selection.model import meets_demands
from fewtubes.selection.search_state import Goal, SearchState

__all__ = ["fairest", "fairest_mean"]

NEAR = Fraction(1, 1000)
"""By how much a palette must be worth more than the others to be added: less would not pay."""

MOST_ROUNDS = 60
"""Palettes added at most, for either aim; eight were enough for the ten scenarios of the demo."""

TUNING = 0.25
"""Share of the time for finding λ, for either aim."""


def fairest(
    joint: JointInstance,
    *,
    seconds: float,
    known: Sequence[Palette] = (),
    most_mean: Fraction = Fraction(1),
) -> JointChoice:
    """Find the palette of the greatest worst coverage, and of those the best in rank.

    Parameters
    ----------
    joint
        The scenarios.
    seconds
        Time after which the search stops with what it has.
    known
        Palettes to begin with, which meet the demands.
    most_mean
        Mean coverage that no palette exceeds, if that is known [0–1].

    Returns
    -------
    Infeasible if no palette meets the demands, the floors of the scenarios among them.
    """
    return _Fairest(joint, seconds, most_mean).run(known)


def fairest_mean(
    joint: JointInstance,
    *,
    seconds: float,
    known: Sequence[Palette] = (),
    most_mean: Fraction = Fraction(1),
) -> JointChoice:
    """Find the palette of the greatest mean that covers of each scenario what it asks for.

    Parameters and what is returned are those of `fairest`.
    """
    return _Fairest(joint, seconds, most_mean, worst_first=False).run(known)


@dataclass(eq=False)
class _Fairest(FairestSearch):
    """One run of the search."""

    def run(self, known: Sequence[Palette]) -> JointChoice:
        """Settle what is asked for first, then the rest."""
        base = self.joint.base
        if len(base.must_have) > base.most_tubes or self.held_cost > base.budget:
            return self._choice(Fraction(0), proven=False, infeasible=True)
        least = base.palette(base.must_have)
        for palette in ([least] if meets_demands(base, least) else []) + list(known):
            self.add(palette)
        if self.best is None and not self._any():
            done = time.monotonic() < self.began + self.seconds
            return self._choice(Fraction(1), proven=False, infeasible=done)
        return self._worst_then_mean() if self.worst_first else self._mean_alone()

    def _worst_then_mean(self) -> JointChoice:
        """Settle the worst coverage, then the rest."""
        price = self._tuned(lambda: worst_price(self.found), self.better)
        capped = self._capped()
        complete, left = (True, self.worst) if capped else self._all_under(price, self.better)
        bound = min(Fraction(1), max(self.worst, left))
        if complete:
            price = self._tuned(self._price_of_mean, self.as_good)
            if self.mean < self.most_mean:
                complete, _ = self._all_under(price, self.as_good)
            complete = complete and self._ranked(price)
        return self._choice(bound, proven=complete, infeasible=False)

    def _mean_alone(self) -> JointChoice:
        """Settle the mean of those that cover what is asked for, then the rest."""
        price = self._tuned(self._price_of_mean, self.as_good)
        complete, bound = True, self.mean
        if bound < self.most_mean:
            complete, left = self._all_under(price, self.as_good)
            bound = self.mean
            if not complete:
                bound = min(
                    self.most_mean,
                    max(bound, price.mean_of(left, self.as_good(), self.joint.shares)),
                )
        complete = complete and self._ranked(price)
        return self._choice(bound, proven=complete, infeasible=False)

    def _price_of_mean(self) -> Price:
        return mean_price(self.found, self.as_good(), self.joint.shares)

    def _any(self) -> bool:
        """Find any palette that can be had and covers what is asked for, where none is known.

        Under one λ after the other the one is found that is worth more than the floors are; where
        there is none there is nothing to be found. Where they come again they are all looked at.
        """
        deadline = self.began + self.seconds
        price = Price(self.joint.shares, Fraction(1), Fraction(0))
        for _ in range(MOST_ROUNDS):
            state = self.under(price, deadline)
            added = self.worth(state, self.goal(self.sought_of_floors(price)))
            self.state.nodes = state.nodes
            if added is None:
                return False
            known = len(self.found)
            self.add(self.palette(added))
            if self.best is not None:
                return True
            if self.found[-1] in self.found[:known]:
                break
            price = worst_price(self.above_floors(), least_worth=-1.0)
        goal = self.goal(self.sought_of_floors(price))

        def tighten() -> None:
            if self.best is not None:
                goal.slots = -1  # one is enough

        self.explored(self.under(price, deadline), goal, tighten)
        return self.best is not None

    def _capped(self) -> bool:
        """Whether it is proven that no palette covers more of a scenario that is covered least.

        Where a scenario alone can have no more, nothing better is to be sought, however near to it
        the others come; so it is asked in its own whole weights, in which more is 1 more.
        """
        worst = self.worst
        for weights, total, has in zip(
            self.joint.weights, self.joint.totals, self.coverages, strict=True
        ):
            if has != worst:
                continue
            deadline = time.monotonic() + TUNING * self.seconds
            state = self.over(self.state.packed.reweighed(weights), deadline)
            goal = self.goal(int(has * total) + 1)
            if not self.any_of(state, goal) and time.monotonic() < deadline:
                return True
        return False

    def _tuned(
        self, program: Callable[[], Price], least: Callable[[], tuple[Fraction, ...]]
    ) -> Price:
        """Return the λ of a linear program, or what is near it when time is up."""
        deadline = time.monotonic() + TUNING * self.seconds
        price = program()
        for _ in range(MOST_ROUNDS):
            if time.monotonic() > deadline:
                break
            state = self.under(price, deadline)
            more = ceil(SCALE * (price.upper + NEAR))
            added = self.worth(state, self.goal(max(more, self.sought(price, least()))))
            self.state.nodes = state.nodes
            if added is None:
                break
            self.add(self.palette(added))
            price = program()
        return price

    def _all_under(
        self, price: Price, least: Callable[[], tuple[Fraction, ...]]
    ) -> tuple[bool, Fraction]:
        """Look at all palettes that may be better.

        Returns
        -------
        Whether these were all, and else what those left are worth at most [0–1].
        """
        state = self.under(price, self.began + self.seconds)
        goal = self.goal(self.sought(price, least()))

        def tighten() -> None:
            goal.value = self.sought(price, least())

        return self.explored(state, goal, tighten)

    def _ranked(self, price: Price) -> bool:
        """Settle number, fading ones and price of those that cover as much; return whether done."""
        state = self.under(price, self.began + self.seconds)
        return self._fewest_tubes(state, price) and self._cheapest(state, price)

    def _fewest_tubes(self, state: SearchState, price: Price) -> bool:
        """Find the fewest tubes that cover as much, counting up from none."""
        known = self.slots()
        for slots in range(known):
            goal = replace(self.goal(self.sought(price, self.as_good())), slots=slots)

            def tighten(goal: Goal = goal) -> None:
                goal.slots = -1 if self.slots() < known else goal.slots  # one is enough

            complete, _ = self.explored(state, goal, tighten)
            if goal.slots < 0:
                return True
            if not complete:
                return False
        return True

    def _cheapest(self, state: SearchState, price: Price) -> bool:
        """Find the fewest fading of as many tubes, then the cheapest of as few."""
        for fading_first in (True, False):
            best = self.known()
            if fading_first and not best.fading:
                continue
            goal = replace(
                self.goal(self.sought(price, self.as_good())),
                slots=self.slots(),
                fading=best.fading - 1 if fading_first else best.fading,
            )

            def tighten(goal: Goal = goal, fading_first: bool = fading_first) -> None:
                if fading_first:
                    goal.fading = self.known().fading - 1
                else:
                    goal.money = self.known().cost

            if not fading_first:
                goal.money = best.cost
            complete, _ = self.explored(state, goal, tighten)
            if not complete:
                return False
        return True

    def _choice(self, bound: Fraction, *, proven: bool, infeasible: bool) -> JointChoice:
        return JointChoice(
            palette=None if infeasible else self.best,
            coverages=() if infeasible else self.coverages,
            bound=bound,
            proven=proven,
            infeasible=infeasible,
            nodes=self.state.nodes,
            seconds=time.monotonic() - self.began,
            aim=self.worst if self.worst_first else self.mean,
        )
