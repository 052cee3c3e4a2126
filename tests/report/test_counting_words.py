"""Importances that have no common denominator small enough: counted alike, and said to be."""

import io
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pytest
from rich.console import Console

from fewtubes.catalogue.reading import read_catalogue
from fewtubes.catalogue.records import Catalogue
from fewtubes.comparison.box import box
from fewtubes.comparison.compare import compare
from fewtubes.comparison.extent import Extent
from fewtubes.comparison.why import why
from fewtubes.coverage.weights import MOST_TOTAL
from fewtubes.report.json_values.plan import plan_values
from fewtubes.report.sentences.proof import proof_words
from fewtubes.report.terminal.box import print_box
from fewtubes.report.terminal.compare import print_comparison
from fewtubes.report.terminal.why import print_why
from fewtubes.scenario.records import Scenario, Wishes
from fewtubes.scenario.wanted import FlowerWish
from fewtubes.selection.certificate import Status
from fewtubes.shopping.shop import shop

SMALL = Path(__file__).parents[1] / "catalogue" / "small_catalogue"


@pytest.fixture(scope="module")
def catalogue() -> Catalogue:
    return read_catalogue(SMALL)


@pytest.fixture(scope="module")
def asked(catalogue: Catalogue) -> Scenario:
    """Two flowers, one of which weighs 10^-15 more: no 10^12 counts can hold that."""
    first, second = list(catalogue.flowers)[:2]
    return Scenario(
        title="Two flowers",
        shows="",
        currency="EUR",
        budget=12,
        most_tubes=None,
        tolerance=12.0,
        flowers=(FlowerWish(first, 1.000000000000001), FlowerWish(second, 1.0)),
        own_colours=(),
        wishes=Wishes(),
        paper="plain",
        light="E",
    )


def test_the_answer_says_what_it_is_counted_to(catalogue: Catalogue, asked: Scenario) -> None:
    plan = shop(catalogue, asked)
    assert not plan.counted_exactly
    assert plan.counted_to is not None
    assert MOST_TOTAL * 0.9 < plan.counted_to < MOST_TOTAL * 1.001
    assert f"counted to 1 in {plan.counted_to:,} of the whole" in proof_words(plan)
    assert "what is said of coverage holds to that accuracy" in proof_words(plan)
    certificate = plan_values(plan)["certificate"]
    assert isinstance(certificate, dict)
    assert certificate["importances_exact"] is False
    assert certificate["total"] == plan.counted_to


def test_nothing_is_said_of_exact_importances(catalogue: Catalogue, asked: Scenario) -> None:
    even = replace(asked, flowers=tuple(FlowerWish(wish.name) for wish in asked.flowers))
    plan = shop(catalogue, even)
    assert plan.counted_exactly
    assert plan.counted_to is None
    assert "counted to" not in proof_words(plan)


def test_a_coverage_that_is_reached_is_not_denied_for_rounding(
    catalogue: Catalogue, asked: Scenario
) -> None:
    reached = shop(catalogue, asked)
    for share in (reached.coverage, reached.coverage - 1e-15):
        wishes = replace(asked.wishes, least_coverage=share)
        assert shop(catalogue, replace(asked, wishes=wishes)).coverage == reached.coverage


def printed(put: Callable[..., None], value: object) -> str:
    """Return what a report prints, in one line."""
    stream = io.StringIO()
    put(value, Console(file=stream, width=100))
    return " ".join(stream.getvalue().split())


def test_every_report_that_claims_something_says_so(catalogue: Catalogue, asked: Scenario) -> None:
    texts = [
        printed(print_comparison, compare(catalogue, asked, extent=Extent())),
        printed(print_why, why(catalogue, asked)),
        printed(print_box, box(catalogue, asked)),
    ]
    assert all("they are counted to 1 in" in text for text in texts)


def test_a_plan_stays_proven(catalogue: Catalogue, asked: Scenario) -> None:
    assert shop(catalogue, asked).certificate.status is Status.PROVEN
