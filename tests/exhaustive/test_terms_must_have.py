"""Tubes that must be bought, where paint depends on the palette, against trying everything.

Beside others such a tube may be cheaper than alone, or to be had at all; what follows of that is
told for clashing demands, for what can be had without a tube, and for single exchanges.
"""

from dataclasses import replace
from itertools import combinations

import pytest
from tests.exhaustive.terms_tried import Tried, all_palettes, draw_choice

from fewtubes.comparison.covered_weight import CoveredWeight
from fewtubes.comparison.stand_ins import best_swap, best_without
from fewtubes.selection.dearer import cheapest_of_all
from fewtubes.selection.feasibility import Demand, explain_clash
from fewtubes.selection.instance import ChoiceInstance
from fewtubes.selection.search import start_search

CHOICES = range(30000, 30080)

SECONDS = 60.0


@pytest.fixture(scope="module")
def tried() -> tuple[Tried, ...]:
    """Return choices that mostly have a tube that must be bought."""
    return tuple(draw_choice(seed, by_palette=0.7, must_have=0.2) for seed in CHOICES)


def _only(instance: ChoiceInstance, demands: frozenset[Demand]) -> Tried:
    """Return the choice with some of its demands, and all palettes there are."""
    must_have = instance.must_have if Demand.MUST_HAVE in demands else frozenset[int]()
    kept = replace(
        instance,
        must_have=must_have,
        budget=instance.budget if Demand.BUDGET in demands else instance.any_money,
        most_tubes=instance.most_tubes if Demand.MOST_TUBES in demands else len(instance.fades),
        least_value=instance.least_value if Demand.LEAST_VALUE in demands else 0,
        alike=instance.not_together,
        spare=frozenset(pair for pair in instance.spare if pair[1] not in instance.must_have),
    )
    return Tried(kept, all_palettes(kept))


def test_every_smallest_clash_is_told(tried: tuple[Tried, ...]) -> None:
    clashing = 0
    for one in [one for one in tried if not one.best][:30]:
        found: list[frozenset[Demand]] = []
        for size in range(1, len(Demand) + 1):
            for demands in map(frozenset, combinations(Demand, size)):
                asked = _only(one.instance, demands)
                if not any(clash <= demands for clash in found) and not asked.best:
                    found.append(demands)
        report = explain_clash(one.instance, seconds=SECONDS)
        assert report.complete
        assert set(report.clashes) == set(found)
        clashing += 1
    assert clashing >= 10


def test_what_can_be_had_without_a_tube(tried: tuple[Tried, ...]) -> None:
    for one in tried:
        instance = one.instance
        if not one.best:
            continue
        for tube in set(one.best[0].bought) - instance.must_have:
            state = start_search(instance, seconds=SECONDS)
            found = best_without(instance, state, tube, seconds=SECONDS)
            allowed = one.allowed(replace(instance, least_value=0))
            most = max((p.value for p in allowed if tube not in p.bought), default=0)
            assert (found.value, found.bound) == (most, most)


def test_the_cheapest_that_covers_all_may_cost_more_than_all_tubes(
    tried: tuple[Tried, ...],
) -> None:
    """In 40005 all three come to 133, and the only two that cover as much to 161."""
    dear = draw_choice(40005, by_palette=0.7, must_have=0.2)
    for one in (dear, *tried[:20]):
        instance, everything = one.instance, one.instance.palette(range(len(one.instance.fades)))
        if not one.best or one.best[0].value == everything.value:
            continue
        state = start_search(instance, seconds=SECONDS)
        found = cheapest_of_all(state, instance, one.best[0], seconds=SECONDS)
        asked = replace(instance, budget=instance.any_money, least_value=everything.value)
        costs = [palette.cost for palette in one.allowed(asked)]
        assert (found and found.palette.cost) == min(costs, default=None)


def test_no_exchange_covers_more_than_the_best(tried: tuple[Tried, ...]) -> None:
    """An exchange after which a tube lies idle is no choice; as one it would beat the best."""
    for one in tried:
        instance = one.instance
        if not one.best:
            continue
        best = one.best[0]
        for tube in set(best.bought) - instance.must_have:
            found = best_swap(instance, CoveredWeight(instance), best.bought, tube)
            rest = set(best.bought) - {tube}
            worth = [
                p.value
                for p in one.allowed(replace(instance, least_value=0, most_tubes=len(best.bought)))
                if len(p.bought) == len(best.bought)
                and rest < set(p.bought)
                and tube not in p.bought
                and p.value > instance.palette(sorted(rest)).value
            ]
            assert (found and found.value) == max(worth, default=None)
