"""A colour that stays out of reach: which tube would bring it nearest, which two would bring it."""

from dataclasses import replace
from itertools import combinations

import pytest

from fewtubes.catalogue.records import Catalogue
from fewtubes.coverage.cache import Cache
from fewtubes.report.sentences.reasons import reason_words
from fewtubes.scenario.records import Scenario, Wishes
from fewtubes.scenario.wanted import OwnColour
from fewtubes.shopping.nearer import nearer_tubes
from fewtubes.shopping.plan import Plan
from fewtubes.shopping.question import pose
from fewtubes.shopping.shop import shop

FEW = (
    *("lemon", "middle-yellow", "warm-red", "magenta", "ultramarine", "green-leaning-blue"),
    *("yellow-leaning-green", "leaf-green-mixed", "green-black", "warm-black", "red-brown-earth"),
)


@pytest.fixture(scope="module")
def few(demo: Catalogue) -> Catalogue:
    """Return the demo with few tubes, which are mixed at once."""
    return replace(demo, tubes={id_: demo.tubes[id_] for id_ in FEW})


@pytest.fixture(scope="module")
def asked() -> Scenario:
    """Return a fern for two tubes, and a screen's green that no paint reaches."""
    return Scenario(
        budget=9,
        currency="EUR",
        flowers=["fern frond"],
        own_colours=[
            OwnColour.from_hex("clay pot", "#d2691e", 0.1),
            OwnColour.from_hex("screen green", "#00ff00", 0.1),
        ],
        most_tubes=2,
    )


@pytest.fixture(scope="module")
def plan(few: Catalogue, asked: Scenario) -> Plan:
    return shop(few, asked)


def test_where_no_single_tube_brings_it_the_nearest_is_named(plan: Plan) -> None:
    missed = [planned for planned in plan.samples if not planned.covered]
    assert len(plan.bought) == 2
    assert any(planned.nearer is not None for planned in missed)
    for planned in plan.samples:
        if planned.covered or planned.remedies:
            assert planned.nearer is None
            assert planned.together == ()
        if planned.nearer is not None:
            assert plan.scenario.tolerance < planned.nearer.match < planned.match - 0.5


def test_the_nearest_is_what_buying_it_would_give(
    plan: Plan, few: Catalogue, asked: Scenario
) -> None:
    """Origin: the plan of somebody who owns every tube of the palette and the one named."""
    green = plan.samples[-1]
    assert green.nearer is not None
    ids = [planned.tube.id for planned in plan.bought]

    def match_with(id_: str) -> float:
        others = tuple(other for other in few.tubes if other not in {*ids, id_})
        owning = Scenario(
            budget=5,
            currency="EUR",
            own_colours=asked.own_colours[-1:],
            wishes=Wishes(owned=(*ids, id_), never=others),
        )
        return shop(few, owning).samples[0].match

    named = match_with(green.nearer.tube.id)
    assert named == pytest.approx(green.nearer.match, abs=1e-9)
    others = [match_with(other) for other in few.tubes if other not in ids]
    assert min(others) == named


def test_two_tubes_together_bring_it_and_no_cheaper_two_do(
    plan: Plan, few: Catalogue, asked: Scenario
) -> None:
    """Origin: the colour asked for with every two further tubes in turn."""
    colour = next(planned for planned in plan.samples if planned.together)
    ids = [planned.tube.id for planned in plan.bought]
    price = {id_: min(offer.price for offer in tube.offers) for id_, tube in few.tubes.items()}

    def brings(pair: tuple[str, ...]) -> bool:
        wishes = Wishes(owned=(*ids, *pair))
        richer = Scenario(budget=5, currency="EUR", own_colours=asked.own_colours, wishes=wishes)
        question = pose(few, richer, cache=Cache(), progress=lambda _stage: None)
        flowers = [sample.flower for sample in question.samples]
        return flowers.index(colour.sample.flower) in question.instance.covered(())

    two = tuple(remedy.tube.id for remedy in colour.together)
    cost = sum(remedy.cost for remedy in colour.together)
    assert cost == sum(price[id_] for id_ in two)
    assert brings(two)
    further = sorted(set(few.tubes) - set(ids))
    cheaper = [two for two in combinations(further, 2) if sum(price[id_] for id_ in two) < cost]
    assert not any(map(brings, cheaper))


def test_it_is_said(plan: Plan) -> None:
    green = plan.samples[-1]
    assert green.nearer is not None
    said = reason_words(green, plan.scenario)
    assert f"The single tube that would bring it nearest is {green.nearer.tube.name} (EUR " in said
    assert "): from ΔE00 " in said
    both = next(planned for planned in plan.samples if planned.together)
    assert "Two together would bring it, for EUR " in reason_words(both, plan.scenario)


def test_a_box_that_is_too_large_is_not_searched(
    few: Catalogue, asked: Scenario, monkeypatch: pytest.MonkeyPatch
) -> None:
    question = pose(few, asked, cache=Cache(), progress=lambda _stage: None)
    last = len(question.samples) - 1
    assert nearer_tubes(question, frozenset({0, 1}), {last: 99.0})
    monkeypatch.setattr("fewtubes.shopping.nearer.MOST_MIXES", 10)
    assert nearer_tubes(question, frozenset({0, 1}), {last: 99.0}) == {}
