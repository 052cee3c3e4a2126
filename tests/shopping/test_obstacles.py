"""What keeps a colour out of reach is told as it is: a tube that is not sold is no wish."""

from collections.abc import Callable
from dataclasses import replace

from tests.unchecked import unchecked

from fewtubes.catalogue.records import Catalogue
from fewtubes.comparison.why import why
from fewtubes.coverage.cache import Cache
from fewtubes.report.sentences.reasons import obstacle_words, reason_words
from fewtubes.report.terminal.why import unreached_words
from fewtubes.scenario.records import Scenario, Wishes
from fewtubes.shopping.plan_parts import Obstacle
from fewtubes.shopping.shop import shop

MakeScenario = Callable[..., Scenario]

SOLD = ("ultramarine", "middle-yellow")


def sold_elsewhere(demo: Catalogue) -> Catalogue:
    """Return the demo with all but two tubes sold for pounds alone."""
    tubes = {
        id_: tube
        if id_ in SOLD
        else replace(tube, offers=tuple(replace(offer, currency="GBP") for offer in tube.offers))
        for id_, tube in demo.tubes.items()
    }
    return replace(demo, tubes=tubes)


def test_tubes_of_another_currency_are_not_ruled_out_by_wishes(
    demo: Catalogue, cache: Cache, scenario: MakeScenario
) -> None:
    """Neither a yellow nor a blue makes a pink: with all tubes in euro it is reached."""
    assert shop(demo, scenario("cyclamen", budget=100_000), cache=cache).coverage > 0.9
    asked = scenario("cyclamen", budget=100_000, wishes=Wishes(never=("magenta",)))
    reasons = why(sold_elsewhere(demo), asked, cache=cache)
    pinks = [missed for missed in reasons.unreached if missed.planned.sample.name == "petal"]
    assert [missed.planned.obstacle for missed in pinks] == [Obstacle.CURRENCY]
    (pink,) = pinks
    for words in (unreached_words(pink, reasons), reason_words(pink.planned, asked)):
        assert "tubes that it needs are not sold in this currency" in words
        assert "wishes" not in words
        assert "would bring it" not in words


def test_a_colour_that_takes_three_tubes_is_kept_by_the_wish_for_two(
    demo: Catalogue, cache: Cache, scenario: MakeScenario
) -> None:
    """Origin: the same question with mixes of three, where the colour is covered."""
    asked = scenario("daffodil", budget=100_000, wishes=Wishes(most_in_mix=1))
    one, three = (
        shop(demo, replace(asked, wishes=Wishes(most_in_mix=most)), cache=cache) for most in (1, 3)
    )
    assert three.coverage == 1
    kept = [p for p in one.samples if p.obstacle is Obstacle.SMALL_MIXES]
    assert kept
    assert all(len(p.recipe.tubes) <= 1 for p in one.samples if p.recipe)
    words = reason_words(kept[0], asked)
    assert "more tubes than the one that are wished for at most; with most_in_mix = 3" in words
    assert "No one tube more" not in words
    assert not any(p.remedies or p.together for p in kept)


def test_what_takes_three_tubes_of_which_one_is_refused(
    demo: Catalogue, cache: Cache, scenario: MakeScenario
) -> None:
    """Refused are all tubes but one, which alone makes no leaf of a daffodil."""
    never = tuple(id_ for id_ in demo.tubes if id_ != "magenta")
    asked = scenario("daffodil", wishes=Wishes(most_in_mix=1, never=never))
    plan = shop(demo, asked, cache=cache)
    assert {p.obstacle for p in plan.samples if not p.covered} == {Obstacle.WISHES}


def test_what_nothing_mixes_is_told_of_mixes_as_wished(
    demo: Catalogue, cache: Cache, scenario: MakeScenario
) -> None:
    asked = scenario("daffodil", wishes=Wishes(most_in_mix=2))
    assert obstacle_words(Obstacle.CATALOGUE, asked).startswith("no mix of up to two tubes")
    with_three = replace(asked, wishes=Wishes())
    assert obstacle_words(Obstacle.CATALOGUE, with_three).startswith("no mix of up to three tubes")


def test_what_is_owned_need_not_be_sold(
    demo: Catalogue, cache: Cache, scenario: MakeScenario
) -> None:
    """An owned tube that a wish sets aside is ruled out by that wish alone."""
    aside = tuple(id_ for id_ in demo.tubes if id_ not in SOLD)
    asked = scenario("cyclamen", wishes=unchecked(Wishes(), owned=aside, never=aside))
    plan = shop(sold_elsewhere(demo), asked, cache=cache)
    (petal,) = [planned for planned in plan.samples if planned.sample.name == "petal"]
    assert petal.obstacle is Obstacle.WISHES
