"""Buying bit by bit on the demo and the small catalogue: what is bought, and what is told of it."""

import itertools
from dataclasses import replace
from decimal import Decimal
from pathlib import Path

import pytest

from fewtubes.catalogue.reading import read_catalogue
from fewtubes.comparison.instalments import instalments
from fewtubes.coverage.cache import Cache
from fewtubes.errors import ClashError, InputError
from fewtubes.scenario.reading import read_scenario
from fewtubes.scenario.records import Scenario, Wishes
from fewtubes.selection.certificate import Method, Status
from fewtubes.shopping.shop import Limits, shop

DEMO = read_catalogue()

FIRST_SET = Path(__file__).parents[2] / "scenarios" / "first-set.toml"


def scenario(**more: object) -> Scenario:
    return replace(Scenario(budget=9, currency="EUR", flowers=["primrose"]), **more)  # type: ignore[arg-type]


def test_one_sum_is_what_shop_buys(shared_cache: Cache) -> None:
    """Both rank by coverage, number, fading tubes, price and lightfastness."""
    asked = read_scenario(FIRST_SET, DEMO)
    found = instalments(DEMO, asked, sums=[asked.budget], cache=shared_cache)
    plan = shop(DEMO, asked, cache=shared_cache)
    assert [item.tube.id for item in found.purchases] == [item.tube.id for item in plan.bought]
    assert (found.cost, found.mean_coverage) == (plan.cost, plan.coverage)
    assert found.most_given_up == 0
    assert found.proven


def test_each_time_is_held_against_what_shop_buys_at_once(shared_cache: Cache) -> None:
    asked = read_scenario(FIRST_SET, DEMO)
    found = instalments(DEMO, asked, sums=[6, "3.50", 4], cache=shared_cache)
    spent = 0
    for money, time in zip(("6", "9.50", "13.50"), found.times, strict=True):
        at_once = shop(DEMO, _with(asked, money), cache=shared_cache)
        assert time.best == at_once.coverage
        assert time.given_up == pytest.approx(at_once.coverage - time.coverage, abs=1e-12)
        spent += time.cost
        assert time.palette.cost == spent
    assert found.most_given_up == max(time.given_up for time in found.times)
    # 3 : 2 : 1 without weights
    weighed = sum(k * t.coverage for k, t in zip((3, 2, 1), found.times, strict=True)) / 6
    assert found.mean_coverage == pytest.approx(weighed, abs=1e-12)


def _with(asked: Scenario, money: str) -> Scenario:
    return replace(asked, budget=Decimal(money))


def test_no_time_of_a_later_sum_holds_less(shared_cache: Cache) -> None:
    asked = read_scenario(FIRST_SET, DEMO)
    found = instalments(DEMO, asked, sums=[4, 0, 4, 4], weights=[1, 1, 1, 9], cache=shared_cache)
    held = [set(time.palette.bought) for time in found.times]
    assert all(sooner <= later for sooner, later in itertools.pairwise(held))
    shares = [time.coverage for time in found.times]
    assert shares == sorted(shares)


def test_owned_tubes_cost_nothing_and_nothing_new_comes_of_them(shared_cache: Cache) -> None:
    wishes = Wishes(owned=("lemon", "magenta"))
    found = instalments(DEMO, scenario(wishes=wishes), sums=[3, 3], cache=shared_cache)
    bought = {item.tube.id for item in found.purchases}
    assert not bought & {"lemon", "magenta"}
    before = found.question.instance.palette(())
    assert before.covered
    assert not set(before.covered) & {n for time in found.times for n in time.newly}


def test_wishes_hold_as_in_shop(shared_cache: Cache) -> None:
    asked = read_scenario(FIRST_SET, DEMO)
    free = instalments(DEMO, asked, sums=[8, 8], cache=shared_cache)
    first = free.purchases[0].tube.id
    wishes = replace(asked.wishes, never=(first,), millilitres=12)
    strict = replace(asked, wishes=wishes, most_tubes=2)
    found = instalments(DEMO, strict, sums=[8, 8], cache=shared_cache)
    assert first not in {item.tube.id for item in found.purchases}
    assert 0 < len(found.purchases) <= 2
    for item in found.purchases:
        assert sum(pack.count * pack.offer.ml for pack in item.packs) >= 12


def test_what_must_be_had_is_there_in_the_end(shared_cache: Cache) -> None:
    asked = read_scenario(FIRST_SET, DEMO)
    wishes = replace(asked.wishes, must_have=("turquoise",))
    price = min(offer.price for offer in DEMO.tubes["turquoise"].offers) / 100
    found = instalments(DEMO, replace(asked, wishes=wishes), sums=[2, 2, price], cache=shared_cache)
    assert "turquoise" in {item.tube.id for item in found.purchases}
    with pytest.raises(ClashError, match=r"must-have tubes and the budget of EUR 2\.00 clash"):
        instalments(DEMO, replace(asked, wishes=wishes), sums=[1, 1], cache=shared_cache)


def test_an_order_needs_tubes(shared_cache: Cache) -> None:
    with pytest.raises(InputError) as raised:
        instalments(DEMO, scenario(), sums=[5], order_only=True, cache=shared_cache)
    assert [fault.where for fault in raised.value.faults] == ["order_only"]


def test_the_program_alone_does_not_answer(shared_cache: Cache) -> None:
    with pytest.raises(InputError, match="'exact search and integer program'"):
        instalments(
            DEMO, scenario(), sums=[5], limits=Limits(method=Method.PROGRAM), cache=shared_cache
        )


def test_the_program_checks(shared_cache: Cache) -> None:
    wishes = Wishes(must_have=("lemon", "magenta"))
    limits = Limits(method=Method.BOTH)
    found = instalments(
        DEMO, scenario(wishes=wishes), sums=[5, 5], order_only=True, limits=limits,
        cache=shared_cache,
    )  # fmt: skip
    assert found.certificate.method is Method.BOTH
    assert found.proven


def test_out_of_time_is_not_called_proven(shared_cache: Cache) -> None:
    asked = read_scenario(FIRST_SET, DEMO)
    found = instalments(DEMO, asked, sums=[6, 6, 6], limits=Limits(seconds=0.0), cache=shared_cache)
    assert found.certificate.status is Status.STOPPED
    assert not found.proven
    assert found.mean_coverage <= found.mean_bound <= 1
