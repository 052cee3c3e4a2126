"""What is bought where, what of it is surplus and why; every sum is written out by hand."""

from collections.abc import Mapping
from dataclasses import replace

import pytest
from tests.shopping.conftest import make_scenario

from fewtubes.catalogue.records import Catalogue, Hazard, Offer
from fewtubes.catalogue.sellers import Seller, SetPack, TubeSet
from fewtubes.comparison.instalments import instalments
from fewtubes.coverage.cache import Cache
from fewtubes.errors import ClashError
from fewtubes.scenario.home_box import BoxAtHome
from fewtubes.scenario.records import Scenario, Wishes
from fewtubes.shopping.bought import Bought, Surplus
from fewtubes.shopping.plan_parts import Obstacle
from fewtubes.shopping.question import Question, pose
from fewtubes.shopping.refusals import Refusal
from fewtubes.shopping.shop import shop

POST = Seller("post", "by post", 400, 1200, 500, "EUR")
STALL = Seller("stall", "market stall", 0, None, 0, "EUR")
TUBES = ("lemon", "ultramarine", "rose", "cadmium-red")

Offers = Mapping[str, tuple[Offer, ...]]


def stocked(demo: Catalogue, offers: Offers, *sets: TubeSet) -> Catalogue:
    """Return a catalogue of a few tubes with these offers alone, at two sellers."""
    return replace(
        demo,
        tubes={id_: replace(demo.tubes[id_], offers=offers.get(id_, ())) for id_ in TUBES},
        sellers={seller.id: seller for seller in (STALL, POST)},
        sets={one.id: one for one in sets},
    )


def posed(catalogue: Catalogue, cache: Cache, scenario: Scenario | None = None) -> Question:
    asked = scenario or make_scenario("primrose")
    return pose(catalogue, asked, cache=cache, progress=lambda _stage: None)


def bought(question: Question, *ids: str) -> Bought:
    return question.purchase(tuple(sorted(question.numbers[id_] for id_ in ids)))


def test_goods_deliveries_and_sums(demo: Catalogue, cache: Cache) -> None:
    offers = {
        "lemon": (Offer(5, 300, "EUR", "stall"), Offer(5, 290, "EUR", "post")),
        "ultramarine": (Offer(5, 600, "EUR", "post"),),
    }
    found = bought(posed(stocked(demo, offers), cache), "lemon", "ultramarine")
    # Both by post: 2.90 + 6.00 + 4.00; the lemon at the stall: 3.00 + 6.00 + 4.00.
    (parcel,) = found.parcels
    assert parcel.seller == POST
    assert (parcel.goods, parcel.delivery, found.cost) == (890, 400, 1290)
    assert not parcel.delivered_free
    assert [one.tube.id for one in parcel.packs] == ["lemon", "ultramarine"]
    assert found.by_seller


def test_a_pack_more_makes_the_delivery_free(demo: Catalogue, cache: Cache) -> None:
    offers = {
        "lemon": (Offer(5, 250, "EUR", "post"),),
        "ultramarine": (Offer(5, 980, "EUR", "post"),),
    }
    found = bought(posed(stocked(demo, offers), cache), "ultramarine")
    # 9.80 + 4.00 = 13.80 is dearer than 9.80 + 2.50 = 12.30, from 12.00 on delivered free.
    (parcel,) = found.parcels
    assert (found.cost, parcel.delivery, parcel.delivered_free) == (1230, 0, True)
    assert [(one.tube.id, one.surplus, one.why, one.idle) for one in parcel.packs] == [
        ("lemon", 1, Surplus.FREE_DELIVERY, True),
        ("ultramarine", 0, None, False),
    ]


def test_a_pack_more_meets_the_least_order(demo: Catalogue, cache: Cache) -> None:
    offers = {"lemon": (Offer(5, 300, "EUR", "post"),)}
    found = bought(posed(stocked(demo, offers), cache), "lemon")
    # 2 × 3.00 = 6.00 is the least that reaches 5.00; 4.00 more for the delivery.
    ((one,),) = (parcel.packs for parcel in found.parcels)
    assert (found.cost, one.pack.count, one.surplus, one.why) == (
        1000,
        2,
        1,
        Surplus.LEAST_ORDER,
    )
    assert not one.idle


def test_two_may_cost_no_more_than_one(demo: Catalogue, cache: Cache) -> None:
    offers = {"lemon": (Offer(5, 300, "EUR", "stall", price_of_more=145),)}
    found = bought(posed(stocked(demo, offers), cache), "lemon")
    ((one,),) = (parcel.packs for parcel in found.parcels)
    assert (found.cost, one.pack.count, one.pack.each, one.why) == (290, 2, 145, Surplus.CHEAPER)


def test_what_lies_idle_in_a_set_is_told_with_its_reason(demo: Catalogue, cache: Cache) -> None:
    box = TubeSet("box", "box", "stall", 500, "EUR", tuple(SetPack(id_, 2.0, 1) for id_ in TUBES))
    offers = {"lemon": (Offer(5, 900, "EUR", "stall"),)}
    wishes = Wishes(owned=("ultramarine",), never=("cadmium-red",))
    question = posed(stocked(demo, offers, box), cache, make_scenario("primrose", wishes=wishes))
    found = bought(question, "lemon")
    ((one,),) = (parcel.sets for parcel in found.parcels)
    assert [tube.id for tube in one.used] == ["lemon"]
    assert [(tube.id, why) for tube, why in one.idle] == [
        ("ultramarine", Surplus.OWNED),
        ("rose", Surplus.NO_USE),
        ("cadmium-red", Surplus.REFUSED),
    ]
    assert found.sets_of("lemon") == (one,)
    assert found.sets_of("rose") == ()
    # With both that it is bought for, nothing more is to be paid.
    assert question.cost_beside(question.catalogue.tubes["rose"], {question.numbers["lemon"]}) == 0
    avoiding = Wishes(avoid_hazards=(Hazard.CADMIUM,))
    other = posed(stocked(demo, offers, box), cache, make_scenario("primrose", wishes=avoiding))
    assert other.refused["rose"] is Refusal.NOT_FOR_SALE  # the set has a cadmium colour in it
    assert bought(other, "lemon").cost == 900


