"""The best order of buying: by hand, by exhaustive search, by the program, and stopped."""

import random
from collections.abc import Callable
from dataclasses import replace
from itertools import accumulate, product

import pytest
from tests.orders_tried import doubles, rank_of

from fewtubes.errors import DefectError
from fewtubes.selection.certificate import Status
from fewtubes.selection.instalment_program import build_instalment_model, proven_again
from fewtubes.selection.instalment_search import search_instalments
from fewtubes.selection.instalments import BuyingOrder, InstalmentInstance
from fewtubes.selection.instance import ChoiceInstance
from fewtubes.selection.terms import Need, PackOnSale, SellerTerms, Terms

Draw = Callable[[int | str], ChoiceInstance]

MOST_TUBES_TRIED = 6
"""With four times there are at most (4 + 1)^6 = 15,625 orders of buying."""


def by_hand(money: tuple[int, ...], importances: tuple[int, ...]) -> InstalmentInstance:
    """Return a question of four tubes: 0 alone gives 5, 1 and 2 together give 8, 3 alone gives 1.

    Tube 0 costs 4, all others 3.
    """
    instance = ChoiceInstance(
        weights=(5, 8, 1),
        minimal_sets=(((0,),), ((1, 2),), ((3,),)),
        prices=(4, 3, 3, 3),
        fades=(1, 1, 1, 1),
        owned=frozenset(),
        must_have=frozenset(),
        budget=money[-1],
        most_tubes=4,
    )
    return InstalmentInstance(instance, money, importances)


def test_what_serves_now_may_give_way_to_what_serves_later() -> None:
    # With 4, then 2: bought now, tube 0 gives 5 at once and 5 later (no pair for 6 - 4 = 2). Kept,
    # the money buys 1 and 2 with all 6: nothing at once and 8 later.
    # Weights 2 : 1: 2·5 + 5 = 15 > 8. Weights 1 : 2: 5 + 2·5 = 15 < 16.
    now = search_instalments(by_hand((4, 6), (2, 1)))
    later = search_instalments(by_hand((4, 6), (1, 2)))
    assert now.order is not None
    assert later.order is not None
    assert [p.bought for p in now.order.palettes] == [(0,), (0,)]
    assert [p.bought for p in later.order.palettes] == [(), (1, 2)]
    assert (now.order.value, later.order.value) == (15, 16)
    assert [alone.value for alone in now.alone] == [5, 8]
    assert now.certificate.status is Status.PROVEN
    assert now.certificate.value == now.certificate.bound == 15


def test_a_tube_of_no_use_yet_is_not_bought_yet() -> None:
    # With 4 now, 4 next, 4 last: 0 at once gives 5. With the next 4, tube 3 costs 3 and gives 1,
    # and leaves 5 for the last time, which buys one of 1 and 2 only. Kept, they buy both: 5, 5, 13.
    # 3·5 + 2·5 + 13 = 38; with 3 at the second: 3·5 + 2·6 + 6 = 33.
    found = search_instalments(by_hand((4, 8, 12), (3, 2, 1)))
    assert found.order is not None
    assert [p.bought for p in found.order.palettes] == [(0,), (0,), (0, 1, 2)]
    assert [p.cost for p in found.order.palettes] == [4, 4, 10]
    assert found.order.value == 38


def drawn_times(draw: Draw, seed: int) -> InstalmentInstance:
    """Return an instance of few tubes with one to four times, some of which bring no money."""
    for attempt in range(1000):
        instance = draw(f"instalments {seed} {attempt}")
        if len(instance.prices) <= MOST_TUBES_TRIED:
            break
    rng = random.Random(f"times {seed}")  # noqa: S311  # no secrets are drawn
    times = rng.randint(1, 4 if len(instance.prices) < MOST_TUBES_TRIED else 3)
    cuts = sorted(rng.randint(0, instance.budget) for _ in range(times - 1))
    return InstalmentInstance(
        instance,
        (*cuts, instance.budget),
        tuple(rng.choice((1, 1, 2, 3, 7)) for _ in range(times)),
    )


def by_trying_all(problem: InstalmentInstance) -> BuyingOrder | None:
    """Return the order that ranks first of all: each tube bought at each time or never."""
    known = problem.instance
    tubes = [i for i in range(len(known.prices)) if i not in known.owned]
    values: dict[frozenset[int], int] = {}

    def value(bought: frozenset[int]) -> int:
        if bought not in values:
            held = bought | known.owned
            values[bought] = sum(
                weight
                for weight, sets in zip(known.weights, known.minimal_sets, strict=True)
                if any(held.issuperset(tubes) for tubes in sets)
            )
        return values[bought]

    best: tuple[object, ...] | None = None
    for when in product(range(problem.times + 1), repeat=len(tubes)):
        held = [
            frozenset(i for i, first in zip(tubes, when, strict=True) if first <= time)
            for time in range(problem.times)
        ]
        costs = tuple(sum(known.prices[i] for i in bought) for bought in held)
        last = held[-1]
        if (
            any(cost > money for cost, money in zip(costs, problem.money, strict=True))
            or not known.must_have <= last
            or len(last) > known.most_tubes
            or value(last) < known.least_value
            or doubles(known, last)
        ):
            continue
        rank = rank_of(problem, held, [value(bought) for bought in held], costs)
        best = rank if best is None or rank < best else best
    return None if best is None else problem.order(best[-1])  # type: ignore[arg-type]


