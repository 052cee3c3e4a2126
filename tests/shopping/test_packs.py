"""The cheapest packs against trying all combinations."""

from itertools import product

from hypothesis import given
from hypothesis import strategies as st

from fewtubes.catalogue.records import Offer, Tube
from fewtubes.shopping.packs import cheapest_packs

OFFERS = st.lists(
    st.builds(
        Offer, ml=st.integers(1, 15).map(float), price=st.integers(1, 50), currency=st.just("EUR")
    ),
    min_size=1,
    max_size=3,
    unique_by=lambda offer: offer.ml,
)


def tube(*offers: Offer) -> Tube:
    return Tube(id="t", name="t", strength=1.0, pigments=(), offers=offers)


@given(offers=OFFERS, millilitres=st.integers(0, 30).map(float))
def test_no_combination_is_cheaper(offers: list[Offer], millilitres: float) -> None:
    packs = cheapest_packs(tube(*offers), currency="EUR", millilitres=millilitres)
    assert packs
    assert sum(pack.count * pack.offer.ml for pack in packs) >= millilitres
    most = 31  # 30 packs of 1 ml hold 30 ml
    enough = (
        sum(n * offer.price for n, offer in zip(counts, offers, strict=True))
        for counts in product(*(range(int(most // offer.ml) + 2) for offer in offers))
        if any(counts)
        and sum(n * offer.ml for n, offer in zip(counts, offers, strict=True)) >= millilitres
    )
    assert sum(pack.cost for pack in packs) == min(enough)


def test_two_small_packs_may_beat_a_large_one() -> None:
    small, large = Offer(5, 300, "EUR"), Offer(10, 700, "EUR")
    (pack,) = cheapest_packs(tube(small, large), currency="EUR", millilitres=10)
    assert (pack.offer, pack.count, pack.cost) == (small, 2, 600)  # 2 × 3.00 < 7.00


def test_of_equal_prices_the_larger_pack_is_taken() -> None:
    small, large = Offer(5, 300, "EUR"), Offer(10, 300, "EUR")
    (pack,) = cheapest_packs(tube(small, large), currency="EUR", millilitres=0)
    assert pack.offer == large


def test_other_currencies_do_not_count() -> None:
    assert cheapest_packs(tube(Offer(5, 300, "EUR")), currency="CHF", millilitres=0) == ()
