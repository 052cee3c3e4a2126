"""What a class buys together, against sums by hand of the demo's prices."""

import math
from collections.abc import Callable
from dataclasses import replace

import pytest

from fewtubes.catalogue.records import Catalogue
from fewtubes.catalogue.sellers import Seller, SetPack, TubeSet
from fewtubes.coverage.cache import Cache
from fewtubes.scenario.class_wish import ClassWish, Pupils, TubesFor
from fewtubes.scenario.records import Scenario, Wishes
from fewtubes.selection.certificate import Status
from fewtubes.shopping.class_share import fewest_tubes
from fewtubes.shopping.plan import Plan
from fewtubes.shopping.shop import shop

MakeScenario = Callable[..., Scenario]

GROWN_UPS = Pupils.GROWN_UPS

ONLY = "warm-red-study"
"""One tube that must be bought and nothing else: sums follow from its packs alone."""


FEW = (ONLY, "arylide-yellow", "lemon", "ultramarine", "iron-blue")


@pytest.fixture
def demo(demo: Catalogue) -> Catalogue:
    """Return the demo with a few of its tubes, which are mixed at once."""
    return replace(demo, tubes={id_: demo.tubes[id_] for id_ in FEW})


@pytest.fixture
def one_paint(demo: Catalogue, cache: Cache, scenario: MakeScenario) -> Callable[..., Plan]:
    """Return a plan that buys one paint for a class."""

    def made(group: ClassWish, *, budget: int = 100_000, **wishes: float) -> Plan:
        asked = scenario(
            "tulip, red",
            budget=budget,
            most_tubes=1,
            group=group,
            wishes=Wishes(must_have=(ONLY,), **wishes),  # type: ignore[arg-type]
        )
        return shop(demo, asked, cache=cache)

    return made


def prices(demo: Catalogue) -> dict[float, int]:
    """Return what a pack of the one paint costs, by its millilitres."""
    return {o.ml: o.price for o in demo.tubes[ONLY].offers if o.currency == "EUR"}


def test_the_price_that_the_sums_are_made_of(demo: Catalogue) -> None:
    assert prices(demo)[10] == 245


def test_a_tube_for_each_painter(demo: Catalogue, one_paint: Callable[..., Plan]) -> None:
    """7 × 2.45 = 17.15 is the cheapest way to seven tubes; 17.15 ÷ 7 = 2.45 a head."""
    assert min(prices(demo).values()) == 245
    plan = one_paint(ClassWish(7, pupils=GROWN_UPS), budget=2000)
    share = plan.class_share
    assert share is not None
    assert plan.certificate.status is Status.PROVEN
    assert (plan.cost, share.a_head, share.together) == (1715, 245, 1715)
    assert (share.left, share.back_a_head) == (285, 40)  # 20.00 − 17.15; 2.85 ÷ 7 = 0.407…
    (tube,) = share.tubes
    assert (tube.needed, tube.bought, tube.spare) == (7, 7, 0)
    assert (tube.needed_ml, tube.bought_ml, tube.left_ml) == (0, 70, None)


def test_a_cost_a_head_that_is_no_whole_hundredth_is_rounded_up(
    one_paint: Callable[..., Plan],
) -> None:
    """9 × 1.5 ml = 13.5 ml take 2 × 10 ml: 4.90; 4.90 ÷ 9 = 0.5444 → 0.55; 9 × 0.55 = 4.95."""
    share = one_paint(ClassWish(9, TubesFor.PANS, GROWN_UPS)).class_share
    assert share is not None
    assert (share.cost, share.a_head, share.together) == (490, 55, 495)
    (tube,) = share.tubes
    assert (tube.needed, tube.bought, tube.spare) == (1, 2, None)
    assert (tube.needed_ml, tube.bought_ml, tube.left_ml) == (13.5, 20, 6.5)


def test_paint_wished_for_each_painter(one_paint: Callable[..., Plan]) -> None:
    """3 painters with 15 ml each: 45 ml take 5 × 10 ml, 12.25; so none of the 5 is to spare."""
    share = one_paint(ClassWish(3, pupils=GROWN_UPS), millilitres=15).class_share
    assert share is not None
    (tube,) = share.tubes
    assert (share.cost, tube.needed, tube.bought, tube.spare) == (1225, 5, 5, 0)
    assert (tube.needed_ml, tube.left_ml) == (45, 5)


