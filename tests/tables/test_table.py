"""A table as one value: its CSV text, its frame, and what both make of a cell."""

import math
from decimal import Decimal

import pandas as pd
import pytest
from hypothesis import given
from hypothesis import strategies as st

from fewtubes.tables.table import Column, Kind, Table

COLUMNS = (
    Column("name", Kind.TEXT, "what it is called"),
    Column("wanted", Kind.YES_NO, "whether it is wanted"),
    Column("packs", Kind.WHOLE, "how many"),
    Column("share", Kind.FIGURE, "a share [0–1]"),
    Column("price", Kind.MONEY, "in the currency"),
)

TABLE = Table(
    COLUMNS,
    (
        ("007", True, 3, 0.123456, Decimal("3.40")),
        ("=1+1", False, 0, math.inf, Decimal("0.00")),
        (None, None, None, None, None),
    ),
)


def test_csv_text() -> None:
    assert TABLE.csv_text() == (
        "name,wanted,packs,share,price\r\n007,yes,3,0.1235,3.40\r\n'=1+1,no,0,,0.00\r\n,,,,\r\n"
    )


def test_frame() -> None:
    frame = TABLE.frame()
    kinds = ["string", "boolean", "Int64", "float64", "float64"]
    assert [str(kind) for kind in frame.dtypes] == kinds
    assert frame.iloc[0].tolist() == ["007", True, 3, 0.1235, 3.4]
    assert frame["name"].iloc[1] == "=1+1"  # the plain text
    assert frame.isna().to_numpy().tolist() == [
        [False] * 5,
        [False] * 3 + [True, False],
        [True] * 5,
    ]
    assert frame.attrs["meanings"]["share"] == "a share [0–1]"


def test_no_rows_have_the_same_columns() -> None:
    empty = Table(COLUMNS, ())
    assert empty.csv_text() == "name,wanted,packs,share,price\r\n"
    assert empty.frame().dtypes.equals(TABLE.frame().dtypes)


def test_a_row_of_the_wrong_length_is_a_defect() -> None:
    with pytest.raises(ValueError, match=r"needs 5 cells \(got 1\)"):
        Table(COLUMNS, (("x",),))


def test_a_name_that_stands_twice_is_a_defect() -> None:
    with pytest.raises(ValueError, match="a name of its own"):
        Table((COLUMNS[0], COLUMNS[0]), ())


def test_a_cell_of_another_kind_is_a_defect() -> None:
    with pytest.raises((ValueError, TypeError)):
        Table(COLUMNS[1:2], (("perhaps",),)).frame()


@given(st.lists(st.floats(), max_size=5))
def test_a_figure_is_the_same_in_file_and_frame(figures: list[float]) -> None:
    table = Table(COLUMNS[3:4], tuple((figure,) for figure in figures))
    for told, held in zip(
        table.csv_text().split("\r\n")[1:-1], table.frame()["share"], strict=True
    ):
        assert pd.isna(held) if told in {"", '""'} else float(told) == held
