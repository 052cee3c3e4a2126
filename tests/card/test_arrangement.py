"""A card's boxes, paper and marks keep clear of each other and of the sheet's edge."""

from itertools import combinations

import pytest

from fewtubes.card.arrangement import MOST_ROWS, PAPER_SIZES, ROWS_A_SHEET, arranged_card
from fewtubes.card.layout import CardLayout, Rectangle, Sheet, Unit
from fewtubes.errors import InputError

PRINTABLE = 6.0
"""White rim that printers for the home leave at most [mm]; common practice, no source."""

QUIET = 2.0
"""White that a mark needs around it: one of its fields [mm]."""


def apart(one: Rectangle, other: Rectangle, by: float = 0.0) -> bool:
    return (
        one.left + one.width + by <= other.left
        or other.left + other.width + by <= one.left
        or one.top + one.height + by <= other.top
        or other.top + other.height + by <= one.top
    )


def places(sheet: Sheet) -> tuple[list[Rectangle], list[Rectangle]]:
    """Return what is painted or black, and what must stay white."""
    boxes = [box for row in sheet.rows for box in row.boxes]
    inked = [box.rectangle for box in boxes] + [place for box in boxes for place in box.stroke]
    white = list({place for box in boxes for place in box.white})
    return [*inked, *sheet.black], white


@pytest.mark.parametrize("size", PAPER_SIZES)
def test_nothing_overlaps_and_all_can_be_printed(size: str) -> None:
    sheet = arranged_card(size, [""] * ROWS_A_SHEET).sheets[0]
    inked, white = places(sheet)
    assert all(apart(one, other) for one, other in combinations([*inked, *white], 2))
    for mark in sheet.marks:
        assert all(apart(mark.rectangle, place, QUIET) for place in [*inked, *white])
    for place in [*inked, *white, *(mark.rectangle for mark in sheet.marks)]:
        assert place.left >= PRINTABLE
        assert place.top >= PRINTABLE
        assert place.left + place.width <= sheet.width - PRINTABLE
        assert place.top + place.height <= sheet.height - PRINTABLE


def test_paper_sizes_are_those_of_the_standards() -> None:
    # ISO 216: A4 is 210 mm × 297 mm. ANSI/ASME Y14.1: A is 8.5 in × 11 in; an inch is 25.4 mm.
    assert PAPER_SIZES["A4"] == (210, 297)
    assert PAPER_SIZES["Letter"] == pytest.approx((8.5 * 25.4, 11 * 25.4))


@pytest.mark.parametrize("size", PAPER_SIZES)
def test_a_row_has_four_washes_and_one_over_black(size: str) -> None:
    row = arranged_card(size, ["my rose"]).sheets[0].rows[0]
    assert row.name == "my rose"
    washes = [(box.strength, box.over_black) for box in row.boxes]
    paper, black = False, True
    assert washes == [(1, paper), (0.5, paper), (0.25, paper), (0.125, paper), (1, black)]
    assert all(box.white for box in row.boxes)
    assert len(row.boxes[-1].stroke) == 2


def test_every_sheet_of_every_size_has_marks_of_its_own() -> None:
    cards = [arranged_card(size, [""] * MOST_ROWS) for size in PAPER_SIZES]
    codes = [mark.code for card in cards for sheet in card.sheets for mark in sheet.marks]
    assert len(codes) == len(set(codes)) == 2 * 12 * 4  # sizes, sheets, corners
    assert [sheet.number for sheet in cards[0].sheets] == list(range(1, 13))


def test_rows_go_on_on_the_next_sheet() -> None:
    names = [f"paint {number}" for number in range(1, 12)]
    card = arranged_card("A4", names)
    assert [len(sheet.rows) for sheet in card.sheets] == [8, 3]
    assert [row.name for sheet in card.sheets for row in sheet.rows] == names


@pytest.mark.parametrize("count", [0, MOST_ROWS + 1])
def test_too_few_or_too_many_rows_are_refused(count: int) -> None:
    with pytest.raises(InputError, match="from 1 to 96"):
        arranged_card("A4", [""] * count)


def test_names_are_put_in_and_others_stay() -> None:
    card = arranged_card("A4", ["a", "b", "c"]).with_names(["", "x"], [("PB29",), ()])
    rows = card.sheets[0].rows
    assert [row.name for row in rows] == ["a", "x", "c"]
    assert [row.codes for row in rows] == [("PB29",), (), ()]
    with pytest.raises(ValueError, match="2 names for 0 rows"):
        CardLayout(Unit.MM, ()).with_names(["a", "b"])
