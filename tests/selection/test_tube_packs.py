"""The cheapest packs of one tube, by hand and against trying all, and prices that are a bound."""

import random
from itertools import combinations, product

import numpy as np
from scipy.optimize import LinearConstraint, milp
from tests.drawn_terms import AllPurchases, draw_terms

from fewtubes.selection.terms import (
    OUT_OF_REACH,
    Need,
    PackOnSale,
    SellerTerms,
    SetOnSale,
    Terms,
)
from fewtubes.selection.tube_packs import (
    Supply,
    cheapest_cover,
    least_prices,
    packs_of,
    set_shares,
    useful_count,
)


def _supply(rng: random.Random) -> Supply:
    price = rng.randint(2, 9)
    return Supply(
        seller=rng.randrange(2),
        containers=rng.choice((1, 1, 2)),
        amount=rng.randint(0, 4),
        price=price,
        price_of_more=rng.choice((price, price - 1, price + 1)),
        stock=rng.choice((None, 1, 2)),
    )


def test_covers_are_the_cheapest_of_all() -> None:
    """Up to five of each thing are tried: no need drawn takes more."""
    for seed in range(200):
        rng = random.Random(seed)  # noqa: S311  # no secrets are drawn
        supplies = [_supply(rng) for _ in range(rng.randint(0, 4))]
        need = Need(rng.randint(0, 5), rng.randint(0, 4))
        costs = [
            sum(s.cost(n) for s, n in zip(supplies, counts, strict=True))
            for counts in product(
                *(range(1 + (5 if s.stock is None else s.stock)) for s in supplies)
            )
            if sum(n * s.containers for s, n in zip(supplies, counts, strict=True))
            >= need.containers
            and sum(n * s.amount for s, n in zip(supplies, counts, strict=True)) >= need.amount
        ]
        found = cheapest_cover(supplies, need)
        assert (found and found[0]) == min(costs, default=None)
        if found is not None:
            assert sum(money for _, money in found[1]) == found[0]


def test_covers_of_large_classes_are_those_of_an_integer_program() -> None:
    """Against HiGHS: least price × count, so many tubes and so much paint; up to 500 painters."""
    rng = random.Random(7)  # noqa: S311  # no secrets are drawn
    for _ in range(25):
        packs = [(rng.randint(100, 900), 1000 * ml) for ml in rng.sample((5, 10, 15, 37), 3)]
        need = Need(rng.randint(1, 5000) * 1000, rng.randint(2, 500))
        prices, amounts = np.array(packs, dtype=float).T
        found = milp(
            prices,
            integrality=np.ones(3, dtype=np.int64),
            constraints=[
                LinearConstraint(np.ones(3), lb=need.containers),
                LinearConstraint(amounts / 1000, lb=need.amount / 1000),
            ],
            options={"mip_rel_gap": 0},
        )
        supplies = [Supply(0, 1, amount, price, price, None) for price, amount in packs]
        cover = cheapest_cover(supplies, need)
        assert cover is not None
        assert found.fun is not None
        assert cover[0] == round(found.fun)


def test_how_many_may_be_of_use() -> None:
    """12 ml in packs of 5 are three; of pans of unknown content as many as containers."""
    assert useful_count(Need(12_000), containers=1, amount=5_000, stock=None) == 3
    assert useful_count(Need(12_000, 4), containers=1, amount=5_000, stock=None) == 4
    assert useful_count(Need(12_000), containers=1, amount=5_000, stock=2) == 2
    assert useful_count(Need(), containers=1, amount=5_000, stock=None, least=2) == 2


def test_the_price_of_a_set_is_split_after_the_packs() -> None:
    """A box for 900 of a tube for 400 and one for 800: 300 and 600."""
    packs = (
        PackOnSale(tube=0, seller=0, amount=5000, price=400),
        PackOnSale(tube=1, seller=0, amount=5000, price=800),
    )
    box = SetOnSale(seller=0, price=900, holds=((0, 1, 5000), (1, 1, 5000)))
    terms = Terms((SellerTerms(delivery=300),), packs, (box,), (Need(),) * 3)
    assert [s.price for _, s in set_shares(terms, packs_of(terms))] == [300, 600]
    assert least_prices(terms) == (300, 600, OUT_OF_REACH)


def test_no_palette_costs_less_than_the_least_prices() -> None:
    for seed in range(60):
        terms = draw_terms(seed, 5)
        every, prices = AllPurchases.under(terms), least_prices(terms)
        for size in range(6):
            for bought in combinations(range(5), size):
                cost = every.least_cost(bought)
                bound = sum(prices[tube] for tube in bought)
                assert bound <= (OUT_OF_REACH if cost is None else cost) or cost is None
