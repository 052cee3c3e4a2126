"""What is compared does not contradict itself where the time was too short for proofs.

The reference is every palette of a drawn instance (`every_palette`).
"""

from collections.abc import Callable
from dataclasses import replace

import pytest

from fewtubes.comparison.by_size import BestOfSize, best_by_size
from fewtubes.comparison.caught_up import caught_up
from fewtubes.comparison.near_best import near_another, near_best
from fewtubes.selection.instance import ChoiceInstance, Palette

Draw = Callable[[int | str], ChoiceInstance]
Every = Callable[[ChoiceInstance], tuple[Palette, ...]]

SEEDS = range(60)


def poor(instance: ChoiceInstance, best: BestOfSize) -> BestOfSize:
    """Return what is known of a size when a search was stopped at once: must-have tubes alone."""
    palette = instance.palette(instance.must_have)
    return replace(best, palettes=(palette,), complete=False, proven=False)


@pytest.mark.parametrize("seed", SEEDS)
def test_no_size_is_behind_what_was_found_elsewhere(
    seed: int, drawn: Draw, every_palette: Every
) -> None:
    """Of everything there is each size then has the best that is allowed, as if proven."""
    instance = drawn(seed)
    proven = best_by_size(instance, up_to=8, seconds=60)
    known = replace(proven, each=tuple(poor(instance, best) for best in proven.each))
    found = [frozenset(palette.bought) for palette in every_palette(instance)]
    found += [frozenset(range(instance.tube_count))]
    after = caught_up(instance, known, found)
    for best, right in zip(after.each, proven.each, strict=True):
        assert best.palettes[0].rank == right.palettes[0].rank
        assert not best.proven
        assert best.bound == max(right.bound, best.value)
    assert caught_up(instance, proven, found) == proven


@pytest.mark.parametrize("seed", SEEDS)
def test_palettes_near_a_better_one_are_near_it(
    seed: int, drawn: Draw, every_palette: Every
) -> None:
    """What stays covers enough, ranks as told, and holds what no palette can do without."""
    instance = replace(drawn(seed), least_value=0)
    allowed = sorted(
        (p for p in every_palette(instance) if p.cost <= instance.budget),
        key=lambda palette: palette.rank,
    )
    size, loss, most = instance.most_tubes, max(1, allowed[0].value // 4), 5
    worse = min(allowed, key=lambda palette: (palette.value, -len(palette.bought)))
    near = near_best(
        instance, worse, best_proven=False, size=size, loss=loss, most=most, seconds=60
    )
    own = best_by_size(instance, up_to=size, seconds=60).each[-1].palettes[0]
    after = near_another(near, own, loss=loss, most=most)
    ranks = [palette.rank for palette in after.palettes]
    assert own in after.palettes
    assert ranks == sorted(ranks)
    assert len(after.palettes) == len(set(after.palettes)) <= most
    assert all(palette.value >= own.value - loss for palette in after.palettes)
    assert all(after.indispensable <= set(palette.bought) for palette in after.palettes)
    assert not after.proven
    assert not after.complete
