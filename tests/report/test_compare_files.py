"""``front.csv`` and ``compare.json``: their columns and keys, and that they agree."""

import csv
import io
import json
from decimal import Decimal
from itertools import pairwise
from pathlib import Path
from typing import Any

import pytest

from fewtubes.catalogue.reading import read_catalogue
from fewtubes.comparison.compare import compare
from fewtubes.comparison.comparison import Comparison
from fewtubes.comparison.extent import Extent
from fewtubes.report.answer_files import compare_files
from fewtubes.scenario.records import Scenario, Wishes
from fewtubes.scenario.wanted import FlowerWish

SMALL = Path(__file__).parents[1] / "catalogue" / "small_catalogue"


@pytest.fixture(scope="module")
def comparison() -> Comparison:
    catalogue = read_catalogue(SMALL)
    scenario = Scenario(
        title="A window box",
        shows="",
        currency="EUR",
        budget=8,
        most_tubes=None,
        tolerance=12.0,
        flowers=tuple(FlowerWish(name) for name in catalogue.flowers),
        own_colours=(),
        wishes=Wishes(),
        paper="plain",
        light="E",
    )
    return compare(catalogue, scenario, extent=Extent(within=0.5))


@pytest.fixture(scope="module")
def values(comparison: Comparison) -> Any:
    return json.loads(compare_files(comparison)["compare.json"])


@pytest.fixture(scope="module")
def rows(comparison: Comparison) -> list[dict[str, str]]:
    return list(csv.DictReader(io.StringIO(compare_files(comparison)["front.csv"])))


def share(row: dict[str, str]) -> float:
    """Return the coverage of a row [0–1], which stands there in per cent."""
    return float(row["coverage"].removesuffix("%")) / 100


def test_keys_are_pinned(values: Any) -> None:
    """A regression pin: a key that goes or changes its meaning needs a new schema number."""
    assert values["schema"] == 1
    assert list(values) == [
        "schema",
        "program",
        "catalogue",
        "scenario",
        "currency",
        "asked",
        "sizes",
        "for_fitted_paints",
        "sizes_looked_up_to",
        "nothing_more_to_gain_within_budget",
        "near_best",
        "fronts",
        "seconds",
        "fellow_files_sha256",
    ]
    assert list(values["sizes"][-1]) == [
        "size",
        "tubes",
        "cost",
        "coverage",
        "lightfastness",
        "transparency",
        "newly_reached",
        "no_longer_reached",
        "equal_palettes",
        "equal_palettes_complete",
        "proven",
        "coverage_bound",
        "puddles",
    ]
    assert list(values["sizes"][-1]["puddles"]) == [
        "each_flower",
        "each_flower_bound",
        "one_sitting",
        "one_sitting_bound",
        "proven",
    ]
    assert values["near_best"]["palettes"][0]["puddles"] == values["sizes"][-1]["puddles"]
    assert list(values["near_best"]) == [
        "size",
        "least_coverage",
        "palettes",
        "complete",
        "proven",
        "in_all_listed",
        "indispensable",
        "one_of_each",
        "exchanges",
    ]
    assert list(values["fronts"][0]) == [
        "floor",
        "impossible_because_of",
        "left_in_the_box",
        "complete",
        "lost_within_budget",
        "lost_proven",
        "extra_for_same_coverage",
        "extra_proven",
        "steps",
    ]


def test_the_table_has_a_row_for_every_step(values: Any, rows: list[dict[str, str]]) -> None:
    steps = [step for front in values["fronts"] for step in front["steps"]]
    assert len(rows) == len(steps)
    for row, step in zip(rows, steps, strict=True):
        assert Decimal(row["price"]) == Decimal(step["cost"])
        assert share(row) == pytest.approx(step["coverage"])
        assert row["tube_ids"].split() == step["tubes"]
        assert row["proven"] == ("yes" if step["proven"] else "no")
        assert row["within_budget"] == ("yes" if Decimal(step["cost"]) <= 8 else "no")


def test_prices_rise_and_coverage_rises(rows: list[dict[str, str]]) -> None:
    for floor in {row["floor"] for row in rows}:
        own = [row for row in rows if row["floor"] == floor]
        assert [int(row["step"]) for row in own] == list(range(1, len(own) + 1))
        for before, after in pairwise(own):
            assert Decimal(before["price"]) < Decimal(after["price"])
            assert share(before) < share(after)


def test_the_prices_are_those_of_the_tubes(comparison: Comparison, values: Any) -> None:
    question = comparison.question
    for step in values["fronts"][0]["steps"]:
        paid = sum(question.cost(question.catalogue.tubes[id_]) for id_ in step["tubes"])
        assert Decimal(step["cost"]) == Decimal(paid) / 100
