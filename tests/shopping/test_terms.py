"""What is on sale for a question, in whole numbers; sums by hand beside each."""

from collections.abc import Mapping
from dataclasses import replace

import pytest
from tests.shopping.conftest import make_scenario

from fewtubes.catalogue.records import Catalogue, Hazard, Offer
from fewtubes.catalogue.sellers import Seller, SetPack, TubeSet
from fewtubes.coverage.cache import Cache
from fewtubes.scenario.records import Scenario, Wishes
from fewtubes.selection.certificate import Status
from fewtubes.selection.terms import Need, PackOnSale, SellerTerms, SetOnSale
from fewtubes.shopping.needs import least_needs, thousandths
from fewtubes.shopping.question import Question, pose
from fewtubes.shopping.shop import shop
from fewtubes.shopping.terms import OnSale, on_sale, terms_for

STALL = Seller("stall", "market stall", 0, None, 0, "EUR")
POST = Seller("post", "by post", 495, 4000, 1000, "EUR")
TUBES = ("ultramarine", "magenta", "cadmium-red")


def stocked(
    demo: Catalogue,
    offers: Mapping[str, tuple[Offer, ...]],
    *sets: TubeSet,
    sellers: tuple[Seller, ...] = (STALL, POST),
) -> Catalogue:
    """Return a catalogue of the tubes named, with these offers alone."""
    return replace(
        demo,
        tubes={id_: replace(demo.tubes[id_], offers=offers.get(id_, ())) for id_ in TUBES},
        sellers={seller.id: seller for seller in sellers},
        sets={one.id: one for one in sets},
    )


def asked(millilitres: float = 0, **wishes: object) -> Scenario:
    held = Wishes(millilitres=millilitres, **wishes)  # type: ignore[arg-type]
    return Scenario(budget=30, currency="EUR", flowers=["primrose"], wishes=held)


def found(catalogue: Catalogue, scenario: Scenario, refused: tuple[str, ...] = ()) -> OnSale | None:
    needs = least_needs(scenario, len(catalogue.tubes))
    unwanted = refused
    return terms_for(catalogue, scenario, refused=refused, unwanted=unwanted, needs=needs)


@pytest.mark.parametrize(("ml", "whole"), [(5.0, 5000), (0.1, 100), (7.1, 7100), (0, 0)])
def test_paint_is_counted_in_thousandths(ml: float, whole: int) -> None:
    assert thousandths(ml) == whole  # 7.1 × 1000 is 7099.999… in binary


def test_single_prices_are_no_terms(demo: Catalogue) -> None:
    assert found(demo, Scenario(budget=9, currency="EUR", flowers=["primrose"])) is None


def test_sellers_who_charge_nothing_are_no_terms(demo: Catalogue) -> None:
    shop = Seller("shop", "shop", 0, None, 0, "EUR")
    offers = {
        "ultramarine": (Offer(5, 300, "EUR", "stall"), Offer(5, 290, "EUR", "shop")),
        "magenta": (Offer(5, 500, "EUR", "shop", stock=1, price_of_more=450),),
    }
    assert found(stocked(demo, offers, sellers=(STALL, shop)), asked()) is None


@pytest.mark.parametrize(
    ("offer", "millilitres", "matter"),
    [
        (Offer(5, 300, "EUR", "post"), 0, True),  # delivery
        (Offer(5, 300, "EUR", "stall", stock=2), 10, False),  # two packs hold 10 ml
        (Offer(5, 300, "EUR", "stall", stock=1), 10, True),  # one pack holds 5 ml
        (Offer(5, 300, "EUR", "stall", price_of_more=160), 5, False),  # two cost 3.20
        (Offer(5, 300, "EUR", "stall", price_of_more=150), 5, True),  # two cost as much as one
        (Offer(5, 300, "EUR", "stall", price_of_more=250), 6, True),  # two are needed
    ],
)
def test_when_more_than_single_prices_matter(
    demo: Catalogue, offer: Offer, millilitres: float, matter: bool
) -> None:
    catalogue = stocked(demo, {"ultramarine": (offer,)})
    assert (found(catalogue, asked(millilitres)) is not None) is matter


def test_needs_beyond_the_wish_matter(demo: Catalogue) -> None:
    catalogue = stocked(demo, {"ultramarine": (Offer(5, 300, "EUR", "stall"),)})
    needs = (Need(0, containers=8), Need(), Need())
    known = terms_for(catalogue, asked(), refused=(), unwanted=(), needs=needs)
    assert known is not None
    assert known.terms.needs == needs
    of = terms_for(
        catalogue,
        asked(),
        refused=(),
        unwanted=(),
        needs=(Need(),) * 3,
        needs_of=lambda b: (Need(),) * len(b),
    )
    assert of is not None
    assert of.terms.needs_of is not None


