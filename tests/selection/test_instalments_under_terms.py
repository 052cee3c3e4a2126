"""Orders of buying under sellers' terms: by hand, and against every order with every purchase.

The reference tries each tube at each time or never, and for each time every purchase there is that
holds what is needed of its new tubes, from what the times before have left in stock. Purchases are
listed by `tests.drawn_terms`; nothing of the code under test is used but its records.
"""

import random
from collections.abc import Iterator
from dataclasses import replace
from functools import cache
from itertools import product

import numpy as np
import pytest
from tests.drawn_terms import AllPurchases
from tests.exhaustive.terms_tried import draw_choice
from tests.orders_tried import doubles, rank_of

from fewtubes.selection.certificate import Status
from fewtubes.selection.instalment_schedule import Schedules
from fewtubes.selection.instalment_search import search_instalments
from fewtubes.selection.instalments import InstalmentInstance
from fewtubes.selection.instance import ChoiceInstance
from fewtubes.selection.terms import Need, PackOnSale, SellerTerms, SetOnSale, Terms
from fewtubes.selection.tube_packs import least_prices

MOST_TUBES_TRIED = 5

MOST_PURCHASES = 1500
"""Purchases listed of one question, so that trying all takes a fraction of a second."""

DRAWN = 60

SEEDS = (*range(DRAWN), 430)
"""In the last a stock of several is parted among times."""

Option = tuple[int, tuple[int, ...]]
"""What a purchase costs, and how many it takes of each thing of which there are only so many."""


def parts(terms: Terms) -> bool:
    """Whether two of a pack are never cheaper than one."""
    return all(p.price_of_more is None or p.price <= 2 * p.price_of_more for p in terms.packs)


def drawn(seed: int) -> InstalmentInstance:
    """Return a question of few tubes under terms, with one to three times."""
    for attempt in range(1000):
        instance = draw_choice(1000 * seed + attempt, by_palette=0, must_have=0.1).instance
        assert instance.terms is not None
        small = len(instance.fades) <= MOST_TUBES_TRIED and parts(instance.terms)
        if small and len(AllPurchases.under(instance.terms).costs) <= MOST_PURCHASES:
            break
    rng = random.Random(f"times {seed}")  # noqa: S311  # no secrets are drawn
    times = rng.choice((1, 2, 2, 3, 3))
    cuts = sorted(rng.randint(0, instance.budget) for _ in range(times - 1))
    weights = tuple(rng.choice((1, 1, 2, 3, 7)) for _ in range(times))
    return InstalmentInstance(instance, (*cuts, instance.budget), weights)


def options(purchases: AllPurchases, new: tuple[int, ...], scarce: list[int]) -> list[Option]:
    """Return the purchases for new tubes, without those that are dearer and take as much or more.

    Parameters
    ----------
    purchases
        All there are.
    new
        Tubes, ascending.
    scarce
        Columns of the things of which there are only so many.
    """
    if not new:
        return [(0, (0,) * len(scarce))]
    rows = purchases.serving(new, purchases.terms.needed)
    found = sorted(
        {(int(purchases.costs[r]), tuple(purchases.counts[r, scarce].tolist())) for r in rows}
    )
    kept: list[Option] = []
    for cost, taken in found:
        if not any(np.less_equal(other, taken).all() for _, other in kept):
            kept.append((cost, taken))
    return kept


def by_trying_all(problem: InstalmentInstance) -> tuple[object, ...] | None:
    """Return the rank of the order that ranks first of all; None if there is none."""
    known, terms = problem.instance, problem.instance.terms
    assert terms is not None
    purchases = AllPurchases.under(terms)
    stocks = [pack.stock for pack in terms.packs] + [box.stock for box in terms.sets]
    scarce = [column for column, stock in enumerate(stocks) if stock is not None]
    there = tuple(stock for stock in stocks if stock is not None)
    tubes = [i for i in range(len(known.fades)) if i not in known.owned]

    @cache
    def options_of(new: tuple[int, ...]) -> list[Option]:
        return options(purchases, new, scarce)

    @cache
    def value(bought: frozenset[int]) -> int:
        held = bought | known.owned
        reached = [any(held.issuperset(one) for one in sets) for sets in known.minimal_sets]
        return sum(w for w, yes in zip(known.weights, reached, strict=True) if yes)

    def spent(
        news: list[tuple[int, ...]], before: int, left: tuple[int, ...], at: int
    ) -> Iterator[tuple[int, ...]]:
        """Yield what may have been spent by each time from one on."""
        if at == len(news):
            yield ()
            return
        for cost, taken in options_of(news[at]):
            rest = tuple(a - b for a, b in zip(left, taken, strict=True))
            if before + cost <= problem.money[at] and min(rest, default=0) >= 0:
                for more in spent(news, before + cost, rest, at + 1):
                    yield before + cost, *more

    best: tuple[object, ...] | None = None
    for when in product(range(problem.times + 1), repeat=len(tubes)):
        held = [
            frozenset(i for i, first in zip(tubes, when, strict=True) if first <= time)
            for time in range(problem.times)
        ]
        last = held[-1]
        if (
            not known.must_have <= last
            or len(last) > known.most_tubes
            or value(last) < known.least_value
            or doubles(known, last)
        ):
            continue
        news = [
            tuple(i for i, first in zip(tubes, when, strict=True) if first == time)
            for time in range(problem.times)
        ]
        costs = min(
            spent(news, 0, there, 0), key=lambda spent: (spent[-1], spent), default=None
        )  # fmt: skip
        if costs is None:
            continue
        rank = rank_of(problem, held, [value(bought) for bought in held], costs)
        best = rank if best is None or rank < best else best
    return best


