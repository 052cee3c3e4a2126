"""When a tube at home runs low, what a plan says of it, and that it changes no choice.

Expected numbers are made up by hand here: what is left is compared with a tenth, and with the wish
by the smallest pack.
"""

from dataclasses import replace
from typing import Any

import pytest

from fewtubes.catalogue.records import Catalogue
from fewtubes.coverage.cache import Cache
from fewtubes.scenario.home_box import BoxAtHome
from fewtubes.scenario.records import Wishes
from fewtubes.shopping.plan import Plan
from fewtubes.shopping.running_low import runs_low
from fewtubes.shopping.shop import shop


@pytest.mark.parametrize(
    ("left", "millilitres", "low"),
    [
        (1.0, 0.0, False),
        (0.1, 0.0, True),
        (0.1000001, 0.0, False),
        (0.0, 0.0, True),  # named as owned, whatever the box says
        # Magenta is sold from 5 ml: half of that is 2.5 ml.
        (0.5, 2.5, False),
        (0.5, 2.6, True),
        (1.0, 15.0, False),  # a full tube is taken to be enough
    ],
)
def test_low(demo: Catalogue, left: float, millilitres: float, low: bool) -> None:
    magenta = demo.tubes["magenta"]
    assert min(offer.ml for offer in magenta.offers) == 5
    assert runs_low(magenta, left, millilitres=millilitres) is low


def test_a_tube_without_a_pack_is_judged_by_its_share(demo: Catalogue) -> None:
    tube = replace(demo.tubes["magenta"], offers=())
    assert runs_low(tube, 0.05, millilitres=5)
    assert not runs_low(tube, 0.5, millilitres=5)


BOX = BoxAtHome({"magenta": "nearly empty", "ultramarine": 0.5, "lemon": "empty"})


@pytest.fixture(scope="module")
def asked(demo: Catalogue, shared_cache: Cache) -> Any:
    """Return a function that shops for a fuchsia with wishes."""
    from tests.shopping.conftest import make_scenario

    def ask(**wishes: Any) -> Plan:
        scenario = make_scenario("fuchsia", wishes=Wishes(**wishes))
        return shop(demo, scenario, cache=shared_cache)

    return ask


@pytest.fixture(scope="module")
def plan(asked: Any) -> Plan:
    found: Plan = asked(box=BOX)
    return found


def test_the_box_counts_as_owned_and_changes_no_choice(asked: Any, plan: Plan) -> None:
    listed = asked(owned=["magenta", "ultramarine"])
    assert [tube.tube.id for tube in plan.tubes] == [tube.tube.id for tube in listed.tubes]
    assert (plan.cost, plan.coverage) == (listed.cost, listed.coverage)
    assert plan.certificate.bound == listed.certificate.bound
    assert "lemon" not in [tube.tube.id for tube in plan.tubes if tube.owned]
    assert all(tube.left is None and not tube.runs_low for tube in listed.tubes)


def test_what_runs_low_is_told_with_its_price(demo: Catalogue, plan: Plan) -> None:
    tubes = {tube.tube.id: tube for tube in plan.tubes}
    magenta, blue = tubes["magenta"], tubes["ultramarine"]
    assert magenta.recipes > 0, "else it need not be bought again"
    assert (magenta.left, magenta.runs_low) == (0.1, True)
    assert magenta.again == min(offer.price for offer in demo.tubes["magenta"].offers)
    assert (blue.left, blue.runs_low, blue.again) == (0.5, False, None)


def test_the_list_to_buy_stays_what_is_bought(plan: Plan) -> None:
    assert set(plan.shopping_list()["tube"]) == {tube.tube.id for tube in plan.bought}
    assert "magenta" not in set(plan.shopping_list()["tube"])
    assert sum(tube.cost for tube in plan.bought) == plan.cost


def test_a_tube_in_no_mix_need_not_be_bought_again(asked: Any, demo: Catalogue) -> None:
    found = asked(box=BoxAtHome(dict.fromkeys(demo.tubes, 0.05)))
    assert {tube.left for tube in found.tubes} == {0.05}
    low = [tube.runs_low for tube in found.tubes]
    assert low == [tube.recipes > 0 for tube in found.tubes]
    assert set(low) == {True, False}


def test_the_wish_for_paint_is_held_against_what_is_left(asked: Any) -> None:
    """Half of 5 ml is less than 3 ml; buying again means packs of 3 ml or more."""
    found = asked(box=BoxAtHome({"magenta": "half", "ultramarine": "full"}), millilitres=3)
    low = {tube.tube.id: tube.runs_low for tube in found.tubes if tube.owned}
    assert low == {"magenta": True, "ultramarine": False}


def test_must_have_buys_one_of_the_box_anew_and_never_sets_it_aside(asked: Any) -> None:
    found = asked(box=BOX, must_have=["magenta"], never=["ultramarine"])
    assert "magenta" in [tube.tube.id for tube in found.bought]
    assert found.bought[0].left is None
    assert [tube.id for tube in found.set_aside] == ["ultramarine"]
