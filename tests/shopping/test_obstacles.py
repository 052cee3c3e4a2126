"""What keeps a colour out of reach is told as it is: a tube that is not sold is no wish."""

from collections.abc import Callable
from dataclasses import replace

from tests.unchecked import unchecked

from fewtubes.catalogue.records import Catalogue
from fewtubes.comparison.why import why
from fewtubes.coverage.cache import Cache
from fewtubes.report.sentences.reasons import reason_words
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


def test_what_is_owned_need_not_be_sold(
    demo: Catalogue, cache: Cache, scenario: MakeScenario
) -> None:
    """An owned tube that a wish sets aside is ruled out by that wish alone."""
    aside = tuple(id_ for id_ in demo.tubes if id_ not in SOLD)
    asked = scenario("cyclamen", wishes=unchecked(Wishes(), owned=aside, never=aside))
    plan = shop(sold_elsewhere(demo), asked, cache=cache)
    (petal,) = [planned for planned in plan.samples if planned.sample.name == "petal"]
    assert petal.obstacle is Obstacle.WISHES
