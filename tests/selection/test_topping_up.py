"""Sums reached at sellers: by hand; against all purchases see `test_purchase`."""

import pytest

from fewtubes.selection import topping_up
from fewtubes.selection.terms import Need, PackOnSale, SellerTerms, SetOnSale, Terms
from fewtubes.selection.topping_up import TooManyError, cheapest_topped_up
from fewtubes.selection.tube_packs import packs_of

TERMS = Terms(
    (SellerTerms(delivery=400, free_from=1000), SellerTerms()),
    (
        PackOnSale(tube=0, seller=0, amount=5000, price=700),
        PackOnSale(tube=0, seller=1, amount=5000, price=650),
        PackOnSale(tube=1, seller=0, amount=5000, price=320),
    ),
    (SetOnSale(seller=0, price=310, holds=((1, 1, 2000),)),),
    (Need(), Need()),
)


def _cost(target: int, most: int | None, *, sets: frozenset[int] = frozenset()) -> int | None:
    return cheapest_topped_up(
        TERMS,
        [(Need(), packs_of(TERMS)[0])],
        spent=(0, 0),
        targets=(target, 0),
        least=[650],
        most=most,
        beside=(frozenset({0}), sets),
    )


def test_what_reaches_the_sum_at_least_cost() -> None:
    """700 alone; 700 and a set for 310 come to 1010; without the set 700 + 320."""
    assert _cost(700, None) == 700
    assert _cost(1000, None) == 1010
    assert _cost(1000, None, sets=frozenset({0})) == 1020


def test_nothing_where_it_would_cost_too_much() -> None:
    assert _cost(1000, 1010) == 1010
    assert _cost(1000, 1009) is None
    assert _cost(1000, 600) is None


def test_too_many_states_are_told(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(topping_up, "MOST_STATES", 1)
    with pytest.raises(TooManyError):
        _cost(1000, 5000)


def test_money_without_limit_takes_no_memory() -> None:
    """A least order is reached however much may be spent: 700 and a set for 310, as above."""
    assert _cost(1000, 1 << 40) == 1010


def test_how_many_fillings_of_a_limited_stock_and_price_for_two() -> None:
    """One for 300, two and more for 200 each, three of them at most: 300, 400 or 600 besides 100.

    To 250 the cheapest is 100 + 300; to 450 it is 100 + 400; to 550, 100 + 600; more there is not.
    """
    terms = Terms(
        (SellerTerms(least_order=1),),
        (
            PackOnSale(tube=0, seller=0, amount=5000, price=100, stock=1),
            PackOnSale(tube=1, seller=0, amount=5000, price=300, price_of_more=200, stock=3),
        ),
        (),
        (Need(), Need()),
    )
    found = [
        cheapest_topped_up(
            terms,
            [(Need(), packs_of(terms)[0])],
            spent=(0,),
            targets=(target,),
            least=[100],
            most=2000,
            beside=(frozenset({0}), frozenset()),
        )
        for target in (250, 450, 550, 701)
    ]
    assert found == [400, 500, 700, None]


def test_too_much_to_look_through_is_told(monkeypatch: pytest.MonkeyPatch) -> None:
    """What can be had with one tube more is counted before it is looked through."""
    monkeypatch.setattr(topping_up, "MOST_JOINED", 2)
    assert _cost(1000, 1010) == 1010  # nothing yet, and the tube from either seller
    with pytest.raises(TooManyError):
        _cost(1000, 5000)
