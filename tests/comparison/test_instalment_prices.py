"""Buying bit by bit under sellers' terms: by single prices where these are exact, else as sold."""

from collections.abc import Mapping
from dataclasses import replace

import pytest

from fewtubes.catalogue.reading import read_catalogue
from fewtubes.catalogue.records import Catalogue, Offer
from fewtubes.catalogue.sellers import Seller, SetPack, TubeSet
from fewtubes.comparison.instalments import instalments
from fewtubes.coverage.cache import Cache
from fewtubes.errors import InputError
from fewtubes.scenario.class_wish import ClassWish, Pupils
from fewtubes.scenario.picture_wish import PictureWish
from fewtubes.scenario.records import Scenario, Wishes
from fewtubes.shopping.bought import Surplus

STALL = Seller("stall", "market stall", 0, None, 0, "EUR")
POST = Seller("post", "by post", 495, 4000, 1000, "EUR")
TUBES = ("lemon", "ultramarine", "magenta")


@pytest.fixture(scope="module")
def demo() -> Catalogue:
    return read_catalogue()


def stocked(demo: Catalogue, offers: Mapping[str, tuple[Offer, ...]], *sets: TubeSet) -> Catalogue:
    return replace(
        demo,
        tubes={id_: replace(demo.tubes[id_], offers=offers.get(id_, ())) for id_ in TUBES},
        sellers={seller.id: seller for seller in (STALL, POST)},
        sets={one.id: one for one in sets},
    )


def asked(millilitres: float) -> Scenario:
    wishes = Wishes(millilitres=millilitres)
    return Scenario(budget=30, currency="EUR", flowers=["primrose"], wishes=wishes)


def test_two_packs_at_the_price_of_two_are_bought(demo: Catalogue, shared_cache: Cache) -> None:
    """Of lemon 10 ml are wished for: two packs of 5 ml at 2.50 each instead of 3.00 are 5.00."""
    offers = {
        "lemon": (Offer(5, 300, "EUR", "stall", price_of_more=250),),
        "ultramarine": (Offer(10, 400, "EUR", "stall"),),
    }
    given = replace(asked(10), wishes=Wishes(millilitres=10, must_have=("lemon", "ultramarine")))
    found = instalments(
        stocked(demo, offers), given, sums=["4.99", "0.01", "4"], order_only=True,
        cache=shared_cache,
    )  # fmt: skip
    assert found.proven
    assert found.cost == 900
    (lemon,) = [one for one in found.purchases if one.tube.id == "lemon"]
    assert lemon.cost == 500
    assert [(pack.count, pack.offer.ml) for pack in lemon.packs] == [(2, 5.0)]
    assert lemon not in found.times[0].bought  # 4.99 is a cent too little
    spent = [time.palette.cost for time in found.times]
    assert all(cost <= money for cost, money in zip(spent, (499, 500, 900), strict=True))


def test_a_class_buys_a_tube_of_each_for_everybody(demo: Catalogue, shared_cache: Cache) -> None:
    """Three tubes of lemon at 3.00 are 9.00, and of ultramarine, in 15 ml at 4.00, 12.00."""
    offers = {"lemon": (Offer(5, 300, "EUR"),), "ultramarine": (Offer(15, 400, "EUR"),)}
    wishes = Wishes(must_have=("lemon", "ultramarine"))
    group = ClassWish(3, pupils=Pupils.GROWN_UPS)
    scenario = replace(asked(0), wishes=wishes, group=group)
    found = instalments(
        stocked(demo, offers), scenario, sums=[9, 12], order_only=True, cache=shared_cache
    )
    assert [[one.tube.id for one in time.bought] for time in found.times] == [
        ["lemon"],
        ["ultramarine"],
    ]
    assert [time.cost for time in found.times] == [900, 1200]
    assert [time.palette.cost for time in found.times] == [900, 2100]
    assert [time.carried_on for time in found.times] == [0, 0]


def test_packs_for_a_least_order_and_the_delivery_are_paid_for(
    demo: Catalogue, shared_cache: Cache
) -> None:
    """The least order of 10.00 takes four packs of lemon at 3.00; with 4.95 that is 16.95."""
    given = replace(asked(0), wishes=Wishes(must_have=("lemon",)))
    found = instalments(
        stocked(demo, {"lemon": (Offer(5, 300, "EUR", "post"),)}), given, sums=[10, 7],
        order_only=True, cache=shared_cache,
    )  # fmt: skip
    assert found.proven
    assert [time.cost for time in found.times] == [0, 1695]
    assert found.deliveries == 495
    bought = found.times[1].purchase
    assert bought is not None
    ((pack,),) = [parcel.packs for parcel in bought.parcels]
    assert (pack.pack.count, pack.surplus, pack.why) == (4, 3, Surplus.LEAST_ORDER)


def test_a_set_is_paid_for_once_and_all_it_holds_counts(
    demo: Catalogue, shared_cache: Cache
) -> None:
    """Lemon and magenta as a pair for 5.00; ultramarine singly for 4.00 with the next sum."""
    pair = TubeSet(
        "pair",
        "pair of two",
        "stall",
        500,
        "EUR",
        (SetPack("lemon", 5, 1), SetPack("magenta", 5, 1)),
    )
    given = replace(asked(0), wishes=Wishes(must_have=TUBES))
    found = instalments(
        stocked(demo, {"ultramarine": (Offer(5, 400, "EUR", "stall"),)}, pair), given,
        sums=["5", "4"], order_only=True, cache=shared_cache,
    )  # fmt: skip
    assert found.proven
    assert [time.cost for time in found.times] == [500, 400]
    assert {one.tube.id for one in found.times[0].bought} == {"lemon", "magenta"}
    assert [one.packs for one in found.times[0].bought] == [(), ()]
    assert found.times[0].purchase is not None
    assert [one.tube_set.id for one in found.times[0].purchase.parcels[0].sets] == ["pair"]


def test_two_that_cost_less_than_one_are_refused(demo: Catalogue, shared_cache: Cache) -> None:
    offers = {"lemon": (Offer(5, 300, "EUR", "post", price_of_more=100),)}
    with pytest.raises(InputError, match="two of a pack cost less than one") as refused:
        instalments(stocked(demo, offers), asked(0), sums=[5, 5], cache=shared_cache)
    assert [fault.where for fault in refused.value.faults] == ["sums"]


def test_pictures_whose_mixes_share_paint_are_refused(demo: Catalogue, shared_cache: Cache) -> None:
    planned = replace(asked(0), picture=PictureWish(pictures=9))
    catalogue = stocked(demo, {"lemon": (Offer(5, 300, "EUR", "stall"),)})
    with pytest.raises(InputError, match=r"pictures planned.* or leave the pictures out"):
        instalments(catalogue, planned, sums=[5, 5], cache=shared_cache)
