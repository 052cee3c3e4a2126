"""The cheapest purchase: by hand, and against all purchases there are."""

import pickle
import random
from dataclasses import replace
from itertools import combinations

import pytest
from tests.drawn_terms import AllPurchases, draw_terms, needs_by_palette

from fewtubes.errors import DefectError
from fewtubes.selection import addition
from fewtubes.selection.purchase import cheapest_purchase, holds
from fewtubes.selection.purchase_cost import cheapest_cost
from fewtubes.selection.purchase_program import solved_cost, solved_purchase
from fewtubes.selection.terms import (
    Need,
    PackOnSale,
    Purchase,
    SellerTerms,
    SetOnSale,
    Terms,
)

TUBES = 5

ONE = Need()


def _terms(*packs: PackOnSale, sellers: tuple[SellerTerms, ...], tubes: int = 2) -> Terms:
    return Terms(sellers, packs, (), (ONE,) * tubes)


TWO_SHOPS = _terms(
    PackOnSale(tube=0, seller=0, amount=5000, price=400),
    PackOnSale(tube=0, seller=1, amount=5000, price=450),
    PackOnSale(tube=1, seller=1, amount=5000, price=600),
    PackOnSale(tube=1, seller=0, amount=5000, price=900),
    sellers=(SellerTerms(delivery=300), SellerTerms(delivery=350, free_from=1050)),
)
"""Both tubes: 400 + 300 and 600 + 350 come to 1650; all from the first 1300 + 300; all from the
second 1050, and no delivery."""


def test_all_from_one_seller_is_cheaper_once_delivery_is_free() -> None:
    found = cheapest_purchase(TWO_SHOPS, (0, 1))
    assert found == Purchase(((1, 1), (2, 1)), (), ((1, 0),), 1050)


def test_one_tube_pays_its_delivery() -> None:
    assert cheapest_purchase(TWO_SHOPS, (0,)) == Purchase(((0, 1),), (), ((0, 300),), 700)


def test_nothing_costs_nothing() -> None:
    assert cheapest_purchase(TWO_SHOPS, ()) == Purchase((), (), (), 0)


def test_what_nobody_needs_may_make_the_delivery_free() -> None:
    """600 + 400 for delivery is dearer than 600 + 150 for a second tube that lies idle."""
    terms = _terms(
        PackOnSale(tube=0, seller=0, amount=5000, price=600),
        PackOnSale(tube=1, seller=0, amount=5000, price=150),
        sellers=(SellerTerms(delivery=400, free_from=750),),
    )
    assert cheapest_purchase(terms, (0,)) == Purchase(((0, 1), (1, 1)), (), ((0, 0),), 750)


def test_a_least_order_is_met_by_a_second_pack() -> None:
    """Below 700 nothing is sold; two packs of 400 are the only way."""
    terms = _terms(
        PackOnSale(tube=0, seller=0, amount=5000, price=400),
        sellers=(SellerTerms(least_order=700),),
        tubes=1,
    )
    assert cheapest_purchase(terms, (0,)) == Purchase(((0, 2),), (), ((0, 0),), 800)


def test_a_least_order_that_the_stock_cannot_meet_leaves_nothing() -> None:
    terms = _terms(
        PackOnSale(tube=0, seller=0, amount=5000, price=400, stock=1),
        sellers=(SellerTerms(least_order=700),),
        tubes=1,
    )
    assert cheapest_purchase(terms, (0,)) is None


def test_two_at_their_own_price_may_be_cheaper_than_one_large() -> None:
    """10 ml: 2 × 350 or one of 15 ml for 720; one alone of the small ones would be 400."""
    terms = replace(
        _terms(
            PackOnSale(tube=0, seller=0, amount=5000, price=400, price_of_more=350),
            PackOnSale(tube=0, seller=0, amount=15000, price=720),
            sellers=(SellerTerms(),),
            tubes=1,
        ),
        needs=(Need(amount=10_000),),
    )
    assert cheapest_purchase(terms, (0,)) == Purchase(((0, 2),), (), ((0, 0),), 700)


