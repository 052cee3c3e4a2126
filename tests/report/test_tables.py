"""The shopping list and the recipes as tables, read back by pandas."""

import io
from dataclasses import replace
from decimal import Decimal

import pandas as pd
import pytest

from fewtubes.report.plan_files import plan_files
from fewtubes.shopping.packs import Pack
from fewtubes.shopping.plan import Plan
from fewtubes.shopping.plan_tables import recipes, shopping_list
from fewtubes.words.matches import match_words


def read(text: str) -> pd.DataFrame:
    return pd.read_csv(io.StringIO(text, newline=""), keep_default_na=False, dtype=str)


def test_a_row_a_pack_and_the_rows_sum_to_the_cost(plan: Plan) -> None:
    frame = read(shopping_list(plan).csv_text())
    assert list(frame["tube"]) == ["magenta", "gold"]  # the owned blue is not bought
    assert sum(map(Decimal, frame["price"])) == Decimal(plan.cost) / 100
    for _, row in frame.iterrows():
        assert int(row["packs"]) * Decimal(row["price_each"]) == Decimal(row["price"])


def test_a_tube_in_two_sizes_takes_two_rows(plan: Plan) -> None:
    magenta = plan.tubes[0]
    large = replace(magenta.tube.offers[0], ml=15.0, price=1500)
    both = replace(magenta, packs=(*magenta.packs, Pack(large, 1)))
    frame = read(shopping_list(replace(plan, tubes=(both,), cost=2800)).csv_text())
    assert list(frame["ml"]) == ["5", "15"]
    assert sum(map(Decimal, frame["price"])) == Decimal("28.00")


def test_pigments_and_hazards_are_named(plan: Plan) -> None:
    frame = read(shopping_list(plan).csv_text()).set_index("tube")
    assert frame.loc["gold", "pigments"] == "PY150"
    assert frame.loc["gold", "hazards"] == "nickel"
    assert frame.loc["magenta", "hazards"] == ""
    assert frame.loc["magenta", "transparency"] == "semi-transparent"


def test_nothing_to_buy_is_a_header_alone(empty_plan: Plan) -> None:
    assert (
        shopping_list(empty_plan).csv_text() == ",".join(shopping_list(empty_plan).header) + "\r\n"
    )


def test_a_recipe_a_sample(plan: Plan) -> None:
    frame = read(recipes(plan).csv_text())
    first, second, step = (frame.loc[place] for place in range(3))
    assert (first["tube_1"], first["parts_1"], first["tube_2"]) == ("magenta", "2", "gold")
    assert first["tube_3"] == ""
    assert (first["covered"], first["step"], step["step"]) == ("yes", "no", "yes")
    assert first["importance"] == "50%"  # 5000 of 10,000
    assert [float(str(first[axis])) for axis in ("L", "a", "b")] == [60.0, 40.0, -10.0]
    assert first["why_not"] == ""
    assert (second["covered"], second["why_not"]) == ("no", "the budget or the number of tubes")
    assert second["would_be_reached_by"] == "deep violet"
    assert float(str(second["match"])) == 6.12


@pytest.mark.parametrize("limit", [1.0, 2.0, 4.0, 7.0, 12.0])
def test_a_match_lies_on_the_side_of_its_words(plan: Plan, limit: float) -> None:
    """Just beyond a limit of the words, four decimals would show the limit itself."""
    beyond = tuple(replace(planned, match=limit + 1e-9) for planned in plan.samples)
    for cell, words in read(recipes(replace(plan, samples=beyond)).csv_text())[
        ["match", "match_words"]
    ].itertuples(index=False):
        assert words == match_words(float(cell))


def test_without_a_recipe_its_cells_are_empty(empty_plan: Plan) -> None:
    row = read(recipes(empty_plan).csv_text()).loc[0]
    for column in ("tube_1", "strength", "match", "match_if_unsteady", "mix_L"):
        assert row[column] == ""
    assert row["why_not"] == "the catalogue"


def test_hostile_names_start_no_formula(hostile: tuple[str, Plan]) -> None:
    _, plan = hostile
    for text in (shopping_list(plan).csv_text(), recipes(plan).csv_text()):
        for row in read(text).to_numpy():
            for cell in row:
                assert cell.isprintable()
                assert len(cell) <= 4000
                if cell.startswith(("=", "+", "-", "@")):
                    float(cell)  # only a number may begin so


@pytest.mark.parametrize("name", ["shopping-list.csv", "recipes.csv"])
def test_lines_end_as_rfc_4180_has_it(plan: Plan, name: str) -> None:
    text = plan_files(plan)[name]
    assert text.endswith("\r\n")
    assert text.count("\n") == text.count("\r\n")
