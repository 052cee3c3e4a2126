"""The search for a Pareto front of coverage and cost: every step of it, with proofs.

Between two neighbouring steps (cost c, value v) and (cost c', value v') lies a gap: it is proven
when no palette of value above v costs less than c'. All gaps are proven together by one exact
search; a palette found in one becomes a step itself, and the gaps beside it are looked at in the
next round.
This is the ε-constraint method (Haimes, Lasdon, Wismer, IEEE Transactions on Systems, Man, and
Cybernetics 1, 1971, 296–297, from memory), with all constraints at once.
"""

import time
from collections.abc import Callable, Sequence
from dataclasses import replace
from functools import partial

import numpy as np

from fewtubes.comparison.archive import Archive
from fewtubes.comparison.beam import grow
from fewtubes.comparison.front_proofs import Empty, levels
from fewtubes.comparison.front_steps import Front, FrontStep
from fewtubes.comparison.search_palettes import palette_of
from fewtubes.masks import BoolArray
from fewtubes.selection.explore import explore_all
from fewtubes.selection.instance import ChoiceInstance
from fewtubes.selection.packed import IntArray
from fewtubes.selection.search import start_search
from fewtubes.selection.search_state import Goal, SearchState

__all__ = ["fronts"]


def fronts(
    instance: ChoiceInstance,
    barred: Sequence[frozenset[int]],
    *,
    seconds: float,
    known: Sequence[frozenset[int]] = (),
    with_owned: Callable[[frozenset[int]], ChoiceInstance] | None = None,
) -> tuple[Front, ...]:
    """Return the front for each set of tubes that are ruled out.

    Parameters
    ----------
    instance
        Its budget and least value are disregarded: both are what the front is about.
    barred
        Tubes not used, one set for each front; owned ones among them are left in the box, and a
        must-have one among them leaves the front empty.
    seconds
        Time for all fronts together [s].
    known
        Tubes bought in palettes found elsewhere; no front falls behind them.
    with_owned
        Returns the instance with some of the owned tubes alone, whose costs may be others where
        paint depends on the palette; by default nothing else changes.
    """
    usual = partial(_with_owned, instance)
    work = _Fronts(instance, tuple(barred), time.monotonic() + seconds, with_owned or usual)
    for level in levels(barred):
        work.settle([number for number in level if not instance.must_have & barred[number]])
    work.share(known)
    return tuple(work.front(number) for number in range(len(barred)))


def _with_owned(instance: ChoiceInstance, owned: frozenset[int]) -> ChoiceInstance:
    """Return an instance with other owned tubes."""
    return replace(instance, owned=owned)


