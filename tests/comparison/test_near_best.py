"""Palettes near the best, against every palette there is."""

import random
from collections.abc import Callable

import pytest

from fewtubes.comparison.by_size import best_by_size
from fewtubes.comparison.near_best import NearBest, near_best
from fewtubes.selection.instance import ChoiceInstance, Palette

Draw = Callable[[int | str], ChoiceInstance]
Every = Callable[[ChoiceInstance], tuple[Palette, ...]]


def near_by_trial(
    instance: ChoiceInstance, size: int, least: int, every: Every
) -> tuple[Palette, ...]:
    """Return the near-best palettes, ranked; none holds a tube it could do without."""
    found = [
        palette
        for palette in every(instance)
        if palette.cost <= instance.budget
        and len(palette.bought) <= size
        and palette.value >= least
        and not any(
            instance.palette(frozenset(palette.bought) - {tube}).value == palette.value
            for tube in set(palette.bought) - instance.must_have
        )
    ]
    return tuple(sorted(found, key=lambda palette: (palette.rank, palette.bought)))


def asked(
    instance: ChoiceInstance, seed: int, *, most: int, seconds: float = 60
) -> tuple[NearBest, int]:
    """Return near-best palettes of the last rung, and the weight that may be lost."""
    rng = random.Random(seed)  # noqa: S311  # no secrets are drawn
    rung = best_by_size(instance, up_to=8, seconds=60).each[-1]
    loss = rng.choice((0, 1, sum(instance.weights) // 4, sum(instance.weights)))
    near = near_best(
        instance,
        rung.palettes[0],
        best_proven=rung.proven,
        size=rung.size,
        loss=loss,
        most=most,
        seconds=seconds,
    )
    return near, max(0, rung.value - loss)


@pytest.mark.parametrize("most", [1, 2, 5, 1000])
@pytest.mark.parametrize("seed", range(80))
def test_all_that_come_near(seed: int, most: int, drawn: Draw, every_palette: Every) -> None:
    """Origin of the expected palettes: every palette is looked at."""
    instance = drawn(seed)
    near, least = asked(instance, seed, most=most)
    expected = near_by_trial(instance, near.size, least, every_palette)
    assert near.least_value == least
    assert near.palettes == expected[:most]
    assert near.proven
    assert near.complete == (len(expected) <= most)
    shared = frozenset.intersection(*(frozenset(palette.bought) for palette in expected))
    assert near.indispensable == shared


def test_says_when_it_was_stopped(drawn: Draw, every_palette: Every) -> None:
    stopped = 0
    for seed in range(40):
        instance = drawn(seed)
        near, least = asked(instance, seed, most=1000, seconds=0)
        expected = near_by_trial(instance, near.size, least, every_palette)
        assert set(near.palettes) <= set(expected)
        shared = frozenset.intersection(*(frozenset(palette.bought) for palette in expected))
        assert near.indispensable <= shared
        stopped += not near.proven
        if near.complete:
            assert near.palettes == expected
    assert stopped > 10
