"""Clashes of demands, against looking at every palette, and by hand."""

from collections.abc import Callable
from dataclasses import replace
from itertools import combinations

import pytest

from fewtubes.selection.certificate import Status
from fewtubes.selection.feasibility import (
    ClashReport,
    Demand,
    NearestFigure,
    explain_clash,
    fewest_tubes,
    greatest_value,
    smallest_budget,
)
from fewtubes.selection.instance import ChoiceInstance, Palette

LIMIT_S = 60.0

FOUR_TUBES = ChoiceInstance(
    weights=(4, 3, 2),
    minimal_sets=(((0,),), ((1, 2),), ((3,),)),
    prices=(500, 300, 200, 100),
    fades=(1, 1, 1, 1),
    owned=frozenset(),
    must_have=frozenset(),
    budget=1100,
    most_tubes=4,
)
"""Tube 0 (500) covers 4, tubes 1 and 2 (300 + 200) cover 3, tube 3 (100) covers 2."""


def clashes(*demands: Demand) -> tuple[frozenset[Demand], ...]:
    """Return one clash of these demands."""
    return (frozenset(demands),)


def remedies(report: ClashReport) -> dict[Demand, int | None]:
    """Return the figures that would do, all of them proven."""
    assert {remedy.status for remedy in report.remedies} == {Status.PROVEN}
    return {remedy.demand: remedy.figure for remedy in report.remedies}


def test_demands_that_can_be_met_do_not_clash() -> None:
    met = replace(FOUR_TUBES, least_value=9, must_have=frozenset({3}))
    assert explain_clash(met, seconds=LIMIT_S) == ClashReport((), True, ())


def test_must_have_tubes_over_the_budget() -> None:
    report = explain_clash(
        replace(FOUR_TUBES, must_have=frozenset({0, 1}), budget=799), seconds=LIMIT_S
    )
    assert report.clashes == clashes(Demand.MUST_HAVE, Demand.BUDGET)
    # 500 + 300 = 800; neither fewer tubes nor a lower aim would help.
    assert remedies(report) == {
        Demand.BUDGET: 800,
        Demand.MOST_TUBES: None,
        Demand.LEAST_VALUE: None,
    }


def test_more_must_have_tubes_than_may_be_bought() -> None:
    report = explain_clash(
        replace(FOUR_TUBES, must_have=frozenset({1, 2, 3}), most_tubes=2), seconds=LIMIT_S
    )
    assert report.clashes == clashes(Demand.MUST_HAVE, Demand.MOST_TUBES)
    assert remedies(report) == {
        Demand.BUDGET: None,
        Demand.MOST_TUBES: 3,
        Demand.LEAST_VALUE: None,
    }


def test_least_value_beyond_every_tube_together() -> None:
    report = explain_clash(replace(FOUR_TUBES, least_value=10), seconds=LIMIT_S)
    assert report.clashes == clashes(Demand.LEAST_VALUE)
    # 4 + 3 + 2 = 9 is all there is.
    assert remedies(report) == {
        Demand.BUDGET: None,
        Demand.MOST_TUBES: None,
        Demand.LEAST_VALUE: 9,
    }


def test_least_value_beyond_the_budget() -> None:
    report = explain_clash(replace(FOUR_TUBES, least_value=7, budget=650), seconds=LIMIT_S)
    assert report.clashes == clashes(Demand.BUDGET, Demand.LEAST_VALUE)
    # 7 = 4 + 3 takes tubes 0, 1, 2 (1000); within 650 it is 4 + 2 = 6 (600).
    assert remedies(report) == {
        Demand.BUDGET: 1000,
        Demand.MOST_TUBES: None,
        Demand.LEAST_VALUE: 6,
    }


def test_least_value_beyond_the_number_of_tubes() -> None:
    report = explain_clash(replace(FOUR_TUBES, least_value=7, most_tubes=2), seconds=LIMIT_S)
    assert report.clashes == clashes(Demand.MOST_TUBES, Demand.LEAST_VALUE)
    assert remedies(report) == {
        Demand.BUDGET: None,
        Demand.MOST_TUBES: 3,
        Demand.LEAST_VALUE: 6,
    }


def test_budget_and_number_of_tubes_can_clash_only_together() -> None:
    # 5 = 3 + 2 takes tubes 1, 2, 3 (600, three tubes); or 6 = 4 + 2 tubes 0, 3 (600, two tubes).
    # With tube 0 at 900: three tubes at 600, or two tubes at 1000.
    dear = replace(FOUR_TUBES, prices=(900, 300, 200, 100), least_value=5)
    report = explain_clash(replace(dear, budget=700, most_tubes=2), seconds=LIMIT_S)
    assert report.clashes == clashes(Demand.BUDGET, Demand.MOST_TUBES, Demand.LEAST_VALUE)
    # Two tubes within 700: 1 and 2 cover 3 (500).
    assert remedies(report) == {
        Demand.BUDGET: 1000,
        Demand.MOST_TUBES: 3,
        Demand.LEAST_VALUE: 3,
    }


