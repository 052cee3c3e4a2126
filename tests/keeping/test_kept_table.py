"""Rows that nobody touches stay as they were written, to the byte."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fewtubes.catalogue.location import demo_catalogue_folder
from fewtubes.catalogue.reading import TABLE_COLUMNS
from fewtubes.keeping.kept_table import content, empty_table, kept_table

HEAD = "tube,ml,price,currency\n"


@pytest.mark.parametrize("name", TABLE_COLUMNS)
def test_the_demo_comes_back_as_it_is(name: str) -> None:
    text = (demo_catalogue_folder() / name).read_bytes().decode("utf-8")
    assert kept_table(text).text() == text


@pytest.mark.parametrize(
    "text",
    [
        "\ufeff" + HEAD + "a,5,4,EUR\n",
        "tube , ml,price,currency\r\na,5, 4 ,EUR\r\n\r\n",
        HEAD + '"a","5","4","EUR"',
        HEAD + "\n  \na,5,4,EUR\n\n",
        'note,tube\r"two\rlines",a\r',
        'note,tube\n"two\r\nlines, and ""more""",a\n',
    ],
)
def test_marks_line_ends_quotes_and_blank_lines_stay(text: str) -> None:
    assert kept_table(text).text() == text


@given(st.lists(st.lists(st.text(alphabet='a,"\n\r é=', max_size=4), min_size=2, max_size=2)))
def test_any_table_comes_back(rows: list[list[str]]) -> None:
    cells = [",".join('"' + cell.replace('"', '""') + '"' for cell in row) for row in rows]
    text = "\r\n".join(["a,b", *cells])
    assert kept_table(text).text() == text


def test_cells_are_trimmed_and_composed() -> None:
    table = kept_table(" name ,tube\n  Rose\u0301 ,a\n")
    assert table.columns == ("name", "tube")
    assert table.rows[0].cells == {"name": "Ros\u00e9", "tube": "a"}


def test_a_row_is_added_at_the_end_in_the_tables_own_columns_and_line_ends() -> None:
    table = kept_table("price,tube,currency,ml\r\n4,a,EUR,5")
    added = table.with_things(
        "tube", {"b": [dict(zip(table.columns, ["6", "b", "EUR", "7"], strict=True))]}
    )
    assert added.text() == "price,tube,currency,ml\r\n4,a,EUR,5\r\n6,b,EUR,7\r\n"


def test_a_thing_is_replaced_in_its_place_and_rows_that_say_the_same_stay() -> None:
    table = kept_table(HEAD + "a,5,4,EUR\nb, 5 ,4.0,EUR\nc,5,4,EUR\nb,10,8,EUR\n")
    rows = [
        {"tube": "b", "ml": "5.0", "price": "4", "currency": "EUR"},
        {"tube": "b", "ml": "10", "price": "9", "currency": "EUR"},
    ]
    assert table.with_things("tube", {"b": rows}).text() == (
        HEAD + "a,5,4,EUR\nb, 5 ,4.0,EUR\nb,10,9,EUR\nc,5,4,EUR\n"
    )


def test_nothing_changes_where_nothing_new_is_said() -> None:
    text = HEAD + "b, 5 ,4.0,EUR\na,5,4,EUR\nb,10,8,EUR"
    rows = [
        {"currency": "EUR", "tube": "b", "ml": "10.0", "price": "8.00"},
        {"currency": "EUR", "tube": "b", "ml": "5", "price": "4"},
    ]
    assert kept_table(text).with_things("tube", {"b": rows}).text() == text


def test_numbers_are_the_same_however_written_but_names_are_not() -> None:
    assert content([{"price": "4.50"}]) == content([{"price": "4.5"}])
    assert content([{"nm380": "1e-1"}]) == content([{"nm380": "0.10"}])
    assert content([{"name": "4.50"}]) != content([{"name": "4.5"}])
    assert content([{"nm380": "1e-99999999"}]) != content([{"nm380": "0.1"}])  # and at once


def test_an_empty_table_is_its_header() -> None:
    assert empty_table(["tube", "a, b"]).text() == 'tube,"a, b"\n'