def by_hand(
    money: tuple[int, ...], importances: tuple[int, ...], terms: Terms
) -> InstalmentInstance:
    """Return a question of three tubes: 0 alone gives 5, 1 alone 4, 1 and 2 together 8 more."""
    instance = ChoiceInstance(
        weights=(5, 4, 8),
        minimal_sets=(((0,),), ((1,),), ((1, 2),)),
        prices=least_prices(terms),
        fades=(1, 1, 1),
        owned=frozenset(),
        must_have=frozenset(),
        budget=money[-1],
        most_tubes=3,
        terms=terms,
    )
    return InstalmentInstance(instance, money, importances)


BY_POST = Terms(
    sellers=(SellerTerms(delivery=3),),
    packs=tuple(PackOnSale(tube, 0, 5000, price) for tube, price in ((0, 4), (1, 4), (2, 9))),
    sets=(),
    needs=(Need(),) * 3,
)
"""One seller who asks 3 for each delivery: tubes 0 and 1 cost 4, tube 2 costs 9."""


def test_each_purchase_pays_for_its_own_delivery() -> None:
    # 7 come in, then 7 more: 0 for 4 + 3 now, 1 for 4 + 3 then. 5 + (5 + 4) = 14.
    found = search_instalments(by_hand((7, 14), (1, 1), BY_POST)).order
    assert found is not None
    assert [p.bought for p in found.palettes] == [(0,), (0, 1)]
    assert [p.cost for p in found.palettes] == [7, 14]
    assert [purchase.deliveries for purchase in found.purchases] == [((0, 3),)] * 2
    assert found.value == 14


def test_waiting_saves_a_delivery() -> None:
    # With 7 and then 6, a second delivery is out of reach. Now counting 1 and later 3: 0 at once
    # gives 5 + 3·5 = 20; all 13 kept buy 0 and 1 for 4 + 4 + 3 = 11: 0 + 3·9 = 27.
    later = search_instalments(by_hand((7, 13), (1, 3), BY_POST)).order
    # Both alike: 5 + 5 = 10 against 0 + 9.
    alike = search_instalments(by_hand((7, 13), (1, 1), BY_POST)).order
    assert later is not None
    assert alike is not None
    assert [p.bought for p in later.palettes] == [(), (0, 1)]
    assert [p.cost for p in later.palettes] == [0, 11]
    assert [p.bought for p in alike.palettes] == [(0,), (0,)]


def test_what_a_set_brings_counts_later_too() -> None:
    # 0 is in a set with 2 alone, for 5. It gives 5 now; 2 is of no use yet, and of use with 1,
    # which costs 4, next time: 5 + 4 + 8 = 17.
    terms = replace(
        BY_POST,
        sellers=(SellerTerms(),),
        packs=(PackOnSale(1, 0, 5000, 4),),
        sets=(SetOnSale(0, 5, ((0, 1, 5000), (2, 1, 5000)), stock=1),),
    )
    found = search_instalments(by_hand((5, 9), (2, 1), terms)).order
    assert found is not None
    assert [p.bought for p in found.palettes] == [(0, 2), (0, 1, 2)]
    assert [p.value for p in found.palettes] == [5, 17]
    assert [p.cost for p in found.palettes] == [5, 9]


def test_what_was_bought_is_no_longer_in_stock() -> None:
    # 0 and 1 come in one and the same set, of which there is one; whoever buys it has both.
    terms = replace(
        BY_POST, packs=(), sets=(SetOnSale(0, 5, ((0, 1, 5000), (1, 1, 5000)), stock=1),)
    )
    found = search_instalments(by_hand((8, 16), (1, 1), terms)).order
    assert found is not None
    assert [p.bought for p in found.palettes] == [(0, 1), (0, 1)]
    assert [purchase.sets for purchase in found.purchases] == [((0, 1),), ()]


