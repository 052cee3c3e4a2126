"""Frames against the CSV files: pandas reads each file back and finds what the frame holds."""

import csv
import inspect
import io
import re
from collections.abc import Callable
from dataclasses import dataclass, replace
from decimal import Decimal
from pathlib import Path

import numpy as np
import pandas as pd
import pytest

from fewtubes.catalogue.reading import read_catalogue
from fewtubes.comparison.box import box
from fewtubes.comparison.box_findings import Box, Double
from fewtubes.comparison.compare import compare
from fewtubes.comparison.comparison import Comparison
from fewtubes.comparison.extent import Extent
from fewtubes.comparison.instalment_findings import Instalments
from fewtubes.comparison.instalments import instalments
from fewtubes.comparison.reasons import Why
from fewtubes.comparison.tube_ranking import MixedTubes
from fewtubes.comparison.unmixable import mixed_tubes
from fewtubes.comparison.why import why
from fewtubes.coverage.cache import Cache
from fewtubes.coverage.optics import optics_for
from fewtubes.mixing.likeness import Likeness
from fewtubes.report.answer_files import (
    box_files,
    compare_files,
    instalment_files,
    unmixable_files,
    why_files,
)
from fewtubes.report.plan_files import plan_files
from fewtubes.scenario.records import Scenario, Wishes
from fewtubes.scenario.wanted import FlowerWish
from fewtubes.shopping.plan import Plan
from fewtubes.shopping.shop import shop
from fewtubes.shopping.steadiness import MonteCarlo
from fewtubes.tables.spreadsheet import Spreadsheet

SMALL = Path(__file__).parents[1] / "catalogue" / "small_catalogue"

HEADERS = {
    "shopping-list.csv": (
        "name,pigments,ml,packs,price_each,price,currency,lightfastness,transparency,hazards,mixes,"
        "only_it_brings,tube"
    ),
    "recipes.csv": (
        "flower,swatch,covered,puddle,recipe,wash,match,match_words,why_not,would_be_reached_by,"
        "stays_within,step,importance,L,a,b,tube_1,parts_1,tube_2,parts_2,tube_3,parts_3,strength,"
        "match_if_unsteady,mix_L,mix_a,mix_b"
    ),
    "puddles.csv": (
        "flower,puddle,mix,thinned_to,colours,from_puddle,from_parts,added_tube,added_parts,tube_1,"
        "parts_1,tube_2,parts_2,tube_3,parts_3,mix_L"
    ),
    "front.csv": (
        "floor,step,price,currency,coverage,tubes,tube_names,lightfastness,transparency,"
        "within_budget,proven,nothing_between_this_and_the_next,tube_ids"
    ),
    "sizes.csv": (
        "most_tubes,price,currency,coverage,coverage_at_most,proven,tubes,tube_names,newly_reached,"
        "no_longer_reached,lightfastness,transparency,puddles,puddles_in_one_sitting,"
        "puddles_proven,equal_palettes,equal_palettes_complete,tube_ids"
    ),
    "near-best.csv": (
        "palette,price,currency,coverage,tubes,tube_names,puddles,puddles_in_one_sitting,"
        "puddles_proven,tube_ids"
    ),
    "why-tubes.csv": (
        "name,price,currency,must_have,colours_only_it_brings,only_it_brings,coverage_not_on_sale,"
        "coverage_not_on_sale_at_most,not_on_sale_proven,stand_in,stand_in_price,"
        "stand_in_coverage,tube"
    ),
    "out-of-reach.csv": (
        "flower,colour,importance,match,because_of,tubes_to_add,price,currency,allowed"
    ),
    "one-of-these.csv": "choice,name,bought,flower,colour,reached,tube",
    "box-doubles.csv": (
        "name,like,difference,thinning,stronger,longer_lasting,more_transparent,tube,like_tube"
    ),
    "box-tubes.csv": "name,in_use,could_be_missing,tube",
    "box-additions.csv": "name,price,currency,adds,within_budget,tube",
    "about-to-buy.csv": "name,in_the_box,most_like,difference,box_covers,covers_with_it,"
    "newly_reached,tube",
    "instalments.csv": (
        "time,name,pigments,packs,price,currency,lightfastness,hazards,spent_so_far,carried_on,"
        "covered,best_at_once,tube"
    ),
    "unmixable.csv": (
        "name,largest,mean,family,family_largest,single,over_black,hue,other_hues_largest,tube"
    ),
    "unmixable-washes.csv": (
        "name,strength,match,mix,tube,L,a,b,tube_1,parts_1,tube_2,parts_2,tube_3,parts_3,"
        "mix_strength"
    ),
}
"""A regression pin; what a person reads stands before ids and coordinates."""


@dataclass(frozen=True)
class Answers:
    """One of each, of a small catalogue."""

    plan: Plan
    comparison: Comparison
    why: Why
    box: Box
    mixed: MixedTubes
    instalments: Instalments


