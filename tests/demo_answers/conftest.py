"""The scenarios that come with the project, each answered once for all tests here."""

from collections import defaultdict
from collections.abc import Callable
from dataclasses import replace
from functools import cache
from pathlib import Path

import pytest

from fewtubes.catalogue.price_list import with_prices
from fewtubes.catalogue.reading import read_catalogue
from fewtubes.catalogue.records import Catalogue
from fewtubes.coverage.cache import Cache
from fewtubes.scenario.price_list import named_prices
from fewtubes.scenario.reading import read_scenario
from fewtubes.scenario.records import Scenario
from fewtubes.shopping.plan import Plan
from fewtubes.shopping.question import pose
from fewtubes.shopping.shop import shop

SCENARIOS = Path(__file__).parents[2] / "scenarios"

ReadScenario = Callable[[str], Scenario]
Answer = Callable[[Scenario], Plan]
AnswerNamed = Callable[[str], Plan]


@pytest.fixture(scope="session")
def demo() -> Catalogue:
    """Return the demo catalogue."""
    return read_catalogue()


@pytest.fixture(scope="session")
def scenario_of(demo: Catalogue) -> ReadScenario:
    """Return a function that reads a scenario by its file's name without the ending."""

    def read(name: str) -> Scenario:
        path = SCENARIOS / f"{name}.toml"
        return read_scenario(path, with_prices(demo, named_prices(path)))

    return cache(read)


@pytest.fixture(scope="session")
def memory(demo: Catalogue, scenario_of: ReadScenario, shared_cache: Cache) -> Cache:
    """Return a cache that holds the mixing of all scenarios.

    Trying all mixtures takes about as long for many colours as for few, so scenarios that share
    paper, light, washes and tolerance are mixed together.
    """
    alike = defaultdict(list)
    for path in SCENARIOS.glob("*.toml"):
        scenario = scenario_of(path.stem)
        wash = scenario.wishes.thinnest_wash
        alike[scenario.paper, scenario.light, scenario.tolerance, wash].append(scenario)
    for scenarios in alike.values():
        flowers = {wish.name: wish for one in scenarios for wish in one.flowers}
        together = replace(
            scenarios[0],
            flowers=tuple(flowers.values()),
            own_colours=tuple(colour for one in scenarios for colour in one.own_colours),
        )
        pose(demo, together, cache=shared_cache, progress=lambda _stage: None)
    return shared_cache


@pytest.fixture(scope="session")
def answer(demo: Catalogue, memory: Cache) -> Answer:
    """Return a function that answers any scenario of the demo catalogue, by its price list."""

    @cache
    def priced(folder: str) -> Catalogue:
        return with_prices(demo, SCENARIOS / folder) if folder else demo

    return lambda scenario: shop(priced(scenario.prices), scenario, cache=memory)


@pytest.fixture(scope="session")
def plan_of(scenario_of: ReadScenario, answer: Answer) -> AnswerNamed:
    """Return a function that answers a scenario by its file's name without the ending."""
    return cache(lambda name: answer(scenario_of(name)))