def test_a_set_is_bought_for_two_of_its_tubes() -> None:
    """400 + 500 for the two alone, 800 for the box with a third that lies idle."""
    packs = [PackOnSale(tube=t, seller=0, amount=5000, price=400 + 100 * t) for t in range(3)]
    box = SetOnSale(seller=0, price=800, holds=tuple((t, 1, 5000) for t in range(3)))
    terms = Terms((SellerTerms(),), tuple(packs), (box,), (ONE,) * 3)
    assert cheapest_purchase(terms, (0, 1)) == Purchase((), ((0, 1),), ((0, 0),), 800)
    assert cheapest_purchase(terms, (0,)) == Purchase(((0, 1),), (), ((0, 0),), 400)


def test_thirty_containers_come_at_the_price_of_many() -> None:
    """Twenty of the cheaper ones are there, and ten of the others: 20 × 3 + 10 × 4."""
    terms = replace(
        _terms(
            PackOnSale(tube=0, seller=0, amount=5000, price=9, price_of_more=3, stock=20),
            PackOnSale(tube=0, seller=0, amount=5000, price=4),
            sellers=(SellerTerms(),),
            tubes=1,
        ),
        needs=(Need(containers=30),),
    )
    assert cheapest_purchase(terms, (0,)) == Purchase(((0, 20), (1, 10)), (), ((0, 0),), 100)


@pytest.mark.parametrize("first", range(0, 90, 30))
def test_costs_are_those_of_the_cheapest_of_all_purchases(first: int) -> None:
    """By addition and, for some, by the integer program; the purchase told is one of the first."""
    for seed in range(first, first + 30):
        terms = draw_terms(seed, TUBES)
        if seed % 4 == 0:
            terms = replace(terms, needs_of=needs_by_palette(terms.needs))
        every = AllPurchases.under(terms)
        rng = random.Random(seed)  # noqa: S311  # no secrets are drawn
        for size in range(1, TUBES + 1):
            for bought in combinations(range(TUBES), size):
                cost = every.least_cost(bought)
                assert cheapest_cost(terms, bought) == cost
                if rng.random() < 0.05:
                    assert solved_cost(terms, bought, terms.needed(bought)) == cost
                    found = cheapest_purchase(terms, bought)
                    assert (found is None) is (cost is None)
                    if found is not None:
                        assert holds(terms, bought, found)
                        assert (every.counts_of(found), found.cost) in every.told(bought)


def test_the_program_counts_where_there_are_too_many_ways(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(addition, "MOST_WAYS", 0)
    for seed in range(10):
        terms = draw_terms(seed, TUBES)
        assert cheapest_cost(terms, (0, 1, 2)) == AllPurchases.under(terms).least_cost((0, 1, 2))


def test_the_same_purchase_is_told_whatever_was_asked_before() -> None:
    for seed in range(5):
        terms = draw_terms(seed, TUBES)
        first = cheapest_purchase(terms, (0, 2))
        cheapest_purchase(terms, (0, 1, 2))
        assert cheapest_purchase(terms, (0, 2)) == first
        assert cheapest_purchase(replace(terms), (0, 2)) == first


def test_a_purchase_that_is_short_dear_or_not_sold_does_not_hold() -> None:
    good = Purchase(((1, 1), (2, 1)), (), ((1, 0),), 1050)
    assert holds(TWO_SHOPS, (0, 1), good)
    assert not holds(TWO_SHOPS, (0, 1), replace(good, cost=1049))
    assert not holds(TWO_SHOPS, (0, 1), Purchase(((1, 1),), (), ((1, 350),), 800))
    few = replace(TWO_SHOPS, packs=tuple(replace(p, stock=0) for p in TWO_SHOPS.packs))
    assert not holds(few, (0, 1), good)


def test_no_purchase_of_another_cost_is_told() -> None:
    with pytest.raises(DefectError, match="no purchase for tubes"):
        solved_purchase(TWO_SHOPS, (0, 1), (ONE, ONE), 1049)


def test_terms_travel_to_another_process_without_what_was_worked_out() -> None:
    cheapest_cost(TWO_SHOPS, (0, 1))
    copy = pickle.loads(pickle.dumps(TWO_SHOPS))  # noqa: S301  # made on this line
    assert copy == TWO_SHOPS
    assert copy.worked_out == {}
