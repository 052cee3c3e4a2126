"""Scenarios made in code, and one cache for all of them, so that mixing is computed once."""

from collections.abc import Callable
from decimal import Decimal
from typing import Any

import pytest

from fewtubes.catalogue.reading import read_catalogue
from fewtubes.catalogue.records import Catalogue
from fewtubes.coverage.cache import Cache
from fewtubes.scenario.records import Scenario, Wishes
from fewtubes.scenario.wanted import FlowerWish

MakeScenario = Callable[..., Scenario]


@pytest.fixture(scope="session")
def demo() -> Catalogue:
    return read_catalogue()


@pytest.fixture(scope="session")
def cache(shared_cache: Cache) -> Cache:
    return shared_cache


@pytest.fixture
def scenario() -> MakeScenario:
    """Return the maker of scenarios: flowers, then anything a Scenario or its Wishes hold."""
    return make_scenario


def make_scenario(*flowers: str, wishes: Wishes | None = None, **values: Any) -> Scenario:
    """Return a scenario of these flowers with everything else plain."""
    plain: dict[str, Any] = {
        "title": "test",
        "shows": "",
        "currency": "EUR",
        "budget": 3000,
        "most_tubes": None,
        "tolerance": 4.0,
        "flowers": tuple(FlowerWish(flower) for flower in flowers),
        "own_colours": (),
    }
    asked = {**plain, **values}
    asked["budget"] = Decimal(asked["budget"]) / 100
    return Scenario(**asked, wishes=wishes or Wishes())