def test_a_tube_that_serves_later_comes_with_a_delivery_that_is_paid_for_anyway() -> None:
    # Delivery 3, prices 4, 4, 9. 19 come in, then 1: all of it now is 17 + 3 = 20, one too much;
    # 0 and 2 with 13 + 3 = 16 now leave 4, and 1 with its delivery is 7. 0 and 1 for 11 now, and
    # 2 for 12 then, is 23. So 0 and 1 it is, or 1 and 2 (12 for 16), which is worth more.
    found = search_instalments(by_hand((19, 20), (1, 1), BY_POST)).order
    assert found is not None
    assert [p.bought for p in found.palettes] == [(1, 2), (1, 2)]
    # With 1 from a stall for 4, without delivery: 0 and 2 by post for 16 now, though 2 is of no
    # use yet, and 1 for 4 then, is 5 + 17; 1 and 2 now (4 + 12) give 12 at once, and leave 4, too
    # little for 0 by post: 12 + 12. Later counting twice: 5 + 34 = 39 against 36.
    stall = replace(
        BY_POST,
        sellers=(SellerTerms(delivery=3), SellerTerms()),
        packs=(*BY_POST.packs[::2], PackOnSale(1, 1, 5000, 4)),
    )
    early = search_instalments(by_hand((16, 20), (1, 2), stall)).order
    assert early is not None
    assert [p.bought for p in early.palettes] == [(0, 2), (0, 1, 2)]
    assert [p.cost for p in early.palettes] == [16, 20]
    assert early.value == 39


def test_of_beginnings_with_the_same_tubes_the_one_that_paid_less_may_win() -> None:
    # 7, 14 and 23 in all by each time, counting 1, 3 and 1. 0 and then 1 are 7 and 7: 5 + 3·9 = 32
    # so far, but 2, for 9 + 3, is out of reach of 23 - 14: 41. Both the second time are 11: 27 so
    # far, and 2 for 12 with the third: 27 + 17 = 44. 0, and 1 and 2 in the end: 5 + 15 + 17 = 37.
    found = search_instalments(by_hand((7, 14, 23), (1, 3, 1), BY_POST)).order
    assert found is not None
    assert [p.bought for p in found.palettes] == [(), (0, 1), (0, 1, 2)]
    assert [p.cost for p in found.palettes] == [0, 11, 23]
    assert found.value == 44


def test_a_stock_is_parted_among_times_so_that_least_is_spent() -> None:
    # 0 takes two containers, 1 three. A set with one of each costs 2, a pack of either 3; there are
    # four sets. Alone, two sets now (4) and three then (6) are cheapest, one set too many. One
    # fewer then: 2 · 2 + 3 = 7, in all 11. One fewer now: 2 + 3 = 5, and 6, in all 11 as well, but
    # more of it sooner. Three sets now, 6, would bring both; there are 5.
    terms = Terms(
        sellers=(SellerTerms(),),
        packs=tuple(PackOnSale(tube, 0, 5000, 3) for tube in (0, 1)),
        sets=(SetOnSale(0, 2, ((0, 1, 5000), (1, 1, 5000)), stock=4),),
        needs=(Need(containers=2), Need(containers=3)),
    )
    found = Schedules(terms, (5, 20)).best(((0,), (0, 1)))
    assert found is not None
    assert found.costs == (4, 11)
    assert [purchase.sets for purchase in found.purchases] == [((0, 2),), ((0, 2),)]
    assert [purchase.packs for purchase in found.purchases] == [(), ((1, 1),)]


def test_out_of_time_an_order_that_can_be_bought_is_told_with_its_gap() -> None:
    problem = by_hand((7, 14), (1, 1), BY_POST)
    found = search_instalments(problem, seconds=0)
    assert found.certificate.status is Status.STOPPED
    assert found.certificate.bound >= 14  # see above
    assert found.order is None or problem.sells(found.order)


def test_the_draws_hold_what_goes_wrong_most_easily() -> None:
    """Early tubes, sets and several deliveries are among the answers."""
    early = sets = twice = 0
    for seed in range(DRAWN):
        problem = drawn(seed)
        order = search_instalments(problem).order
        if order is None:
            continue
        held: tuple[int, ...] = ()
        for palette in order.palettes:
            for tube in set(palette.bought) - set(held):
                rest = tuple(i for i in palette.bought if i != tube)
                early += problem.instance.palette(rest).value == palette.value
            held = palette.bought
        sets += any(purchase.sets for purchase in order.purchases)
        paid = [any(money for _, money in one.deliveries) for one in order.purchases]
        twice += sum(paid) > 1
    assert early >= 2
    assert sets >= 5
    assert twice >= 2


@pytest.mark.parametrize("seed", SEEDS)
def test_the_search_finds_what_trying_all_finds(seed: int) -> None:
    problem = drawn(seed)
    best, found = by_trying_all(problem), search_instalments(problem)
    if best is None:
        assert found.order is None
        assert found.certificate.status is Status.INFEASIBLE
        return
    assert found.order is not None
    assert found.order.rank == best
    assert problem.allows(found.order)
    assert problem.sells(found.order)
    assert found.certificate.status is Status.PROVEN
    assert found.certificate.value == found.certificate.bound == -best[0]  # type: ignore[operator]
