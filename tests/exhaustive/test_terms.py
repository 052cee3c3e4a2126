"""The choice under sellers' terms, by both methods, against trying every palette and purchase."""

import random
from dataclasses import replace

import pytest
from tests.exhaustive.terms_tried import Tried, draw_choice

from fewtubes.comparison.by_size import best_by_size
from fewtubes.comparison.front import fronts
from fewtubes.selection.certificate import Method, Status
from fewtubes.selection.extremes import Small, smallest
from fewtubes.selection.feasibility import explain_clash
from fewtubes.selection.purchase import cheapest_purchase, holds
from fewtubes.selection.solve import solve

CHOICES = range(200)

SECONDS = 60.0


@pytest.fixture(scope="module")
def tried() -> tuple[Tried, ...]:
    """Return the choices, with every palette tried."""
    return tuple(map(draw_choice, CHOICES))


def test_what_is_drawn_is_of_every_kind(tried: tuple[Tried, ...]) -> None:
    """So that no kind of terms goes untested by a change of the drawing."""
    drawn = [one.instance for one in tried]
    terms = [instance.terms for instance in drawn if instance.terms is not None]
    feasible = [bool(one.best) for one in tried]
    bought = [one.best[0].bought for one in tried if one.best]
    kinds = {
        "needs by palette": [one.needs_of is not None for one in terms],
        "sets": [bool(one.sets) for one in terms],
        "several sellers": [len(one.sellers) > 1 for one in terms],
        "least orders": [any(s.least_order for s in one.sellers) for one in terms],
        "free from a sum": [any(s.free_from for s in one.sellers) for one in terms],
        "price for two": [any(p.price_of_more for p in one.packs) for one in terms],
        "feasible": feasible,
        "impossible": [not yes for yes in feasible],
        "several tubes": [len(tubes) > 2 for tubes in bought],
    }
    assert {kind: sum(yes) >= 20 for kind, yes in kinds.items()} == dict.fromkeys(kinds, True)


@pytest.mark.parametrize("method", [Method.SEARCH, Method.BOTH])
def test_all_best_palettes_are_found_and_proven(tried: tuple[Tried, ...], method: Method) -> None:
    for one in tried if method is Method.SEARCH else tried[::3]:
        choice = solve(one.instance, seconds=SECONDS, method=method)
        assert choice.palettes == one.best
        assert choice.complete
        assert choice.certificate.status is (Status.PROVEN if one.best else Status.INFEASIBLE)


def test_the_integer_program_alone_finds_them(tried: tuple[Tried, ...]) -> None:
    for one in tried[::4]:
        choice = solve(one.instance, seconds=SECONDS, method=Method.PROGRAM)
        assert choice.palettes == one.best
        assert choice.certificate.status is (Status.PROVEN if one.best else Status.INFEASIBLE)


def test_the_smallest_budget_and_number(tried: tuple[Tried, ...]) -> None:
    for one in tried:
        for small in Small:
            found = smallest(one.instance, small, seconds=SECONDS)
            allowed = one.allowed(one.instance)
            assert found.figure == min(map(small.of, allowed), default=None)


def test_what_makes_a_clash(tried: tuple[Tried, ...]) -> None:
    impossible = [one for one in tried if not one.best]
    for one in impossible[:20]:
        report = explain_clash(one.instance, seconds=SECONDS)
        instance = replace(one.instance, budget=one.instance.any_money)
        allowed = one.allowed(instance)
        assert report.complete
        assert report.clashes
        assert report.remedies[0].figure == min((p.cost for p in allowed), default=None)


def test_the_best_of_each_size(tried: tuple[Tried, ...]) -> None:
    for one in tried:
        instance = replace(one.instance, least_value=0)
        if instance.cost(instance.must_have) > instance.budget:
            continue
        if len(instance.must_have) > instance.most_tubes:
            continue
        found = best_by_size(instance, up_to=instance.most_tubes, seconds=SECONDS)
        for best in found.each:
            allowed = one.allowed(replace(instance, most_tubes=best.size))
            first = min(palette.rank for palette in allowed)
            assert best.proven
            assert [p.bought for p in best.palettes] == sorted(
                p.bought for p in allowed if p.rank == first
            )


def test_the_front_of_cost_and_coverage(tried: tuple[Tried, ...]) -> None:
    """Whatever the money, the step at or below it covers as much as anything within it."""
    for one in tried:
        rng = random.Random(one.instance.budget)  # noqa: S311  # no secrets are drawn
        barred = (
            frozenset(i for i in range(one.instance.tube_count) if rng.random() < 0.1)
            - one.instance.owned
        )
        (front,) = fronts(one.instance, (barred,), seconds=SECONDS)
        palettes = [
            palette
            for palette in one.palettes
            if barred.isdisjoint(palette.bought) and len(palette.bought) <= one.instance.most_tubes
        ]
        assert {
            palette.cost: max(p.value for p in palettes if p.cost <= palette.cost)
            for palette in palettes
        } == {
            palette.cost: step.palette.value
            for palette in palettes
            if (step := front.within(palette.cost)) is not None
        }
        assert all(step.proven and step.sure_up_to_next for step in front.steps)


def test_the_purchase_that_is_told_holds_what_is_needed(tried: tuple[Tried, ...]) -> None:
    for one in tried[::4]:
        for palette in one.best[:1]:
            terms = one.instance.terms
            assert terms is not None
            purchase = cheapest_purchase(terms, palette.bought)
            assert purchase is not None
            assert purchase.cost == palette.cost
            assert holds(terms, palette.bought, purchase)
