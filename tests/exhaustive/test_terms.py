"""The choice under sellers' terms, by both methods, against trying every palette and purchase."""

import random
from dataclasses import replace

import pytest
from tests.exhaustive.terms_tried import Tried, draw_choice

from fewtubes.comparison.by_size import best_by_size
from fewtubes.comparison.covered_weight import CoveredWeight
from fewtubes.comparison.front import fronts
from fewtubes.comparison.near_best import near_best
from fewtubes.comparison.stand_ins import best_swap
from fewtubes.selection.certificate import Method, Status
from fewtubes.selection.extremes import Small, smallest
from fewtubes.selection.feasibility import explain_clash
from fewtubes.selection.instance import Palette
from fewtubes.selection.purchase import cheapest_purchase, holds
from fewtubes.selection.solve import solve

CHOICES = range(150)

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
    for one in tried if method is Method.SEARCH else tried[::4]:
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
    for one in tried[::2]:
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
    for one in tried[::2]:
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
    for one in tried[::2]:
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


def test_near_best_palettes_and_single_exchanges(tried: tuple[Tried, ...]) -> None:
    """Of those that hold no tube for nothing, ranked; and a tube in the place of another."""
    for one in tried[::3]:
        instance = one.instance
        if not one.best or not one.best[0].bought:
            continue
        best, loss = one.best[0], sum(instance.weights) // 4
        near = near_best(
            instance,
            best,
            best_proven=True,
            size=len(best.bought),
            loss=loss,
            most=200,
            seconds=SECONDS,
        )
        asked = replace(instance, least_value=best.value - loss, most_tubes=len(best.bought))
        assert {p for p in one.allowed(asked) if not _idle(one, p)} == set(near.palettes)
        _exchanges_are_the_best(one)


def _idle(one: Tried, palette: Palette) -> bool:
    """Whether a palette covers as much without one of its tubes, but for must-have ones."""
    values = {p.bought: p.value for p in one.palettes}
    rest = [
        tuple(i for i in palette.bought if i != tube)
        for tube in set(palette.bought) - one.instance.must_have
    ]
    return any(values.get(tubes, -1) == palette.value for tubes in rest)


def _exchanges_are_the_best(one: Tried) -> None:
    instance, best = one.instance, one.best[0]
    for tube in set(best.bought) - instance.must_have:
        found = best_swap(instance, CoveredWeight(instance), best.bought, tube)
        rest = set(best.bought) - {tube}
        worth = [
            p.value
            for p in one.palettes
            if p.cost <= instance.budget
            and len(p.bought) == len(best.bought)
            and rest < set(p.bought)
            and tube not in p.bought
            and p.value > instance.palette(frozenset(rest)).value
        ]
        assert (found and found.value) == max(worth, default=None)


def test_the_purchase_that_is_told_holds_what_is_needed(tried: tuple[Tried, ...]) -> None:
    for one in tried[::4]:
        for palette in one.best[:1]:
            terms = one.instance.terms
            assert terms is not None
            purchase = cheapest_purchase(terms, palette.bought)
            assert purchase is not None
            assert purchase.cost == palette.cost
            assert holds(terms, palette.bought, purchase)