def test_what_is_on_sale_in_whole_numbers(demo: Catalogue) -> None:
    box = TubeSet(
        "box",
        "box",
        "post",
        1500,
        "EUR",
        (
            SetPack("ultramarine", 5, 2),
            SetPack("cadmium-red", 2.5, 1),
            SetPack("ultramarine", 2, 1),
        ),
        stock=3,
    )
    offers = {
        "ultramarine": (
            Offer(5, 300, "EUR", "post", stock=4, price_of_more=280),
            Offer(5, 300, "GBP"),  # another currency
            Offer(7.5, 400, "EUR"),
        ),
        "magenta": (Offer(5, 500, "EUR", "stall", stock=0),),  # sold out there
    }
    catalogue = stocked(demo, offers, box)
    known = found(catalogue, asked(5))
    assert known is not None
    assert known.sellers == (POST, None)  # nothing is left at the stall
    assert known.terms.sellers == (SellerTerms(495, 4000, 1000), SellerTerms())
    assert known.terms.packs == (
        PackOnSale(0, 0, 5000, 300, 280, 4),
        PackOnSale(0, 1, 7500, 400),
    )
    # 2 × 5 ml and 2 ml of ultramarine: 3 tubes, 12 ml
    assert known.terms.sets == (SetOnSale(0, 1500, ((0, 3, 12000), (2, 1, 2500)), 3),)
    assert known.terms.needs == (Need(5000),) * 3
    assert [offer.ml for offer in known.offers] == [5, 7.5]
    assert known.sets == (box,)


def test_a_set_with_a_hazard_to_be_avoided_is_not_bought(demo: Catalogue) -> None:
    packs = (SetPack("ultramarine", 5, 1), SetPack("cadmium-red", 5, 1))
    box = TubeSet("box", "box", "stall", 700, "EUR", packs)
    catalogue = stocked(demo, {}, box)
    assert found(catalogue, asked()) is not None
    assert found(catalogue, asked(avoid_hazards=(Hazard.CADMIUM,)), ("cadmium-red",)) is None


def test_refused_and_owned_tubes_are_not_for_sale_but_may_lie_in_a_set(demo: Catalogue) -> None:
    packs = tuple(SetPack(id_, 5, 1) for id_ in TUBES)
    box = TubeSet("box", "box", "stall", 700, "EUR", packs)
    offers = {id_: (Offer(5, 300, "EUR", "stall"),) for id_ in TUBES}
    catalogue = stocked(demo, offers, box)
    scenario = asked(owned=("ultramarine",), never=("cadmium-red",))
    known = found(catalogue, scenario, ("cadmium-red",))
    assert known is not None
    # What is owned is of no use, but may fill an order.
    assert [pack.tube for pack in known.terms.packs] == [0, 1]
    assert known.terms.sets[0].holds == ((1, 1, 5000),)  # the others are of no use
    all_refused = on_sale(catalogue, asked(), left_out=TUBES, needs=(Need(),) * 3)
    assert not all_refused.terms.packs
    assert not all_refused.terms.sets


def by_post(demo: Catalogue) -> Catalogue:
    """Return two of ultramarine for 1.50 each, and magenta for 6.00, by post from 8.00 on."""
    post = Seller("north", "by post, north", 195, None, 800, "EUR")
    offers = {
        "ultramarine": (Offer(5, 150, "EUR", "north", stock=2),),
        "magenta": (Offer(5, 600, "EUR", "north"),),
    }
    return stocked(demo, offers, sellers=(post,))


def question_of(catalogue: Catalogue, cache: Cache, **wishes: object) -> Question:
    scenario = make_scenario("cornflower", wishes=Wishes(**wishes))  # type: ignore[arg-type]
    return pose(catalogue, scenario, cache=cache, progress=lambda _stage: None)


def test_an_order_may_be_filled_with_a_tube_that_is_owned(demo: Catalogue, cache: Cache) -> None:
    question = question_of(by_post(demo), cache, owned=("magenta",))
    blue = question.catalogue.tubes["ultramarine"]
    # Two of the blue come to 3.00; 1.50 + 6.00 do not come to 8.00, 3.00 + 6.00 do.
    assert question.is_sold(blue)
    assert question.cost_beside(blue, ()) == 300 + 600 + 195
    plan = shop(by_post(demo), question.scenario, cache=cache)
    assert plan.certificate.status is Status.PROVEN
    assert [(it.tube.id, plan.cost) for it in plan.bought] == [("ultramarine", 1095)]
    (parcel,) = plan.purchase.parcels
    assert {one.tube.id: (one.pack.count, one.surplus) for one in parcel.packs} == {
        "ultramarine": (2, 1),
        "magenta": (1, 1),
    }


@pytest.mark.parametrize("refused", [{"never": ("magenta",)}, {"avoid_hazards": (Hazard.OTHER,)}])
def test_no_order_is_filled_with_what_the_wishes_refuse(
    demo: Catalogue, cache: Cache, refused: Mapping[str, tuple[object, ...]]
) -> None:
    catalogue = by_post(demo)
    if "avoid_hazards" in refused:
        (pigment, share), *_ = demo.tubes["magenta"].pigments
        harmful = replace(pigment, hazards=(Hazard.OTHER,))
        tube = replace(catalogue.tubes["magenta"], pigments=((harmful, share),))
        catalogue = replace(catalogue, tubes={**catalogue.tubes, "magenta": tube})
    question = question_of(catalogue, cache, **refused)
    blue = question.catalogue.tubes["ultramarine"]
    assert not question.is_sold(blue)  # what there is of it does not come to 8.00
    plan = shop(catalogue, question.scenario, cache=cache)
    assert not plan.bought
    assert all(remedy.tube is not blue for sample in plan.samples for remedy in sample.remedies)
