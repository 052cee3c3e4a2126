"""Which sign parts the cells of a table, and decimals that stand after a comma."""

import pytest

from fewtubes.catalogue.separators import SEPARATORS, separator_of, with_points

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
