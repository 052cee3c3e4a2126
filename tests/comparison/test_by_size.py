"""The best palettes of each size, against every palette there is."""

from collections.abc import Callable

import pytest

from fewtubes.comparison.by_size import best_by_size
from fewtubes.selection.instance import ChoiceInstance, Palette

Draw = Callable[[int | str], ChoiceInstance]
Every = Callable[[ChoiceInstance], tuple[Palette, ...]]


def best_by_trial(instance: ChoiceInstance, size: int, every: Every) -> tuple[Palette, ...]:
    """Return all best-ranked palettes of at most `size` tubes within the budget."""
    allowed = [p for p in every(instance) if p.cost <= instance.budget and len(p.bought) <= size]
    best = min(palette.rank for palette in allowed)
    return tuple(sorted((p for p in allowed if p.rank == best), key=lambda p: p.bought))


@pytest.mark.parametrize("up_to", [1, 3, 8])
@pytest.mark.parametrize("seed", range(100))
def test_every_rung(seed: int, up_to: int, drawn: Draw, every_palette: Every) -> None:
    """Origin of the expected palettes: every palette is looked at."""
    instance = drawn(seed)
    first = len(instance.must_have)
    found = best_by_size(instance, up_to=up_to, seconds=60)
    assert found.looked_up_to == max(first, min(up_to, instance.most_tubes))
    assert [size.size for size in found.each] == list(range(first, first + len(found.each)))
    for size in found.each:
        assert size.proven
        assert size.bound == size.value
        expected = best_by_trial(instance, size.size, every_palette)
        assert size.palettes[0].rank == expected[0].rank
        if size.complete:
            assert size.palettes == expected
    last = best_by_trial(instance, found.looked_up_to, every_palette)
    assert found.each[-1].value == last[0].value
    assert found.no_more_to_gain == (found.each[-1].size < found.looked_up_to)


def test_a_rung_that_gains_nothing_in_between_is_kept(every_palette: Every) -> None:
    """One tube brings 1; two bring no more; three together bring 6 (by hand)."""
    instance = ChoiceInstance(
        weights=(1, 5),
        minimal_sets=(((0,),), ((1, 2, 3),)),
        prices=(10, 10, 10, 10),
        fades=(1, 1, 1, 1),
        owned=frozenset(),
        must_have=frozenset(),
        budget=40,
        most_tubes=4,
    )
    found = best_by_size(instance, up_to=8, seconds=60)
    assert [size.value for size in found.each] == [0, 1, 1, 5, 6]
    assert found.each[2].palettes == found.each[1].palettes
    assert not found.no_more_to_gain  # four tubes are all that may be bought


def test_says_when_it_was_stopped(drawn: Draw, every_palette: Every) -> None:
    stopped = 0
    for seed in range(40):
        instance = drawn(seed)
        for size in best_by_size(instance, up_to=8, seconds=0).each:
            expected = best_by_trial(instance, size.size, every_palette)[0]
            assert size.value <= expected.value <= size.bound
            stopped += not size.proven
            if size.proven:
                assert size.palettes[0].rank == expected.rank
    assert stopped > 20
