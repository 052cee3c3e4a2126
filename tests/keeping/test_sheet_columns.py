"""The small file that names the columns of a spreadsheet."""

from pathlib import Path

import pytest

from fewtubes.errors import InputError
from fewtubes.keeping.sheet_columns import Fills, SheetColumns, read_sheet_columns

PRICES = """\
fills = "prices"
[columns]
name = "Article"
ml = "Content"
price = "Price"
[always]
currency = "EUR"
"""


def read(tmp_path: Path, text: str) -> SheetColumns:
    path = tmp_path / "names.toml"
    path.write_text(text, encoding="utf-8")
    return read_sheet_columns(path)


def test_a_small_file_is_read(tmp_path: Path) -> None:
    columns = read(tmp_path, PRICES)
    assert columns.fills is Fills.PRICES
    assert columns.headings == {"name": "Article", "ml": "Content", "price": "Price"}
    assert columns.always == {"currency": "EUR"}
    assert (columns.decimal, columns.separator, columns.encoding) == (".", None, None)
    assert (columns.sheet, columns.heading_row, columns.unknown_left) == (None, 1, False)


def test_all_keys_are_read(tmp_path: Path) -> None:
    top = """\
decimal = ","
separator = "tab"
encoding = "windows-1252"
sheet = "2026"
heading_row = 3
unknown_tubes = "leave"
"""
    columns = read(
        tmp_path, top + PRICES.replace('"EUR"', '"EUR"\n').replace("[always]", "[always]")
    )
    assert (columns.decimal, columns.separator, columns.encoding) == (",", "\t", "cp1252")
    assert (columns.sheet, columns.heading_row, columns.unknown_left) == ("2026", 3, True)


def test_a_number_for_all_rows_is_taken_as_it_is_written(tmp_path: Path) -> None:
    text = PRICES.replace('ml = "Content"\n', "") + "ml = 10.50\n"
    assert read(tmp_path, text).always["ml"] == "10.50"


@pytest.mark.parametrize(
    ("old", "new", "where", "what"),
    [
        ('fills = "prices"\n', "", "fills", "is missing; say what the sheet holds: tubes, prices"),
        ('"prices"', '"price"', "fills", "is 'price'; allowed: tubes, prices, flowers."),
        ('ml = "Content"\n', "", "columns", 'say which column is ml: ml = "heading of its column"'),
        ('name = "Article"\n', "", "columns", "say which column names the tube: tube for its id"),
        ('currency = "EUR"', "", "columns", 'or, under [always], currency = "EUR"'),
        ('currency = "EUR"', "currency = true", "always, currency", "is true; it must be a text"),
        ('"EUR"', '"EUR"\nprice = 4', "always, price", "has a column as well; keep one of the two"),
        ('name = "A', 'nome = "A', "columns, nome", "unknown key; allowed here: tube, name, ml"),
        (
            'fills = "prices"',
            'fills = "prices"\ndecimal = ";"',
            "decimal",
            "is ';'; allowed: '.', ','.",
        ),
        (
            'fills = "prices"',
            'fills = "prices"\nencoding = "latin"',
            "encoding",
            "is 'latin'; allowed",
        ),
        (
            'fills = "prices"',
            'fills = "prices"\nheading_row = 0',
            "heading_row",
            "must be a whole number from 1",
        ),
        ('fills = "prices"', "fills = prices", "", "is not TOML"),
    ],
)
def test_a_fault_is_told_with_its_key(
    tmp_path: Path, old: str, new: str, where: str, what: str
) -> None:
    assert PRICES.count(old) == 1
    with pytest.raises(InputError) as told:
        read(tmp_path, PRICES.replace(old, new))
    assert any(
        fault.where == ", ".join(filter(None, ["names.toml", where])) and what in fault.what
        for fault in told.value.faults
    ), told.value.faults


def test_a_pack_of_a_tube_needs_all_of_it(tmp_path: Path) -> None:
    with pytest.raises(InputError) as told:
        read(tmp_path, 'fills = "tubes"\n[columns]\nname = "N"\nprice = "P"\n')
    named = [fault.what.split(":")[0] for fault in told.value.faults]
    assert named == [f"say which column is {key}" for key in ("pigments", "ml", "currency")]
