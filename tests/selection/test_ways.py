"""The ways to buy: together a bound that no palette undercuts, with and without merging."""

from itertools import combinations

import numpy as np
import pytest
from tests.drawn_terms import AllPurchases, draw_terms

from fewtubes.selection import ways as ways_module
from fewtubes.selection.buying import Buying
from fewtubes.selection.terms import (
    OUT_OF_REACH,
    Need,
    PackOnSale,
    SellerTerms,
    Terms,
)
from fewtubes.selection.ways import Ways, ways_of

TUBES = 5


def _least(ways: Ways, which: list[int], bought: tuple[int, ...]) -> int:
    return min(
        (int(ways.fixed[way] + ways.prices[way, list(bought)].sum()) for way in which),
        default=OUT_OF_REACH,
    )


@pytest.mark.parametrize("most", [3000, 12, 1])
def test_no_palette_costs_less_than_in_the_best_way(
    most: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Within the money that it costs, too, and with the ways dropped that gain nothing."""
    monkeypatch.setattr(ways_module, "MOST_WAYS", most)
    for seed in range(60):
        terms = draw_terms(seed, TUBES)
        every, ways = AllPurchases.under(terms), ways_of(terms, frozenset())
        for size in range(TUBES + 1):
            for bought in combinations(range(TUBES), size):
                cost = every.least_cost(bought)
                if cost is not None:
                    assert _least(ways, ways.within(cost).tolist(), bought) <= cost


def test_ways_are_exact_where_nothing_is_asked_beside_the_price() -> None:
    for seed in range(40):
        drawn = draw_terms(seed, TUBES)
        terms = Terms(
            tuple(SellerTerms(s.delivery) for s in drawn.sellers),
            drawn.packs,
            drawn.sets,
            drawn.needs,
        )
        every, ways = AllPurchases.under(terms), ways_of(terms, frozenset())
        for bought in combinations(range(TUBES), 3):
            cost = every.least_cost(bought)
            least = _least(ways, ways.within(OUT_OF_REACH - 1).tolist(), bought)
            assert least == cost if cost is not None else least >= OUT_OF_REACH


SHOP = SellerTerms(delivery=300, free_from=1000)

ONE_SHOP = Terms(
    (SHOP,),
    (
        PackOnSale(tube=0, seller=0, amount=5000, price=600),
        PackOnSale(tube=1, seller=0, amount=5000, price=500),
    ),
    (),
    (Need(), Need()),
)


def test_free_delivery_is_a_way_only_with_the_money_for_it() -> None:
    """Nothing, the shop with its delivery, or 1000 spent there without."""
    ways = ways_of(ONE_SHOP, frozenset())
    told = {money: sorted(ways.fixed[ways.within(money)].tolist()) for money in (0, 999, 1000)}
    assert told == {0: [0], 999: [0, 300], 1000: [0]}
    assert ways_of(ONE_SHOP, frozenset()) is ways


def test_an_owned_tube_costs_nothing_in_any_way() -> None:
    assert (ways_of(ONE_SHOP, frozenset({1})).prices[:, 1] == 0).all()


def test_likely_costs_pay_the_delivery_below_the_sum() -> None:
    """600 + 300; both together 1100, delivered free."""
    ways = ways_of(ONE_SHOP, frozenset())
    buying = Buying.of(
        ways, np.zeros(2, dtype=np.bool_), lambda _added, _money: 0, must_serve=False
    )
    none = np.zeros((1, 0), dtype=np.int64)
    assert buying.likely(none).tolist() == [0]
    assert buying.likely_with_each(none).tolist() == [[900, 800]]
    assert buying.likely(np.array([[0, 1]])).tolist() == [1100]
    assert buying.likely_with_each(np.array([[0]]))[0, 1] == 1100
