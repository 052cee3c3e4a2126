"""Branch and bound against every palette: nothing sought is missed, and every bound holds.

The search as a whole begins with a good palette and asks for better ones only, so that it may give
the right answer although parts of the tree are lost. Here nothing is known beforehand and every
palette that meets a goal is asked for.
"""

from collections.abc import Callable, Iterator
from dataclasses import replace
from itertools import combinations
from typing import Any

import numpy as np
import pytest

from fewtubes.selection import explore as explore_module
from fewtubes.selection.bound import Bounds, Branches, bound_branches
from fewtubes.selection.branches import OpenNodes, charged_branches
from fewtubes.selection.explore import explore
from fewtubes.selection.instance import ChoiceInstance, Palette
from fewtubes.selection.search import start_search
from fewtubes.selection.search_state import Goal

MakeInstance = Callable[[int | str], ChoiceInstance]

SEEDS = 60


def every_palette(instance: ChoiceInstance) -> Iterator[Palette]:
    """Yield all palettes that hold the must-have tubes, whatever they cost."""
    others = sorted(set(range(instance.tube_count)) - instance.owned - instance.must_have)
    for size in range(len(others) + 1):
        for chosen in combinations(others, size):
            yield instance.palette(instance.must_have.union(chosen))


def goal_of(instance: ChoiceInstance, best: int, share: float) -> Goal:
    """Return the goal of a share of the best value [0–1] within the instance's limits."""
    slots = instance.most_tubes - len(instance.must_have)
    return Goal(max(1, best if share == 1 else int(share * best)), slots, instance.budget)


def within(instance: ChoiceInstance) -> list[Palette]:
    """Return the palettes within budget and number of tubes."""
    return [
        palette
        for palette in every_palette(instance)
        if palette.cost <= instance.budget
        and len(palette.bought) <= instance.most_tubes
        and not instance.doubles_in(palette.bought)
    ]


def no_tube_is_idle(instance: ChoiceInstance, palette: Palette) -> bool:
    """Whether the palette covers less without any one of the tubes that need not be in it."""
    bought = frozenset(palette.bought)
    return all(
        instance.palette(bought - {tube}).value < palette.value
        for tube in bought - instance.must_have
    )


@pytest.mark.parametrize("share", [0.4, 1.0])
@pytest.mark.parametrize("last_tubes", [0, 1, 3])
def test_every_palette_that_meets_the_goal_is_visited(
    last_tubes: int, share: float, random_instance: MakeInstance, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Origin of the palettes expected: all are looked at."""
    monkeypatch.setattr("fewtubes.selection.explore.LAST_TUBES", last_tubes)
    sought = 0
    for seed in range(SEEDS):
        instance = random_instance(f"visits {seed}")
        affordable = within(instance)
        best = max((palette.value for palette in affordable), default=0)
        goal = goal_of(instance, best, share)
        expected = {
            palette.bought
            for palette in affordable
            if palette.value >= goal.value and no_tube_is_idle(instance, palette)
        }
        visited: dict[tuple[int, ...], tuple[int, int]] = {}

        def visit(
            added: tuple[int, ...],
            value: int,
            cost: int,
            found: dict[tuple[int, ...], tuple[int, int]] = visited,
            instance: ChoiceInstance = instance,
        ) -> None:
            found[tuple(sorted(instance.must_have.union(added)))] = (value, cost)

        assert explore(start_search(instance, seconds=60), goal, visit).complete
        assert expected <= visited.keys(), f"seed {seed}"
        allowed = {palette.bought: (palette.value, palette.cost) for palette in affordable}
        assert all(allowed[bought] == figures for bought, figures in visited.items())
        assert all(value >= goal.value for value, _cost in visited.values())
        sought += len(expected)
    assert sought > SEEDS


@pytest.mark.parametrize("unit", [1, 10**9])
def test_no_bound_is_too_low_and_no_tube_wrongly_ruled_out_or_forced(
    unit: int, random_instance: MakeInstance, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Each branch's bound, and what follows from it, against the best of all its palettes.

    Weights that are all but multiples of a large unit show what single precision would swallow.
    """
    opened: list[OpenNodes] = []
    checked = 0

    def remember(state: Any, nodes: OpenNodes) -> Any:
        opened.append(nodes)
        return charged_branches(state, nodes)

    def check(branches: Branches, *rest: Any, steps: int) -> Bounds:
        nonlocal checked
        bounds = bound_branches(branches, *rest, steps=steps)
        target = rest[-1]
        for row, palette in enumerate(opened.pop().palette):
            reaching = [
                p
                for p in affordable
                if lies_in(instance, p, palette, branches.free[row]) and p.value >= target[row]
            ]
            more = [set(p.bought) - set(np.flatnonzero(palette).tolist()) for p in reaching]
            assert bounds.value[row] >= max((p.value for p in reaching), default=0)
            refused, required = (
                set(np.flatnonzero(flags[row]).tolist())
                for flags in (bounds.refused, bounds.required)
            )
            assert all(refused.isdisjoint(tubes) and required <= tubes for tubes in more)
            checked += bool(reaching)
        return bounds

    monkeypatch.setattr(explore_module, "LAST_TUBES", 0)
    monkeypatch.setattr(explore_module, "charged_branches", remember)
    monkeypatch.setattr(explore_module, "bound_branches", check)
    for seed in range(SEEDS // 2):
        instance = random_instance(f"bounds {unit} {seed}")
        uneven = tuple(unit * w + t * t % 7 for t, w in enumerate(instance.weights))
        instance = replace(instance, weights=uneven, least_value=0)
        affordable = within(instance)
        best = max((palette.value for palette in affordable), default=0)
        for share in (0.7, 1.0):
            goal = goal_of(instance, best, share)
            explore(start_search(instance, seconds=60), goal, lambda *_: None)
    assert checked > SEEDS // 2


def lies_in(instance: ChoiceInstance, palette: Palette, held: Any, free: Any) -> bool:
    """Whether a palette lies in the branch with these tubes held and free, shapes (n,)."""
    tubes = np.zeros(instance.tube_count, dtype=np.bool_)
    tubes[[*palette.bought, *instance.owned]] = True
    return bool((tubes >= held).all() and (tubes <= (held | free)).all())
