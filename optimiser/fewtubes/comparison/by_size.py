"""The best palette of one tube, of two, of three …: what each further tube gains.

The best of a size is the best palette of at most that many tubes within the budget, ranked as
`Palette.rank`. All sizes are settled together: first the greatest value of each, then, since one
that covers more than the one before needs every one of its tubes, the fewest that fade, the lowest
price and the ties.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from fewtubes.comparison.beam import grow
from fewtubes.comparison.search_palettes import palette_of
from fewtubes.selection.explore import explore_all
from fewtubes.selection.instance import ChoiceInstance, Palette
from fewtubes.selection.packed import IntArray
from fewtubes.selection.search import MOST_TIES, start_search
from fewtubes.selection.search_state import Goal, SearchState

__all__ = ["BestOfSize", "BySize", "best_by_size"]


@dataclass(frozen=True)
class BestOfSize:
    """The best palettes of at most `size` tubes.

    Parameters
    ----------
    size
        Most tubes bought.
    palettes
        All that tie in every ranked figure, by tube numbers; one if not proven.
    complete
        Whether all ties are listed.
    proven
        Whether no palette of at most this size ranks better.
    bound
        Proven upper bound on the value.
    """

    size: int
    palettes: tuple[Palette, ...]
    complete: bool
    proven: bool
    bound: int

    @property
    def value(self) -> int:
        """Covered weight."""
        return self.palettes[0].value


@dataclass(frozen=True)
class BySize:
    """The best of each size, the smallest first.

    Parameters
    ----------
    each
        Up to the last one that gains anything; the first is the palette of the must-have tubes
        alone, or of no tube, with what is owned.
    looked_up_to
        Largest size looked at.
    """

    each: tuple[BestOfSize, ...]
    looked_up_to: int

    @property
    def no_more_to_gain(self) -> bool:
        """Whether it is proven that no larger size looked at covers more than the last of them."""
        return self.each[-1].proven and self.each[-1].size < self.looked_up_to


def best_by_size(instance: ChoiceInstance, *, up_to: int, seconds: float) -> BySize:
    """Return the best palette of each size up to the largest asked for.

    Parameters
    ----------
    instance
        Its least value is disregarded; the must-have tubes are within its budget and number.
    up_to
        Most tubes; never more than the instance allows.
    seconds
        Time after which the search stops with what it has [s].
    """
    first = len(instance.must_have)
    last = max(first, min(up_to, instance.most_tubes))
    return _BySize(replace(instance, least_value=0), first, last, seconds).settled()


class _BySize:
    """One run: what is known so far of each number of tubes added (place in the lists)."""

    def __init__(self, instance: ChoiceInstance, first: int, last: int, seconds: float) -> None:
        self._instance = instance
        self._first = first
        self._count = last - first + 1
        self._state: SearchState = start_search(instance, seconds=seconds)
        base = palette_of(instance, self._state, ())
        self._best = [base] * self._count

    def settled(self) -> BySize:
        """Settle values, fading tubes, prices, ties; drop sizes at the end that gain nothing."""
        self._begin()
        bounds = self._greatest_values()
        settled = [best.value == bound for best, bound in zip(self._best, bounds, strict=True)]
        gaining = [place for place in range(1, self._count) if self._gains(place)]
        for place, fewest in self._fewest_fading(gaining).items():
            settled[place] = settled[place] and fewest
        ties = self._cheapest(gaining)
        found: list[BestOfSize] = []
        for place, best in enumerate(self._best):
            palettes, complete = ties.get(place, ((best,), True))
            sure = settled[place] and complete is not None
            if place and not self._gains(place):
                palettes = found[-1].palettes
                sure = sure and found[-1].proven
                complete = found[-1].complete
            elif place:
                sure = sure and settled[place - 1]
            found.append(
                BestOfSize(
                    self._first + place, palettes, bool(complete and sure), sure, bounds[place]
                )
            )
        while len(found) > 1 and found[-1].value == found[-2].value and found[-1].proven:
            found.pop()
        return BySize(tuple(found), self._first + self._count - 1)

    def _gains(self, place: int) -> bool:
        return self._best[place].value > self._best[place - 1].value

    def _keep(self, added: tuple[int, ...], value: int) -> None:
        """Keep a palette wherever it ranks better than the one known."""
        if value < self._best[len(added)].value:
            return
        palette = palette_of(self._instance, self._state, added)
        if self._instance.terms is not None and (
            palette.cost > self._instance.budget
            or (self._instance.must_serve and self._state.has_surplus(added, value))
        ):
            return  # the price it was found at was a guess
        for place in range(len(added), self._count):
            if palette.rank < self._best[place].rank:
                self._best[place] = palette

    def _begin(self) -> None:
        """Find good palettes of each size."""
        money = self._instance.budget

        def judge(added: IntArray, values: IntArray, costs: IntArray) -> IntArray:
            if len(values):
                best = int(np.lexsort((costs, -values))[0])
                self._keep(tuple(added[best].tolist()), int(values[best]))
            return -values

        grow(self._state, Goal(0, self._count - 1, money), judge)

    def _greatest_values(self) -> list[int]:
        """Find the greatest value of each size; return proven bounds on them."""
        goals = [
            Goal(best.value + 1, place, self._instance.budget)
            for place, best in enumerate(self._best)
        ]

        def visit(_number: int, added: tuple[int, ...], value: int, _cost: int) -> None:
            self._keep(added, value)
            for goal, best in zip(goals, self._best, strict=True):
                goal.value = best.value + 1

        ends = explore_all(self._state, goals, visit)
        return [max(best.value, end.bound) for best, end in zip(self._best, ends, strict=True)]

    def _fewest_fading(self, places: Sequence[int]) -> dict[int, bool]:
        """Find the fewest fading tubes of the greatest value for some sizes.

        Returns
        -------
        By place whether that was settled.
        """
        unavoidable = len(self._instance.fading & self._instance.must_have)
        asked = [place for place in places if self._best[place].fading > unavoidable]
        goals = [self._as_good(place) for place in asked]
        for goal, place in zip(goals, asked, strict=True):
            goal.money, goal.fading = self._instance.budget, self._best[place].fading - 1

        def visit(number: int, added: tuple[int, ...], value: int, _cost: int) -> None:
            self._keep(added, value)
            goals[number].fading = self._best[asked[number]].fading - 1

        ends = explore_all(self._state, goals, visit)
        return {place: end.complete for place, end in zip(asked, ends, strict=True)}

    def _as_good(self, place: int) -> Goal:
        """Return the goal of what is as good as the best known of a size, and as cheap."""
        best = self._best[place]
        return Goal(best.value, place, best.cost, fading=best.fading)

    def _cheapest(
        self, places: Sequence[int]
    ) -> dict[int, tuple[tuple[Palette, ...], bool | None]]:
        """Find the best-ranked palettes of the greatest value for some sizes.

        Returns
        -------
        By place the ties, and whether they are all; None if the search was stopped.
        """
        kept = {place: {self._best[place].bought: self._best[place]} for place in places}
        overflow = dict.fromkeys(places, False)
        goals = [self._as_good(place) for place in places]

        def visit(number: int, added: tuple[int, ...], _value: int, cost: int) -> None:
            place = places[number]
            ties = kept[place]
            palette = palette_of(self._instance, self._state, added)
            known = next(iter(ties.values())).rank
            if palette.rank < known:
                ties.clear()
                overflow[place] = False
            elif palette.rank > known:
                return
            goals[number].money = cost
            if len(ties) < MOST_TIES or palette.bought in ties:
                ties[palette.bought] = palette
            else:
                overflow[place] = True

        ends = explore_all(self._state, goals, visit)
        return {
            place: (
                tuple(kept[place][bought] for bought in sorted(kept[place])),
                (not overflow[place]) if end.complete else None,
            )
            for place, end in zip(places, ends, strict=True)
        }
