"""The next steps beyond the budget, against every palette there is."""

import random
from collections.abc import Callable, Iterator
from dataclasses import replace
from itertools import combinations

import pytest

from fewtubes.selection import dearer
from fewtubes.selection.dearer import MOST_STEPS, cheapest_of_all, dearer_steps
from fewtubes.selection.instance import ChoiceInstance, Palette
from fewtubes.selection.search import search, start_search

MakeInstance = Callable[[int | str], ChoiceInstance]


def every_palette(instance: ChoiceInstance) -> Iterator[Palette]:
    others = sorted(set(range(instance.tube_count)) - instance.owned - instance.must_have)
    for size in range(instance.most_tubes - len(instance.must_have) + 1):
        for chosen in combinations(others, size):
            palette = instance.palette(instance.must_have.union(chosen))
            if not instance.doubles_in(palette.bought):
                yield palette


def steps_by_trial(instance: ChoiceInstance, value: int, reach: int) -> list[tuple[int, int]]:
    """Return price and value of the steps beyond the budget, every palette looked at."""
    steps: list[tuple[int, int]] = []
    while len(steps) < MOST_STEPS:
        found = [
            (p.cost, -p.value)
            for p in every_palette(instance)
            if p.value > value and p.cost <= instance.budget + reach
        ]
        if not found:
            break
        cost, negative = min(found)
        value = -negative
        steps.append((cost, value))
    return steps


@pytest.mark.parametrize("seed", range(80))
def test_equal_exhaustive_search(seed: int, random_instance: MakeInstance) -> None:
    instance = replace(random_instance(f"dearer {seed}"), least_value=0)
    instance = replace(instance, budget=instance.budget // 2)
    state = start_search(instance, seconds=60)
    choice = search(instance, state=state)
    if not choice.palettes:
        return
    best = choice.palettes[0]
    reach = random.Random(seed).choice((1, 2, 200, 2000))  # noqa: S311  # no secrets are drawn
    steps = dearer_steps(state, instance, best, reach=reach, seconds=60)
    expected = steps_by_trial(instance, best.value, reach)
    assert [(step.palette.cost, step.palette.value) for step in steps] == expected
    assert all(step.proven and step.palette.cost > instance.budget for step in steps)
    # What was learnt changes no later answer of the same searches.
    assert search(instance, state=state).palettes == choice.palettes


def test_what_is_cut_off_is_not_called_proven(
    random_instance: MakeInstance, monkeypatch: pytest.MonkeyPatch
) -> None:
    """One branch is not enough to rule anything out, and so the first step ends the list."""
    monkeypatch.setattr("fewtubes.selection.explore.LAST_TUBES", 0)
    monkeypatch.setattr("fewtubes.selection.explore.BATCH", 1)
    monkeypatch.setattr(dearer, "MOST_BRANCHES", 3)
    unproven = 0
    for seed in range(60):
        instance = replace(random_instance(f"dearer {seed}"), least_value=0)
        instance = replace(instance, budget=instance.budget // 2)
        state = start_search(instance, seconds=60)
        choice = search(instance, state=state)
        if choice.palettes:
            steps = dearer_steps(state, instance, choice.palettes[0], reach=2000, seconds=60)
            assert all(step.proven for step in steps[:-1])
            unproven += sum(not step.proven for step in steps)
        assert state.most_nodes is None
    assert unproven > 5


@pytest.mark.parametrize("seed", range(60))
def test_the_cheapest_of_all_equals_exhaustive_search(
    seed: int, random_instance: MakeInstance
) -> None:
    instance = replace(random_instance(f"all {seed}"), least_value=0, budget=0)
    instance = replace(instance, must_have=frozenset())
    state = start_search(instance, seconds=60)
    (best, *_) = search(instance, state=state).palettes
    everything = instance.palette(range(instance.tube_count)).value
    found = cheapest_of_all(state, instance, best, seconds=60)
    prices = [palette.cost for palette in every_palette(instance) if palette.value == everything]
    if best.value == everything or not prices:
        assert found is None
        return
    assert found is not None
    assert (found.palette.value, found.palette.cost) == (everything, min(prices))
    assert found.proven
    assert search(instance, state=state).palettes[0] == best  # nothing learnt misleads
