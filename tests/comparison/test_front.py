"""The front of coverage against cost, against every palette there is."""

import random
from collections.abc import Callable
from dataclasses import replace

import numpy as np
import pytest

from fewtubes.comparison.beam import Judge
from fewtubes.comparison.front import fronts
from fewtubes.comparison.front_steps import Front
from fewtubes.selection.instance import ChoiceInstance, Palette
from fewtubes.selection.search_state import Goal, SearchState

Draw = Callable[[int | str], ChoiceInstance]
Every = Callable[[ChoiceInstance], tuple[Palette, ...]]


def nested_floors(instance: ChoiceInstance, seed: int) -> list[frozenset[int]]:
    """Return tubes barred by ever stricter floors, and a set that lies across."""
    rng = random.Random(seed)  # noqa: S311  # no secrets are drawn
    first = frozenset(i for i, fade in enumerate(instance.fades) if fade > 2)
    second = frozenset(i for i, fade in enumerate(instance.fades) if fade > 1)
    across = frozenset(i for i in range(instance.tube_count) if rng.random() < 0.3)
    return [second, frozenset(), first, across, first]


def pairs_by_trial(
    instance: ChoiceInstance, barred: frozenset[int], every: Every
) -> list[tuple[int, int]]:
    """Return the nondominated pairs of cost and value, found by looking at every palette."""
    if instance.must_have & barred:
        return []
    left = replace(instance, owned=instance.owned - barred)
    best: dict[int, int] = {}
    for palette in every(left):
        if barred.isdisjoint(palette.bought) and not instance.doubles_in(palette.bought):
            best[palette.cost] = max(best.get(palette.cost, -1), palette.value)
    found: list[tuple[int, int]] = []
    for cost in sorted(best):
        if not found or best[cost] > found[-1][1]:
            found.append((cost, best[cost]))
    return found


def pairs(front: Front) -> list[tuple[int, int]]:
    return [(step.palette.cost, step.palette.value) for step in front.steps]


@pytest.mark.parametrize("seed", range(150))
def test_every_step_of_every_floor(seed: int, drawn: Draw, every_palette: Every) -> None:
    """Origin of the expected pairs: every palette is looked at."""
    instance = drawn(seed)
    barred = nested_floors(instance, seed)
    for front, tubes in zip(fronts(instance, barred, seconds=60), barred, strict=True):
        assert pairs(front) == pairs_by_trial(instance, tubes, every_palette)
        assert front.complete
        left = replace(instance, owned=instance.owned - tubes)
        for step in front.steps:
            assert step.proven
            assert step.palette == left.palette(step.palette.bought)
            assert tubes.isdisjoint(step.palette.bought)


def test_the_search_finds_and_proves_what_the_beam_does_not(
    drawn: Draw, every_palette: Every, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Without good palettes to begin with, and with bounds alone, the fronts are the same."""
    monkeypatch.setattr("fewtubes.comparison.front.grow", grow_nothing)
    for last_tubes in (0, 3):
        monkeypatch.setattr("fewtubes.selection.explore.LAST_TUBES", last_tubes)
        for seed in range(40):
            instance = drawn(f"no beam {seed}")
            barred = nested_floors(instance, seed)
            for front, tubes in zip(fronts(instance, barred, seconds=60), barred, strict=True):
                assert pairs(front) == pairs_by_trial(instance, tubes, every_palette)
                assert front.complete


def grow_nothing(state: SearchState, _goal: Goal, judge: Judge) -> None:
    """Show the judge the palette without any tube added, and no other."""
    none = np.zeros((1, 0), dtype=np.int64)
    judge(none, state.values(none), state.costs(none))


def test_unproven_steps_are_marked(drawn: Draw, every_palette: Every) -> None:
    """Without time only what follows by addition is proven, and nothing false is said to be."""
    unproven = 0
    for seed in range(40):
        instance = drawn(seed)
        (front,) = fronts(instance, [frozenset()], seconds=0)
        truth = pairs_by_trial(instance, frozenset(), every_palette)
        for step in front.steps:
            unproven += not step.proven
            if step.proven:
                assert (step.palette.cost, step.palette.value) in truth
        if front.complete:
            assert pairs(front) == truth
    assert unproven > 20


def test_looking_up_a_price_or_a_coverage(drawn: Draw, every_palette: Every) -> None:
    """Origin of the expected figures: every palette is looked at."""
    for seed in range(30):
        instance = drawn(seed)
        (front,) = fronts(instance, [frozenset()], seconds=60)
        palettes = every_palette(instance)
        for money in range(0, sum(instance.prices) + 1, max(1, sum(instance.prices) // 7)):
            values = [palette.value for palette in palettes if palette.cost <= money]
            step = front.within(money)
            assert (step.palette.value if step else None) == max(values, default=None)
        for value in range(1, sum(instance.weights) + 2, 3):
            costs = [palette.cost for palette in palettes if palette.value >= value]
            step = front.reaching(value)
            assert (step.palette.cost if step else None) == min(costs, default=None)


def test_too_many_must_haves_leave_nothing(drawn: Draw) -> None:
    instance = replace(drawn(3), must_have=frozenset({0, 1}), owned=frozenset(), most_tubes=1)
    (front,) = fronts(instance, [frozenset()], seconds=60)
    assert front.steps == ()
    assert front.within(10**6) is None


@pytest.mark.parametrize("seed", range(40))
def test_without_time_no_front_falls_behind_another_or_what_is_known(
    seed: int, drawn: Draw, every_palette: Every
) -> None:
    instance = drawn(seed)
    barred = nested_floors(instance, seed)
    best = min(every_palette(instance), key=lambda palette: palette.rank)
    found = fronts(instance, barred, seconds=0.0, known=[frozenset(best.bought)])
    for loose, loose_barred in zip(found, barred, strict=True):
        for strict, strict_barred in zip(found, barred, strict=True):
            if loose_barred <= strict_barred:
                for step in strict.steps:
                    within = loose.within(step.palette.cost)
                    assert within is not None
                    assert within.palette.value >= step.palette.value
    free = found[barred.index(frozenset())].within(best.cost)
    assert free is not None
    assert free.palette.value >= best.value