@pytest.fixture(scope="module")
def answers() -> Answers:
    catalogue, cache = read_catalogue(SMALL), Cache()
    scenario = Scenario(
        title="A window box",
        shows="",
        currency="EUR",
        budget=8,
        most_tubes=None,
        tolerance=4.0,
        flowers=tuple(FlowerWish(name) for name in catalogue.flowers),
        own_colours=(),
        wishes=Wishes(owned=("leaf-green",)),
        paper="plain",
        light="E",
    )
    found = box(catalogue, scenario, about_to_buy=("lemon", "leaf-green"))
    leaf, lemon = catalogue.tubes["leaf-green"], catalogue.tubes["lemon"]
    double = Double(leaf, lemon, Likeness(0.42, 0.6, True), leaf, None, lemon)  # none is in the box
    return Answers(
        plan=shop(catalogue, scenario, trials=MonteCarlo(draws=20)),
        comparison=compare(catalogue, scenario, extent=Extent(within=0.5)),
        why=why(catalogue, scenario),
        box=replace(found, doubles=(double,)),
        mixed=mixed_tubes(catalogue.tubes, optics_for(catalogue, "plain", "E", cache), cache=cache),
        instalments=instalments(catalogue, replace(scenario, tolerance=12.0), sums=[4, 4.5]),
    )


FRAMES: dict[str, Callable[[Answers], pd.DataFrame]] = {
    "shopping-list.csv": lambda answers: answers.plan.shopping_list(),
    "recipes.csv": lambda answers: answers.plan.recipes(),
    "puddles.csv": lambda answers: answers.plan.puddles(),
    "front.csv": lambda answers: answers.comparison.front(),
    "sizes.csv": lambda answers: answers.comparison.by_number_of_tubes(),
    "near-best.csv": lambda answers: answers.comparison.near_best(),
    "why-tubes.csv": lambda answers: answers.why.tube_reasons(),
    "out-of-reach.csv": lambda answers: answers.why.out_of_reach(),
    "one-of-these.csv": lambda answers: answers.why.choices(),
    "box-doubles.csv": lambda answers: answers.box.pairs_alike(),
    "box-tubes.csv": lambda answers: answers.box.tubes(),
    "box-additions.csv": lambda answers: answers.box.purchases(),
    "about-to-buy.csv": lambda answers: answers.box.about_to_buy(),
    "unmixable.csv": lambda answers: answers.mixed.tubes(),
    "unmixable-washes.csv": lambda answers: answers.mixed.washes(),
    "instalments.csv": lambda answers: answers.instalments.tubes(),
}


@pytest.fixture(scope="module")
def files(answers: Answers) -> dict[str, str]:
    found = {
        **plan_files(answers.plan),
        **compare_files(answers.comparison),
        **why_files(answers.why),
        **box_files(answers.box),
        **unmixable_files(answers.mixed),
        **instalment_files(answers.instalments),
    }
    return {name: text for name, text in found.items() if name.endswith(".csv")}


def test_every_csv_file_has_a_frame_and_a_pinned_header(files: dict[str, str]) -> None:
    assert set(files) == set(FRAMES) == set(HEADERS)
    assert {name: text.partition("\r\n")[0] for name, text in files.items()} == HEADERS


@pytest.mark.parametrize("name", sorted(HEADERS))
def test_a_file_read_back_is_the_frame(name: str, files: dict[str, str], answers: Answers) -> None:
    frame = FRAMES[name](answers)
    kinds = {str(column): str(dtype) for column, dtype in frame.dtypes.items()}
    shares = [column for column in kinds if "%" in files[name] and _is_share(column, frame)]
    told = pd.read_csv(
        io.StringIO(files[name], newline=""),
        dtype={
            column: kind
            for column, kind in kinds.items()
            if kind != "boolean" and column not in shares
        },
        converters=dict.fromkeys(shares, _share),
        keep_default_na=False,
        na_values={column: [""] for column in kinds},
        true_values=["yes"],
        false_values=["no"],
        engine="python",  # which reads each decimal number as the nearest double
    )
    told = told.astype({column: kind for column, kind in kinds.items() if kind == "boolean"})
    for column, kind in kinds.items():
        if kind == "string":  # a file cannot tell a text of no signs from none
            frame[column] = frame[column].replace("", pd.NA)
    pd.testing.assert_frame_equal(told, frame, check_exact=True)


def test_files_for_a_decimal_comma_hold_the_same_cells(
    files: dict[str, str], answers: Answers
) -> None:
    semicolons = {
        **plan_files(answers.plan, spreadsheet=Spreadsheet.SEMICOLON),
        **compare_files(answers.comparison, Spreadsheet.SEMICOLON),
        **why_files(answers.why, Spreadsheet.SEMICOLON),
        **box_files(answers.box, Spreadsheet.SEMICOLON),
        **unmixable_files(answers.mixed, Spreadsheet.SEMICOLON),
        **instalment_files(answers.instalments, Spreadsheet.SEMICOLON),
    }
    assert files.keys() <= semicolons.keys()
    for name, text in files.items():
        plain = list(csv.reader(io.StringIO(text, newline="")))
        turned_text = semicolons[name].removeprefix("\ufeff")
        other = list(csv.reader(io.StringIO(turned_text, newline=""), delimiter=";"))
        assert len(plain) == len(other) > 1
        for row, turned in zip(plain, other, strict=True):
            for cell, told in zip(row, turned, strict=True):
                number = re.fullmatch(r"-?[0-9.]+%?", cell)
                assert told == (cell.replace(".", ",") if number else cell)


