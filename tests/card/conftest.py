"""A painted card of each size, painted once a run."""

import pytest
from tests.card.painted import PaintedCard, painted_card

from fewtubes.coverage.cache import Cache


@pytest.fixture(scope="session")
def a4(shared_cache: Cache) -> PaintedCard:
    return painted_card("A4", 10, shared_cache)


@pytest.fixture(scope="session")
def letter(shared_cache: Cache) -> PaintedCard:
    return painted_card("Letter", 4, shared_cache)