def test_several_clashes_are_all_named() -> None:
    # Tubes 0 and 1 must be had (800, two): over the budget, and over the number of tubes.
    report = explain_clash(
        replace(FOUR_TUBES, must_have=frozenset({0, 1}), budget=700, most_tubes=1),
        seconds=LIMIT_S,
    )
    assert set(report.clashes) == {
        frozenset({Demand.MUST_HAVE, Demand.BUDGET}),
        frozenset({Demand.MUST_HAVE, Demand.MOST_TUBES}),
    }
    assert set(remedies(report).values()) == {None}


@pytest.mark.parametrize("block", range(4))
def test_clashes_and_remedies_agree_with_looking_at_every_palette(
    block: int,
    random_instance: Callable[[int | str], ChoiceInstance],
    exhaustive: Callable[[ChoiceInstance], tuple[Palette, ...]],
) -> None:
    drawn = [random_instance(f"clash {block} {k}") for k in range(60)]
    impossible = [instance for instance in drawn if not exhaustive(instance)]
    assert len(impossible) >= 8
    for instance in impossible:
        report = explain_clash(instance, seconds=LIMIT_S)
        assert report.complete
        assert set(report.clashes) == smallest_clashes(instance), instance
        assert remedies(report) == nearest_figures(instance), instance


def met(instance: ChoiceInstance, palette: Palette, demand: Demand) -> bool:
    """Return whether a palette meets one demand."""
    return {
        Demand.MUST_HAVE: instance.must_have <= set(palette.bought),
        Demand.BUDGET: palette.cost <= instance.budget,
        Demand.MOST_TUBES: len(palette.bought) <= instance.most_tubes,
        Demand.LEAST_VALUE: palette.value >= instance.least_value,
    }[demand]


def every_palette(instance: ChoiceInstance) -> list[Palette]:
    """Return all palettes, whatever the demands."""
    others = sorted(set(range(instance.tube_count)) - instance.owned)
    return [
        instance.palette(chosen)
        for size in range(len(others) + 1)
        for chosen in combinations(others, size)
        if not instance.doubles_in(chosen)
    ]


def smallest_clashes(instance: ChoiceInstance) -> set[frozenset[Demand]]:
    """Return the smallest sets of demands that no palette meets."""
    kinds = {
        frozenset(d for d in Demand if met(instance, palette, d))
        for palette in every_palette(instance)
    }
    impossible = [
        frozenset(demands)
        for size in range(1, 5)
        for demands in combinations(Demand, size)
        if not any(kind.issuperset(demands) for kind in kinds)
    ]
    return {demands for demands in impossible if not any(d < demands for d in impossible)}


def nearest_figures(instance: ChoiceInstance) -> dict[Demand, int | None]:
    """Return, for each demand that is a number, the nearest one with all other demands met."""
    every = every_palette(instance)

    def allowed(free: Demand) -> list[Palette]:
        kept = [d for d in Demand if d is not free]
        return [p for p in every if all(met(instance, p, d) for d in kept)]

    return {
        Demand.BUDGET: min((p.cost for p in allowed(Demand.BUDGET)), default=None),
        Demand.MOST_TUBES: min((len(p.bought) for p in allowed(Demand.MOST_TUBES)), default=None),
        Demand.LEAST_VALUE: max((p.value for p in allowed(Demand.LEAST_VALUE)), default=None),
    }


def test_without_time_nothing_is_claimed() -> None:
    clash = replace(FOUR_TUBES, least_value=7, budget=650)
    report = explain_clash(clash, seconds=0.0)
    assert not report.complete
    assert report.clashes == ()
    assert smallest_budget(clash, seconds=0.0) == NearestFigure(Demand.BUDGET, None, Status.STOPPED)
    assert fewest_tubes(clash, seconds=0.0).status is Status.STOPPED
    # 6 is what the first good palette reaches, before anything is proven.
    assert greatest_value(clash, seconds=0.0) == NearestFigure(
        Demand.LEAST_VALUE, 6, Status.STOPPED
    )


def test_smallest_budget_counts_owned_tubes_as_free() -> None:
    owned = replace(FOUR_TUBES, owned=frozenset({0}), prices=(0, 300, 200, 100), least_value=6)
    # 4 is free; 2 more by tube 3 (100) rather than 3 more by tubes 1 and 2 (500).
    assert smallest_budget(owned, seconds=LIMIT_S).figure == 100
    assert fewest_tubes(owned, seconds=LIMIT_S).figure == 1