def test_what_one_tube_more_costs_beside_others(demo: Catalogue, cache: Cache) -> None:
    offers = {
        "lemon": (Offer(5, 700, "EUR", "post"),),
        "ultramarine": (Offer(5, 600, "EUR", "post"),),
        "cadmium-red": (Offer(5, 450, "EUR", "post"),),
    }
    wishes = Wishes(never=("cadmium-red",))
    question = posed(stocked(demo, offers), cache, make_scenario("primrose", wishes=wishes))
    tubes, lemon = question.catalogue.tubes, question.numbers["lemon"]
    assert question.cost(tubes["ultramarine"]) == 600
    # Alone 6.00 + 4.00; beside the lemon (7.00 + 4.00) it makes 13.00 of goods, delivered free.
    assert question.cost_beside(tubes["ultramarine"], ()) == 1000
    assert question.cost_beside(tubes["ultramarine"], {lemon}) == 200
    # A refused one is told as if it were not: 7.00 + 4.50 + 4.00 less 11.00.
    assert question.cost_beside(tubes["cadmium-red"], {lemon}) == 450
    assert not question.is_sold(tubes["rose"])


def test_sellers_without_charges_are_told_apart_all_the_same(demo: Catalogue, cache: Cache) -> None:
    offers = {
        "lemon": (Offer(5, 300, "EUR", "stall"),),
        "ultramarine": (Offer(5, 200, "EUR"),),
    }
    question = posed(stocked(demo, offers), cache)
    assert question.terms is None
    found = bought(question, "lemon", "ultramarine")
    assert [(parcel.seller, parcel.cost) for parcel in found.parcels] == [(STALL, 300), (None, 200)]


def test_old_price_lists_have_one_parcel_of_no_seller(demo: Catalogue, cache: Cache) -> None:
    plan = shop(demo, make_scenario("primrose", budget=900), cache=cache)
    (parcel,) = plan.purchase.parcels
    assert (parcel.seller, plan.purchase.by_seller, plan.purchase.cost) == (None, False, plan.cost)


def test_too_little_in_stock_is_a_reason(demo: Catalogue, cache: Cache) -> None:
    offers = {
        "lemon": (Offer(5, 300, "EUR", "stall", stock=0),),
        "ultramarine": (Offer(5, 300, "EUR", "stall", stock=2), Offer(2, 200, "EUR", stock=1)),
        "rose": (Offer(5, 300, "EUR", "stall", stock=3),),
    }
    scenario = make_scenario("primrose", wishes=Wishes(millilitres=13))
    question = posed(stocked(demo, offers), cache, scenario)
    assert question.refused["lemon"] is Refusal.TOO_LITTLE
    assert question.refused["ultramarine"] is Refusal.TOO_LITTLE  # 2 × 5 + 2 = 12 ml
    assert "rose" not in question.refused  # 3 × 5 ml
    assert not question.is_sold(question.catalogue.tubes["lemon"])
    wishes = Wishes(must_have=("lemon",))
    with pytest.raises(ClashError, match="too little of it in stock; ask for less of it"):
        shop(stocked(demo, offers), make_scenario("primrose", wishes=wishes), cache=cache)


def test_colours_that_take_a_tube_out_of_stock_say_so(demo: Catalogue, cache: Cache) -> None:
    offers = {"lemon": (Offer(5, 300, "EUR", "stall", stock=0),)}
    plan = shop(stocked(demo, offers), make_scenario("primrose"), cache=cache)
    told = {planned.obstacle for planned in plan.samples if not planned.covered}
    assert Obstacle.STOCK in told


def test_a_tube_that_runs_low_is_told_at_its_price_alone(demo: Catalogue, cache: Cache) -> None:
    offers = {id_: (Offer(5, 300, "EUR", "post"),) for id_ in TUBES}
    wishes = Wishes(box=BoxAtHome({"lemon": 0.05}))
    scenario = make_scenario("primrose", wishes=wishes)
    plan = shop(stocked(demo, offers), scenario, cache=cache)
    low = [planned for planned in plan.tubes if planned.runs_low]
    assert [(planned.tube.id, planned.again) for planned in low] == [("lemon", 300)]


def test_buying_bit_by_bit_pays_for_the_delivery(demo: Catalogue, cache: Cache) -> None:
    """What comes by post costs more than its packs, and never more than there is money."""
    offers = {id_: (Offer(5, 300, "EUR", "post"),) for id_ in TUBES}
    found = instalments(
        stocked(demo, offers), make_scenario("primrose"), sums=[20, 20], cache=cache
    )
    assert found.proven
    goods = sum(purchase.cost for purchase in found.purchases)
    assert found.deliveries > 0
    assert found.cost >= goods + found.deliveries
    assert all(time.carried_on >= 0 for time in found.times)
