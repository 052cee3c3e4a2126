"""A tenth of the questions that `tests/benchmarks/check_exhaustive.py` asks.

Origin of every expected answer: trying all recipes and all palettes (`oracle.py`).
"""

from pathlib import Path

import pytest
from tests.exhaustive.agreement import disagreements
from tests.exhaustive.draws import draw_question

from fewtubes.catalogue.reading import read_catalogue
from fewtubes.catalogue.records import Catalogue
from fewtubes.coverage.cache import Cache
from fewtubes.selection.certificate import Method


@pytest.fixture(scope="module")
def demo() -> Catalogue:
    return read_catalogue()


@pytest.fixture(scope="module")
def cache(tmp_path_factory: pytest.TempPathFactory) -> Cache:
    folder: Path = tmp_path_factory.mktemp("exhaustive")
    return Cache(folder)


@pytest.mark.parametrize("seed", range(0, 1000, 10))
def test_search_gives_the_answer_of_trying_everything(
    seed: int, demo: Catalogue, cache: Cache
) -> None:
    catalogue, scenario = draw_question(seed, demo)
    assert disagreements(catalogue, scenario, method=Method.SEARCH, cache=cache) == []


@pytest.mark.parametrize("seed", range(5, 1000, 100))
def test_program_gives_the_answer_of_trying_everything(
    seed: int, demo: Catalogue, cache: Cache
) -> None:
    catalogue, scenario = draw_question(seed, demo)
    assert disagreements(catalogue, scenario, method=Method.BOTH, cache=cache) == []