class _Fronts:
    """What is known so far of all fronts of an instance."""

    def __init__(
        self,
        instance: ChoiceInstance,
        barred: tuple[frozenset[int], ...],
        deadline: float,
        with_owned: Callable[[frozenset[int]], ChoiceInstance],
    ) -> None:
        self._instance = instance
        self._boxes = {instance.owned: instance}
        self._with_owned = with_owned
        # What an owned tube makes stays out, even where that is left in the box: so a stricter
        # set never covers more than a looser one.
        self._barred = tuple(tubes | instance.ruled_out for tubes in barred)
        self._deadline = deadline
        self._money = instance.any_money
        self._slots = instance.most_tubes - len(instance.must_have)
        self._archives = [Archive(instance.fading) for _ in barred]
        self._proofs: list[Empty] = []
        self._states: dict[frozenset[int], SearchState] = {}
        self._tops: dict[int, int] = {}

    def settle(self, numbers: Sequence[int]) -> None:
        """Find and prove the fronts of some of the sets, as far as time goes."""
        if self._slots < 0:
            return
        boxes = {self._box(number) for number in numbers}
        for box in sorted(boxes, key=sorted):
            same = [number for number in numbers if self._box(number) == box]
            for number in same:
                self._begin(number)
            self._prove(box, same)

    def share(self, known: Sequence[frozenset[int]]) -> None:
        """Offer each front what the others found and what is known, where time was too short."""
        must_have = self._instance.must_have
        palettes = {tubes - must_have for tubes in known}
        palettes |= {frozenset(step.added) for found in self._archives for step in found.steps}
        for number, archive in enumerate(self._archives):
            barred, box = self._barred[number], self._box(number)
            if self._slots < 0 or must_have & barred or self._all_proven(number):
                continue
            state = self._state(box)
            for tubes in sorted(palettes, key=sorted):
                added = tuple(sorted(tubes - box))
                if barred.isdisjoint(added) and len(added) <= self._slots:
                    value = int(state.values(np.array([added], dtype=np.int64).reshape(1, -1))[0])
                    self._offer(archive, box, added, value)

    def _all_proven(self, number: int) -> bool:
        gaps = self._gaps(number)
        return bool(gaps) and all(self._proven(number, *gap) for gap in gaps)

    def front(self, number: int) -> Front:
        """Return one front as far as it is known."""
        steps = self._archives[number].steps
        if not steps:
            return Front(())
        box = self._box(number)
        instance, state = self._in_box(box), self._state(box)
        return Front(
            tuple(
                FrontStep(
                    palette=palette_of(instance, state, step.added),
                    proven=self._proven(number, step.value + 1, step.cost)
                    and (
                        (place == 0 and not self._instance.must_serve)
                        or self._proven(number, step.value, step.cost - 1)
                    ),
                    sure_up_to_next=self._proven(number, *gap),
                )
                for place, (step, gap) in enumerate(zip(steps, self._gaps(number), strict=True))
            )
        )

    def _box(self, number: int) -> frozenset[int]:
        """Return the owned tubes that are in use."""
        return self._instance.owned - self._barred[number]

    def _in_box(self, box: frozenset[int]) -> ChoiceInstance:
        if box not in self._boxes:
            self._boxes[box] = self._with_owned(box)
        return self._boxes[box]

    def _state(self, box: frozenset[int]) -> SearchState:
        """Return what searches with these owned tubes share."""
        if box not in self._states:
            self._states[box] = start_search(self._in_box(box), seconds=0)
            self._states[box].deadline = self._deadline
        return self._states[box]

    def _goal(self, number: int, value: int, money: int) -> Goal:
        barred: BoolArray = np.zeros(self._instance.tube_count, dtype=np.bool_)
        barred[list(self._barred[number])] = True
        return Goal(value, self._slots, money, barred)

    def _begin(self, number: int) -> None:
        """Fill a set's archive with good palettes and with what other sets have found."""
        state, archive = self._state(self._box(number)), self._archives[number]
        for other, found in enumerate(self._archives):
            if self._box(other) == self._box(number):
                for step in found.steps:
                    if self._barred[number].isdisjoint(step.added):
                        archive.offer(step.added, step.value, step.cost)

        def judge(added: IntArray, values: IntArray, costs: IntArray) -> IntArray:
            archive.offer_all(added, values, costs)
            return archive.best_within(costs) - values

        grow(state, self._goal(number, 0, self._money), judge)
        if state.buying is not None:
            self._archives[number] = self._at_true_cost(archive, self._box(number))

    def _at_true_cost(self, guessed: Archive, box: frozenset[int]) -> Archive:
        """Return what is kept of palettes whose costs were guesses, at their true costs.

        Of as many as there is time for.
        """
        state, counted = self._state(box), Archive(self._instance.fading)
        self._offer(counted, box, (), int(state.values(np.zeros((1, 0), dtype=np.int64))[0]))
        for step in guessed.steps:
            if not state.may_go_on:
                break
            self._offer(counted, box, step.added, step.value)
        return counted

    def _offer(
        self, archive: Archive, box: frozenset[int], added: tuple[int, ...], value: int
    ) -> None:
        """Offer a palette at its true cost, if it can be had and no tube is for nothing."""
        instance, state = self._in_box(box), self._state(box)
        cost = instance.cost(instance.must_have.union(added))
        serves = not (instance.must_serve and state.has_surplus(added, value))
        if cost <= self._money and serves:
            archive.offer(added, value, cost)

    def _prove(self, box: frozenset[int], numbers: Sequence[int]) -> None:
        """Prove the gaps of some sets with the same owned tubes, round by round."""
        state = self._state(box)
        while True:
            gaps = [
                (number, gap)
                for number in numbers
                for gap in self._open_from_below(number) + self._gaps(number)
                if not self._proven(number, *gap)
            ]
            if not gaps or time.monotonic() > self._deadline:
                return
            goals = [self._goal(number, *gap) for number, gap in gaps]

            def visit(
                number: int,
                added: tuple[int, ...],
                value: int,
                cost: int,
                goals: list[Goal] = goals,
            ) -> None:
                goals[number].value = max(goals[number].value, value + 1)
                for which in numbers:
                    if self._barred[which].isdisjoint(added):
                        self._archives[which].offer(added, value, cost)

            for (number, _), goal, end in zip(
                gaps, goals, explore_all(state, goals, visit), strict=True
            ):
                if end.complete:
                    where = box if self._instance.must_serve else None
                    self._proofs.append(Empty(self._barred[number], goal.value, goal.money, where))

    def _gaps(self, number: int) -> list[tuple[int, int]]:
        """Return for each step the value and price between which and the next nothing may lie."""
        steps = self._archives[number].steps
        if not steps:
            return []
        ends = [step.cost - 1 for step in steps[1:]] + [self._money]
        return [(step.value + 1, end) for step, end in zip(steps, ends, strict=True)]

    def _open_from_below(self, number: int) -> list[tuple[int, int]]:
        """Return the same of what is cheaper than the first step, where that is not plain.

        Where prices add up, nothing is cheaper than the tubes in every palette; so it is under
        terms, if these can be had, unless the paint needed depends on the palette.
        """
        steps = self._archives[number].steps
        if self._instance.terms is None or (steps and not self._instance.must_serve):
            return []
        return [(0, steps[0].cost - 1 if steps else self._money)]

    def _proven(self, number: int, value: int, money: int) -> bool:
        """Whether no palette of this value at this price or less can exist."""
        barred, box = self._barred[number], self._box(number)
        if value > self._reachable(number):
            return True
        return any(proof.holds_for(barred, value, money, box) for proof in self._proofs)

    def _reachable(self, number: int) -> int:
        """Return what all tubes that are not barred cover together."""
        if number not in self._tops:
            tubes = frozenset(range(self._instance.tube_count)) - self._barred[number]
            self._tops[number] = self._in_box(self._box(number)).value(tubes)
        return self._tops[number]
