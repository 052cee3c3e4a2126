"""What lasts goes before the price, unless the price is to go first."""

from collections.abc import Callable
from dataclasses import replace
from itertools import combinations

import pytest

from fewtubes.catalogue.records import Catalogue
from fewtubes.coverage.cache import Cache
from fewtubes.scenario.records import Scenario, Wishes
from fewtubes.shopping.question import pose
from fewtubes.shopping.shop import shop

MakeScenario = Callable[..., Scenario]

FEW = (
    *("arylide-yellow", "middle-yellow", "orange-mixed", "scarlet", "middle-red", "magenta"),
    *("ultramarine-study", "green-leaning-blue", "leaf-green-mixed", "warm-black"),
)


@pytest.fixture(scope="module")
def few(demo: Catalogue) -> Catalogue:
    """Return the demo with few tubes, which are mixed at once."""
    return replace(demo, tubes={id_: demo.tubes[id_] for id_ in FEW})


def test_as_few_tubes_that_last_are_taken_though_they_cost_more(
    few: Catalogue, scenario: MakeScenario
) -> None:
    """A parrot tulip is mixed as well with a middle red that fades, for less money."""
    lasting = shop(few, scenario("tulip, parrot orange", budget=900))
    cheapest = shop(few, scenario("tulip, parrot orange", budget=900, prefer="cheapest"))
    assert lasting.coverage == cheapest.coverage
    assert len(lasting.bought) == len(cheapest.bought)
    assert lasting.cost > cheapest.cost
    assert lasting.lasting is None
    assert cheapest.lasting is not None
    # What doing without costs is then what the other plan is.
    assert cheapest.lasting.spared_cost == lasting.cost
    assert cheapest.lasting.spared_tubes == len(lasting.bought)


@pytest.mark.parametrize("prefer", ["lasting", "cheapest"])
def test_a_tube_that_is_owned_is_not_counted_as_fading(
    few: Catalogue, scenario: MakeScenario, prefer: str
) -> None:
    """Owned ones are not bought, so nothing is to be avoided about them."""
    fades = {id_ for id_, tube in few.tubes.items() if tube.lightfastness.fades}
    asked = scenario(
        "tulip, parrot orange", budget=900, prefer=prefer, wishes=Wishes(owned=("middle-red",))
    )
    assert "middle-red" in fades
    plan = shop(few, asked)
    question = pose(few, asked, cache=Cache(), progress=lambda _stage: None)
    counted = {question.tubes[number].id for number in question.instance.fading}
    assert counted == (fades if prefer == "lasting" else set())
    palette = question.instance.palette([question.numbers[p.tube.id] for p in plan.bought])
    assert palette.fading == len(counted & {p.tube.id for p in plan.bought})


def test_a_little_more_money_is_told_as_every_dearer_pair_has_it(
    few: Catalogue, scenario: MakeScenario
) -> None:
    """Origin of the steps: every pair of tubes, its price and what it covers."""
    asked = scenario("tulip, parrot orange", budget=500, most_tubes=2)
    plan = shop(few, asked)
    instance = pose(few, asked, cache=Cache(), progress=lambda _stage: None).instance
    sold = [n for n, price in enumerate(instance.prices) if price]
    reach = max(50, min(instance.prices[n] for n in sold))
    palettes = [instance.palette(pair) for pair in combinations(sold, 2)]
    total, covered, steps = sum(instance.weights), round(plan.coverage * 10**9), []
    for cost in sorted({p.cost for p in palettes if 500 < p.cost <= 500 + reach}):
        value = max(p.value for p in palettes if p.cost == cost)
        if round(value / total * 10**9) > covered:
            covered = round(value / total * 10**9)
            steps.append((cost - 500, value / total))
    assert steps
    assert [(more.beyond, more.coverage) for more in plan.more_money] == steps[:2]
    assert all(more.proven for more in plan.more_money)
