"""CSV cells against RFC 4180 and OWASP's page on CSV injection."""

import csv
import io
import math
from decimal import Decimal

import pandas as pd
import pytest
from hypothesis import given
from hypothesis import strategies as st

from fewtubes.tables.cells import cell_text, csv_text
from fewtubes.tables.spreadsheet import Spreadsheet


def test_published_quoting() -> None:
    """RFC 4180, section 2, rules 1, 6 and 7: CRLF, commas in quotes, quotes doubled."""
    text = csv_text(["aaa", "bbb", "ccc"], [["zzz", "y,y", 'b"bb']])
    assert text == 'aaa,bbb,ccc\r\nzzz,"y,y","b""bb"\r\n'


@pytest.mark.parametrize("sign", ["=", "+", "-", "@", "\t", "\r", "\n"])
def test_published_formula_starts_are_defused(sign: str) -> None:
    """OWASP, CSV Injection: cells must not begin with these (the page's list)."""
    assert cell_text(f"{sign}1+1").startswith("'")


@pytest.mark.parametrize("text", ["＝1+1", "  =1+1", "=cmd|' /C calc'!A0", '=HYPERLINK("x")'])
def test_disguised_formulas_are_defused(text: str) -> None:
    assert cell_text(text) == f"'{text}"


@pytest.mark.parametrize(
    ("written_for", "opened_by", "sign"),
    [(Spreadsheet.COMMA, ";", ";"), (Spreadsheet.SEMICOLON, ",", ",")],
)
@pytest.mark.parametrize("begins", ["=", "  =", "+", "-", "@", "＝"])
def test_no_formula_begins_where_another_spreadsheet_parts_cells(
    written_for: Spreadsheet, opened_by: str, sign: str, begins: str
) -> None:
    """OWASP, CSV Injection: separators are to be minded, since they end the cell before."""
    text = csv_text(["a", "b"], [["x", f"rose{sign}{begins}1+1, 2; 3"]], spreadsheet=written_for)
    rows = csv.reader(io.StringIO(text, newline=""), delimiter=opened_by)
    cells = [cell.strip() for row in rows for cell in row]
    assert len(cells) == 4
    assert not any(cell.startswith(("=", "+", "-", "@", "＝")) for cell in cells)


@pytest.mark.parametrize("text", ["magenta", "a-b", "1+1", "", "'quoted'", "x=1"])
def test_harmless_texts_are_left_alone(text: str) -> None:
    assert cell_text(text) == text


@pytest.mark.parametrize(
    ("number", "text"),
    [
        (-5.5, "-5.5"),
        (-0.00001, "0"),
        (0.0001, "0.0001"),
        (1e15, "1000000000000000"),
        (7, "7"),
        (Decimal("3.50"), "3.50"),
        (math.inf, ""),
        (math.nan, ""),
        (None, ""),
        (100.0, "100"),
    ],
)
def test_numbers_stay_numbers(number: float | Decimal | None, text: str) -> None:
    assert cell_text(number) == text


def test_negative_numbers_are_read_as_numbers() -> None:
    frame = pd.read_csv(io.StringIO(csv_text(["a", "b"], [[-9.25, "x"], [3.0, "y"]])))
    assert frame["a"].tolist() == [-9.25, 3.0]


@given(st.lists(st.tuples(st.text(max_size=30), st.floats(-1e6, 1e6)), max_size=5))
def test_any_table_comes_back_with_its_shape_and_without_formulas(
    rows: list[tuple[str, float]],
) -> None:
    text = csv_text(["text", "number"], rows)
    text.encode("utf-8")
    read = list(csv.reader(io.StringIO(text, newline=""), strict=True))
    assert len(read) == len(rows) + 1
    for (_, number), (cell, figure) in zip(rows, read[1:], strict=True):
        assert not cell.startswith(("=", "+", "-", "@", "\t", "\r", "\n"))
        assert float(figure) == pytest.approx(number, abs=5.1e-5)


def test_a_row_of_the_wrong_length_is_a_defect() -> None:
    with pytest.raises(ValueError, match=r"needs 2 cells \(got 1\)"):
        csv_text(["a", "b"], [["x"]])
