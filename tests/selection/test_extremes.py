"""The smallest price and number of tubes against looking at every palette."""

from collections.abc import Callable

import pytest

from fewtubes.selection.certificate import Status
from fewtubes.selection.extremes import Small, smallest
from fewtubes.selection.instance import ChoiceInstance


@pytest.mark.parametrize("small", list(Small))
def test_agrees_with_looking_at_every_palette(
    small: Small, random_instance: Callable[[int | str], ChoiceInstance]
) -> None:
    for k in range(40):
        instance = random_instance(f"{small.name} {k}")
        every = [
            instance.palette([i for i in range(instance.tube_count) if mask >> i & 1])
            for mask in range(1 << instance.tube_count)
        ]
        allowed = [
            small.of(palette)
            for palette in every
            if instance.must_have <= set(palette.bought)
            and palette.cost <= instance.budget
            and len(palette.bought) <= instance.most_tubes
            and palette.value >= instance.least_value
            and not instance.doubles_in(palette.bought)
        ]
        extreme = smallest(instance, small, seconds=60)
        if allowed:
            assert (extreme.status, extreme.figure) == (Status.PROVEN, min(allowed)), instance
        else:
            assert (extreme.status, extreme.figure) == (Status.INFEASIBLE, None), instance


def test_says_when_it_was_stopped(
    random_instance: Callable[[int | str], ChoiceInstance],
) -> None:
    endings = {smallest(random_instance(k), Small.COST, seconds=0).status for k in range(30)}
    assert Status.STOPPED in endings
