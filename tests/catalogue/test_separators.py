"""Which sign parts the cells of a table, and decimals that stand after a comma."""

import pytest

from fewtubes.catalogue.collector import FaultCollector
from fewtubes.catalogue.files import HeldFile
from fewtubes.catalogue.separators import (
    SEPARATORS,
    below_named_sign,
    separator_of,
    with_points,
)
from fewtubes.catalogue.tables import read_table
from fewtubes.errors import Fault, InputError

COLUMNS = ("tube", "strength", "hex")


@pytest.mark.parametrize("mark", SEPARATORS)
def test_the_header_gives_the_sign_away(mark: str) -> None:
    assert separator_of(f"\n{mark.join(COLUMNS)}\nrose{mark}1{mark}#112233\n", COLUMNS) == mark
    assert separator_of(f"x{mark} hex \n", COLUMNS) == mark


@pytest.mark.parametrize(
    "text", ["", "tube", "tube\n a;b", "a;b;c\n", "\n\n", '"tube;strength",hex']
)
def test_a_header_that_gives_nothing_away_is_parted_by_commas(text: str) -> None:
    assert separator_of(text, COLUMNS) == ","


def test_only_numbers_get_points() -> None:
    """1.234,5 has both signs, so that which is which is clear; of 1.234 alone it is not."""
    cells = ["a,b", "0,25", "half", "1.234,5", "1.234", "7,5"]
    header = ["tube", "strength", "L", "a", "b"]
    pointed = ["a,b", "0.25", "half", "1234.5", "1.234", "7,5"]  # the last has no heading
    assert with_points(cells, header, ("strength", "L", "a", "b")) == pointed
    assert with_points(cells, header, ()) is cells


@pytest.mark.parametrize(
    "line", ["sep=;\n", "SEP=;\r\n", '"sep=;"\r', "sep=\t \n", "sep=,\n", "sep=\\t\n"]
)
def test_a_line_that_names_the_sign_is_no_row(line: str) -> None:
    assert below_named_sign(f"{line}tube;hex\n") == ("tube;hex\n", 1)
    assert below_named_sign(line.rstrip("\r\n")) == ("", 1)


@pytest.mark.parametrize(
    "text", ["sep;hex\n", "tube;hex\nsep=;\n", "sep=ab\n", "sep=\n;\n", "\nsep=;\n", ""]
)
def test_a_header_is_no_such_line(text: str) -> None:
    assert below_named_sign(text) == (text, 0)


def table(text: str, *numbers: str) -> tuple[tuple[Fault, ...], list[tuple[str, str]]]:
    """Return the faults of a table of tubes with prices, and its rows' places and prices."""
    collector = FaultCollector()
    source = HeldFile("pl.csv", text.encode())
    read = read_table(source, ("tube", "price"), collector, numbers=numbers)
    faults: tuple[Fault, ...] = ()
    try:
        collector.raise_if_any()
    except InputError as error:
        faults = tuple(error.faults)
    return faults, [(row.where, row.cells["price"]) for row in read.rows]


@pytest.mark.parametrize("mark", SEPARATORS)
def test_rows_below_it_are_numbered_as_they_stand_in_the_file(mark: str) -> None:
    """By hand: the line is row 1, the header row 2, a blank row 4."""
    rows = f"tube{mark}price\nrose{mark}3.40\n\nlemon{mark}3\n"
    want = ((), [("pl.csv, row 3", "3.40"), ("pl.csv, row 5", "3")])
    assert table(f"sep={mark}\n{rows}", "price") == want
    faults, _ = table(f"sep={mark}\n{rows}lemon\n", "price")
    assert [fault.where for fault in faults] == ["pl.csv, row 6"]
    faults, _ = table(f"sep={mark}\n{rows.replace('price', 'prise')}", "price")
    assert {fault.where for fault in faults} == {"pl.csv, row 2"}
    faults, _ = table(f'sep={mark}\n{rows}lemon{mark}"3"4\n', "price")
    assert [fault.where for fault in faults] == ["pl.csv, line 6"]


def test_a_table_kept_with_commas_has_no_such_line() -> None:
    """What is added to such a table later finds its header in row 1."""
    (fault,), rows = table("sep=,\ntube,price\nrose,3\n")
    assert str(fault) == "pl.csv, row 1: only names the sign between cells; remove this line."
    assert rows == []
    (fault,), _ = table("sep=;\ntube;price\nrose;3\n")
    assert str(fault).startswith("pl.csv, row 2: the cells are parted by semicolons, not by commas")