def test_shared_tubes_hold_what_the_pictures_take(one_paint: Callable[..., Plan]) -> None:
    """Paint of 12 × 3 pictures, as the plan itself tells of one."""
    plan = one_paint(ClassWish(12, TubesFor.SHARED, GROWN_UPS, pictures=3))
    share = plan.class_share
    assert share is not None
    assert plan.paint is not None
    assert plan.paint.picture.pictures == 36
    (tube,) = share.tubes
    (paint,) = plan.paint.tubes
    assert tube.needed_ml == pytest.approx(36 * paint.ml)
    assert tube.needed_ml > 0
    assert tube.bought_ml >= tube.needed_ml
    assert not tube.counted


@pytest.mark.parametrize("tubes", TubesFor)
def test_paint_is_bought_for_the_pictures_however_tubes_are_shared(
    one_paint: Callable[..., Plan], tubes: TubesFor
) -> None:
    """For 7 × 300 pictures; so many packs of 10 ml as hold them, 2.45 each, and no more."""
    plan = one_paint(ClassWish(7, tubes, GROWN_UPS, pictures=300))
    share = plan.class_share
    assert share is not None
    assert plan.paint is not None
    assert plan.paint.picture.pictures == 2100
    (tube,), (paint,) = share.tubes, plan.paint.tubes
    packs = math.ceil(2100 * paint.ml / 10)
    assert packs > 7  # more than a tube for each
    assert (tube.bought, share.cost) == (packs, 245 * packs)
    assert tube.needed_ml == pytest.approx(2100 * paint.ml)
    assert (tube.needed, tube.spare) == ((packs, 0) if tubes is TubesFor.ONE_EACH else (1, None))
    assert not tube.counted


def test_few_pictures_ask_for_no_more_than_a_tube_or_a_pan_each(
    one_paint: Callable[..., Plan],
) -> None:
    """7 tubes for 7 painters; 7 × 1.5 ml = 10.5 ml in two of 10 ml."""
    each = one_paint(ClassWish(7, TubesFor.ONE_EACH, GROWN_UPS, pictures=1)).class_share
    pans = one_paint(ClassWish(7, TubesFor.PANS, GROWN_UPS, pictures=1)).class_share
    assert each is not None
    assert pans is not None
    (tube,), (filled,) = each.tubes, pans.tubes
    assert (tube.needed, tube.bought, each.cost) == (7, 7, 1715)
    assert (filled.needed_ml, filled.bought, pans.cost) == (10.5, 2, 490)
    assert filled.counted
    assert not tube.counted


def test_fewer_pictures_are_told_of_a_class_too(
    demo: Catalogue, cache: Cache, scenario: MakeScenario
) -> None:
    """For so many as it tells all that any pack would cover is covered, and for two more less."""

    def of_two(pictures: int | None) -> Plan:
        group = ClassWish(2, pupils=GROWN_UPS, pictures=pictures)
        return shop(demo, scenario("daffodil", budget=2000, group=group), cache=cache)

    alone, plan = of_two(None), of_two(1000)
    assert plan.paint is not None
    fewer = plan.paint.fewer
    assert fewer is not None
    assert fewer.coverage == alone.coverage > plan.coverage
    assert 2 <= fewer.pictures < 2000
    each = fewer.pictures // 2
    assert of_two(each).coverage == alone.coverage > of_two(each + 1).coverage


@pytest.mark.parametrize(
    ("sizes", "needed_ml", "at_least", "fewest"),
    [
        ([10.0] * 27, 261.0, 7, 27),  # 26 × 10 = 260 are too little
        ([10.0] * 27, 260.0, 7, 26),
        ([10.0] * 27, 12.0, 7, 7),  # two would hold it, but there are seven painters
        ([50.0, 10.0, 10.0, 10.0], 45.0, 2, 2),  # the large one, and one more for the other
        ([15.0, 15.0, 5.0], 30.0, 2, 2),
        ([15.0, 15.0, 5.0], 30.001, 2, 3),
        ([0.1, 0.1, 0.1], 0.1 + 0.2, 1, 3),  # 0.30000000000000004 is 0.3
        ([5.0, 5.0], 0.0, 2, 2),
    ],
)
def test_how_few_of_the_tubes_bought_do(
    sizes: list[float], needed_ml: float, at_least: int, fewest: int
) -> None:
    assert fewest_tubes(sizes, needed_ml, at_least=at_least) == fewest


