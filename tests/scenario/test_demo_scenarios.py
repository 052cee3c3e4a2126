"""Every scenario that comes with the project is sound and says what it shows."""

from pathlib import Path

import pytest

from fewtubes.catalogue.reading import read_catalogue
from fewtubes.catalogue.records import Catalogue
from fewtubes.scenario.reading import faults_of_scenario, read_scenario, scenario_files

SCENARIOS = Path(__file__).parents[2] / "scenarios"


@pytest.fixture(scope="module")
def demo() -> Catalogue:
    """Return the demo catalogue."""
    return read_catalogue()


def test_they_have_no_fault(demo: Catalogue) -> None:
    for path in scenario_files(SCENARIOS):
        assert faults_of_scenario(path, demo) == ()


def test_each_says_what_it_shows_under_a_title_of_its_own(demo: Catalogue) -> None:
    scenarios = [read_scenario(path, demo) for path in scenario_files(SCENARIOS)]
    assert all(scenario.shows for scenario in scenarios)
    assert len({scenario.title for scenario in scenarios}) == len(scenarios)