def _is_share(column: str, frame: pd.DataFrame) -> bool:
    """Say whether a column is written in per cent: strengths of washes are not."""
    meaning = str(frame.attrs["meanings"][column])
    return "[0–1]" in meaning and "strength" not in meaning and "thinned" not in meaning


def _share(cell: str) -> float:
    """Return a share from its per cent, in exact decimals."""
    return float(Decimal(cell.removesuffix("%")) / 100) if cell else float("nan")


def test_the_answers_fill_the_tables(answers: Answers) -> None:
    """Else nothing would be compared above."""
    assert [name for name, frame in FRAMES.items() if frame(answers).empty] == []
    assert {"string", "boolean", "Int64", "float64"} == {
        str(dtype) for frame in FRAMES.values() for dtype in frame(answers).dtypes
    }


METHODS = (
    *(getattr(Plan, name) for name in ("shopping_list", "recipes", "palette", "flower_coverage")),
    *(getattr(Comparison, name) for name in ("front", "by_number_of_tubes", "near_best")),
    *(getattr(Why, name) for name in ("tube_reasons", "out_of_reach", "choices")),
    *(getattr(Box, name) for name in ("pairs_alike", "tubes", "purchases", "about_to_buy")),
    *(getattr(MixedTubes, name) for name in ("tubes", "washes")),
)


@pytest.mark.parametrize("method", METHODS, ids=lambda method: str(method.__qualname__))
def test_each_column_is_named_where_the_frame_is_offered(
    method: Callable[[object], pd.DataFrame], answers: Answers
) -> None:
    owner = method.__qualname__.split(".")[0]
    (answer,) = (value for value in vars(answers).values() if type(value).__name__ == owner)
    frame, told = method(answer), inspect.getdoc(method) or ""
    assert len(frame.columns) > 3
    assert [name for name in frame.columns if f"`{name}`" not in told] == []
    assert list(frame.attrs["meanings"]) == list(frame.columns)
    assert all(frame.attrs["meanings"].values())


def test_the_plan_in_frames_is_the_plan(answers: Answers) -> None:
    plan, whole = answers.plan, answers.plan.cost / 100
    assert round(float(plan.shopping_list()["price"].sum()), 2) == whole
    assert round(float(plan.palette()["price"].sum()), 2) == whole
    assert plan.palette()["owned"].sum() == 1
    recipes, flowers = plan.recipes(), plan.flower_coverage()
    assert recipes["covered"].sum() == flowers["covered"].sum()
    assert len(recipes) == flowers["colours"].sum() == len(plan.samples)
    covered = recipes.loc[recipes["covered"], "importance"].sum()
    assert covered == pytest.approx(plan.coverage, abs=5e-5 * len(recipes))  # four decimals each
    weighed = np.average(flowers["coverage"], weights=flowers["importance"])
    assert weighed == pytest.approx(plan.coverage, abs=1e-4)


def test_the_sizes_in_a_frame_are_the_sizes(answers: Answers) -> None:
    comparison = answers.comparison
    sizes, near = comparison.by_number_of_tubes(), comparison.near_best()
    assert sizes["most_tubes"].tolist() == [size.best.size for size in comparison.sizes]
    assert sizes["coverage"].is_monotonic_increasing
    assert (sizes["coverage"] <= sizes["coverage_at_most"]).all()
    assert sizes["tubes"].tolist() == [len(ids.split()) for ids in sizes["tube_ids"]]
    assert comparison.alternatives is not None
    assert len(near) == len(comparison.alternatives.near.palettes) > 1
    for frame in (sizes, near):
        assert (frame["puddles_in_one_sitting"] <= frame["puddles"]).all()
        assert frame["puddles_proven"].all()
    assert near["coverage"].is_monotonic_decreasing
    without = replace(comparison, alternatives=None)
    assert without.near_best().empty
    assert list(without.near_best().columns) == list(near.columns)


def test_texts_in_a_frame_are_the_plain_ones(hostile: tuple[str, Plan]) -> None:
    name, plan = hostile
    assert plan.shopping_list()["name"].iloc[0] == name
    assert set(plan.recipes()["flower"]) == {name}


def test_a_table_is_told_by_its_rows_alone(empty_plan: Plan) -> None:
    frame = empty_plan.shopping_list()
    assert frame.empty
    assert str(frame["packs"].dtype) == "Int64"
    recipe = empty_plan.recipes().iloc[0]
    assert pd.isna(recipe["match"])
    assert pd.isna(recipe["tube_1"])
    assert isinstance(recipe["covered"], bool | np.bool_)
