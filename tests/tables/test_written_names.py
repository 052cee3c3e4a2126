"""Names survive being written into a table and read back, and no spreadsheet runs any of them."""

import csv
import io

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fewtubes.tables.cells import FORMULA_STARTS, csv_text
from fewtubes.tables.written_names import read_name, written_name

NAMES = st.text("=+-@＝; 'ab,\"", max_size=12).map(lambda text: " ".join(text.split()))
"""Names have no blank at either end, and one at most between two words."""


def cell_of(name: str) -> str:
    """Return the cell that a reader of CSV finds."""
    text = csv_text(["name", "x"], [[written_name(name), 1]])
    (_, (cell, _)) = csv.reader(io.StringIO(text, newline=""), strict=True)
    return cell


@pytest.mark.parametrize(
    ("name", "cell"),
    [
        ("=1+1", "'=1+1"),
        ("'=1+1", "''=1+1"),
        ("''=1+1", "'''=1+1"),
        ("a;=1", "a;'=1"),
        ("a; '=1", "a; ''=1"),
        ("' =1", "'' =1"),
        ("'tis", "'tis"),
        ("rose, red", "rose, red"),
        ("o'clock = late", "o'clock = late"),
    ],
)
def test_by_hand(name: str, cell: str) -> None:
    assert cell_of(name) == cell
    assert read_name(cell) == name


@given(NAMES)
def test_every_name_comes_back(name: str) -> None:
    assert read_name(cell_of(name)) == name


@given(NAMES)
def test_no_cell_begins_a_formula_wherever_a_spreadsheet_parts_cells(name: str) -> None:
    """OWASP, CSV Injection: the signs a cell must not begin with."""
    text = csv_text(["name"], [[written_name(name)]])
    for sign in (",", ";"):
        for row in csv.reader(io.StringIO(text, newline=""), delimiter=sign):
            assert not any(cell.lstrip(" ")[:1] in FORMULA_STARTS - {""} for cell in row if cell)
