"""A table as one value: its CSV text, its frame, and what both make of a cell."""

import math
from decimal import Decimal

import pandas as pd
import pytest
from hypothesis import given
from hypothesis import strategies as st

from fewtubes.tables.spreadsheet import Spreadsheet
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


def test_csv_text_for_a_decimal_comma() -> None:
    """Neither a comma in a number nor one in a text needs quotes then; a semicolon does."""
    columns = (*COLUMNS, Column("covered", Kind.SHARE, "covered [0–1]"))
    rows = (
        ("violet, ready-mixed", True, 3, 0.5, Decimal("3.40"), 0.62505),
        ("=A1;B1", False, -1, -1.25, Decimal("0.00"), 1.0),
    )
    assert Table(columns, rows).csv_text(Spreadsheet.SEMICOLON) == (
        "\ufeffname;wanted;packs;share;price;covered\r\n"
        "violet, ready-mixed;yes;3;0,5;3,40;62,5%\r\n"
        '"\'=A1;B1";no;-1;-1,25;0,00;100%\r\n'
    )


@pytest.mark.parametrize(
    ("share", "text"),
    [
        (0.0, "0%"), (1.0, "100%"), (0.5, "50%"), (0.0741, "7.41%"), (0.0001, "0.01%"),
        (0.99994, "99.99%"), (math.inf, ""), (math.nan, ""), (-0.125, "-12.5%"), (1e-9, "0%"),
    ],
)  # fmt: skip
def test_a_share_is_written_in_per_cent(share: float, text: str) -> None:
    """To four decimals, as files keep shares; exact, though 100 × 0.0741 in doubles is not."""
    table = Table((Column("covered", Kind.SHARE, "covered [0–1]"),), ((share,),))
    assert table.csv_text().split("\r\n")[1] in ((text,) if text else ('""', ""))


def test_what_is_read_first_stands_before_ids() -> None:
    columns = (
        Column("id", Kind.TEXT, "its id", behind=True),
        Column("name", Kind.TEXT, "its name"),
        Column("L", Kind.FIGURE, "lightness", behind=True),
        Column("covered", Kind.SHARE, "covered [0–1]"),
    )
    table = Table(columns, (("gold", "golden yellow", 80.0, 0.5),))
    assert table.header == ("name", "covered", "id", "L")
    assert table.csv_text() == "name,covered,id,L\r\ngolden yellow,50%,gold,80\r\n"
    frame = table.frame()
    assert list(frame.columns) == list(frame.attrs["meanings"]) == list(table.header)
    assert frame.iloc[0].tolist() == ["golden yellow", 0.5, "gold", 80.0]


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