def test_owned_tubes_are_taken_to_be_enough(
    demo: Catalogue, cache: Cache, scenario: MakeScenario
) -> None:
    asked = scenario(
        "tulip, red",
        group=ClassWish(12, pupils=GROWN_UPS),
        most_tubes=1,
        wishes=Wishes(owned=(ONLY, "lemon")),
    )
    plan = shop(demo, asked, cache=cache)
    share = plan.class_share
    assert share is not None
    used = [p.tube.id for p in plan.tubes if p.owned and p.recipes]
    assert [tube.id for tube in share.owned] == used
    assert ONLY in used
    assert len(share.tubes) == len(plan.bought)


def test_nothing_to_buy_costs_nothing(
    demo: Catalogue, cache: Cache, scenario: MakeScenario
) -> None:
    asked = scenario("tulip, red", budget=100, group=ClassWish(12, pupils=GROWN_UPS))
    share = shop(demo, asked, cache=cache).class_share
    assert share is not None
    assert (share.cost, share.a_head, share.together, share.back_a_head) == (0, 0, 0, 8)
    assert not share.tubes


def test_a_scenario_of_no_class_has_no_share(
    demo: Catalogue, cache: Cache, scenario: MakeScenario
) -> None:
    plan = shop(demo, scenario("tulip, red"), cache=cache)
    assert plan.class_share is None


def test_a_class_of_two_with_packs_of_one_size_pays_twice_as_much(
    demo: Catalogue, cache: Cache, scenario: MakeScenario
) -> None:
    """With one pack size a tube, and twice the money, the choice for two is that for one."""
    single = replace(
        demo,
        tubes={
            id_: replace(tube, offers=tuple(o for o in tube.offers if o.currency == "EUR")[:1])
            for id_, tube in demo.tubes.items()
        },
    )
    alone = shop(single, scenario("daffodil", budget=1200), cache=cache)
    asked = scenario("daffodil", budget=2400, group=ClassWish(2, pupils=GROWN_UPS))
    both = shop(single, asked, cache=cache)
    assert [p.tube.id for p in both.bought] == [p.tube.id for p in alone.bought]
    assert (both.cost, both.coverage) == (2 * alone.cost, alone.coverage)


def test_delivery_is_shared_by_all(demo: Catalogue, cache: Cache, scenario: MakeScenario) -> None:
    """7 × 2.45 + 3.90 = 21.05; 21.05 ÷ 7 = 3.0071 → 3.01; 7 × 3.01 = 21.07."""
    post = Seller("post", "By post", 390, None, 0, "EUR")
    by_post = replace(
        demo,
        sellers={"post": post},
        tubes={
            id_: replace(tube, offers=tuple(replace(o, seller="post") for o in tube.offers))
            for id_, tube in demo.tubes.items()
        },
    )
    asked = scenario(
        "tulip, red",
        budget=100_000,
        most_tubes=1,
        group=ClassWish(7, pupils=GROWN_UPS),
        wishes=Wishes(must_have=(ONLY,)),
    )
    plan = shop(by_post, asked, cache=cache)
    share = plan.class_share
    assert share is not None
    assert plan.certificate.status is Status.PROVEN
    assert (share.cost, share.a_head, share.together) == (2105, 301, 2107)
    assert share.tubes[0].bought == 7


def test_tubes_in_a_set_count_for_painters(
    demo: Catalogue, cache: Cache, scenario: MakeScenario
) -> None:
    """A set of four for 6.00, twice, is cheaper than seven at 2.45: 12.00; one tube to spare."""
    four = TubeSet("four", "Four of them", "", 600, "EUR", (SetPack(ONLY, 10.0, 4),))
    asked = scenario(
        "tulip, red",
        budget=100_000,
        most_tubes=1,
        group=ClassWish(7, pupils=GROWN_UPS),
        wishes=Wishes(must_have=(ONLY,)),
    )
    share = shop(replace(demo, sets={"four": four}), asked, cache=cache).class_share
    assert share is not None
    (tube,) = share.tubes
    assert (share.cost, tube.bought, tube.spare, tube.bought_ml) == (1200, 8, 1, 80)