@pytest.mark.parametrize("seed", range(40))
def test_the_search_finds_what_trying_all_finds(random_instance: Draw, seed: int) -> None:
    problem = drawn_times(random_instance, seed)
    best, found = by_trying_all(problem), search_instalments(problem)
    assert found.order == best
    if best is None:
        assert found.certificate.status is Status.INFEASIBLE
    else:
        assert found.certificate.status is Status.PROVEN
        assert found.certificate.value == found.certificate.bound == best.value


def test_the_draws_hold_what_goes_wrong_most_easily(random_instance: Draw) -> None:
    problems = [drawn_times(random_instance, seed) for seed in range(40)]
    assert sum(bool(problem.instance.must_have) for problem in problems) >= 5
    assert sum(bool(problem.instance.owned) for problem in problems) >= 5
    assert sum(problem.instance.least_value > 0 for problem in problems) >= 5
    assert sum(problem.instance.doubles for problem in problems) >= 5
    assert sum(problem.times > 1 for problem in problems) >= 20
    assert sum(problem.money[0] == 0 for problem in problems) >= 3


@pytest.mark.parametrize("seed", range(0, 40, 5))
def test_the_program_proves_the_same(random_instance: Draw, seed: int) -> None:
    problem = drawn_times(random_instance, seed)
    order = search_instalments(problem).order
    assert order is None or proven_again(problem, order, seconds=30)


def test_the_program_refutes_an_order_that_is_not_the_best() -> None:
    problem = by_hand((4, 6), (1, 2))
    with pytest.raises(DefectError, match="has one that is worth 16"):
        proven_again(problem, problem.order([(0,), (0,)]), seconds=30)
    assert not proven_again(problem, problem.order([(), (1, 2)]), seconds=0)


def test_the_program_reads_as_its_docstring_says() -> None:
    problem = build_instalment_model(by_hand((4, 6), (1, 2))).problem
    text = str(problem)
    rows = {line.partition(":")[0] for line in text.splitlines()}
    assert {
        "keep_0_after_0",
        "money_0",
        "money_1",
        "most_tubes",
        "covered_1_from_0__needs_a_set",
        "sets_of_1_from_1__need_tube_2",
    } <= rows
    assert {"buy_0_by_0", "covered_2_from_1", "held_1_from_0__1__2"} <= {
        variable.name for variable in problem.variables()
    }


def test_out_of_time_an_order_is_told_with_its_gap(random_instance: Draw) -> None:
    problem = by_hand((4, 8, 12), (3, 2, 1))
    found = search_instalments(problem, seconds=0)
    assert found.certificate.status is Status.STOPPED
    assert found.certificate.bound >= 38  # see above
    assert found.order is None or found.order.value <= 38


@pytest.mark.parametrize(
    ("money", "importances"),
    [((), ()), ((5,), (1, 1)), ((5, 4), (1, 1)), ((5, 6), (1, 0)), ((5, 7), (1, 1))],
)
def test_terms_that_do_not_fit_are_refused(
    money: tuple[int, ...], importances: tuple[int, ...]
) -> None:
    instance = by_hand((4, 6), (1, 1)).instance
    with pytest.raises(ValueError, match=r"time|importances|budget"):
        InstalmentInstance(instance, money, importances)


def test_orders_are_held_to_every_demand() -> None:
    problem = by_hand((4, 6), (1, 1))
    assert problem.allows(problem.order([(), (1, 2)]))
    assert not problem.allows(problem.order([(0,), (1, 2)]))  # 0 is given away
    assert not problem.allows(problem.order([(1, 2), (1, 2)]))  # 6 spent of 4


def test_what_is_left_is_carried_on() -> None:
    # 2, 2 and 2 come in: 4 for tube 0 with the second, or 6 for both 1 and 2 with the third.
    money = tuple(accumulate((2, 2, 2)))
    found = search_instalments(by_hand(money, (1, 1, 1)))
    assert found.order is not None
    assert [p.cost for p in found.order.palettes] == [0, 4, 4]  # 5 + 5 = 10 > 8


def test_terms_under_which_two_cost_less_than_one_are_refused() -> None:
    """Bought at once, two at 3 each would bring less than one at 7 does towards a least order."""
    instance = by_hand((4, 6), (1, 1)).instance
    pack = PackOnSale(tube=0, seller=0, amount=5000, price=7, price_of_more=3)
    terms = Terms((SellerTerms(),), (pack,), (), (Need(),) * instance.tube_count)
    with pytest.raises(ValueError, match="buying in parts may be cheaper"):
        InstalmentInstance(replace(instance, terms=terms), (4, 6), (1, 1))
