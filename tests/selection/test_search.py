"""The exact search against exhaustive search and against the integer program."""

from collections.abc import Callable
from dataclasses import replace

import pytest

from fewtubes.selection.certificate import Status
from fewtubes.selection.instance import ChoiceInstance, Palette
from fewtubes.selection.search import search

MakeInstance = Callable[[int | str], ChoiceInstance]
Exhaustive = Callable[[ChoiceInstance], tuple[Palette, ...]]


@pytest.mark.parametrize("seed", range(300))
def test_equals_exhaustive_search(
    seed: int, random_instance: MakeInstance, exhaustive: Exhaustive
) -> None:
    """Origin of the expected palettes: every palette is looked at."""
    instance = random_instance(seed)
    expected = exhaustive(instance)
    choice = search(instance)
    if not expected:
        assert choice.certificate.status is Status.INFEASIBLE
        assert choice.palettes == ()
    else:
        assert choice.certificate.status is Status.PROVEN
        assert choice.certificate.value == choice.certificate.bound == expected[0].value
        assert choice.palettes[0].rank == expected[0].rank
        if choice.complete:
            assert choice.palettes == expected


@pytest.mark.parametrize("last_tubes", [0, 1, 2])
def test_bound_and_branching_alone_equal_exhaustive_search(
    last_tubes: int,
    random_instance: MakeInstance,
    exhaustive: Exhaustive,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """With fewer tubes filled by trial, small instances go through the bound and the splitting."""
    monkeypatch.setattr("fewtubes.selection.explore.LAST_TUBES", last_tubes)
    for seed in range(60):
        instance = random_instance(f"branching {seed}")
        expected = exhaustive(instance)
        choice = search(instance)
        assert (choice.palettes[0].rank if choice.palettes else None) == (
            expected[0].rank if expected else None
        )
        if choice.complete:
            assert choice.palettes == expected


def test_says_when_it_was_stopped(random_instance: MakeInstance) -> None:
    stopped = 0
    for seed in range(40):
        choice = search(random_instance(seed), seconds=0)
        if choice.certificate.status is Status.STOPPED:
            stopped += 1
            assert choice.certificate.bound >= choice.certificate.value
            assert not choice.complete
    assert stopped > 10


def test_same_answer_every_time(random_instance: MakeInstance) -> None:
    instance = random_instance(7)
    assert search(instance).palettes == search(instance).palettes


def test_more_budget_is_never_worse(random_instance: MakeInstance) -> None:
    for seed in range(30):
        instance = replace(random_instance(seed), least_value=0, must_have=frozenset())
        values = [
            search(replace(instance, budget=budget)).certificate.value
            for budget in (0, sum(instance.prices) // 2, sum(instance.prices))
        ]
        assert values == sorted(values)
