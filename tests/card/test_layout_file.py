"""Layouts are written and read, and every fault of theirs is told."""

import textwrap
from pathlib import Path

import pytest

import fewtubes.card.layout_file
from fewtubes.card.arrangement import arranged_card
from fewtubes.card.layout import CardLayout, Rectangle, Unit
from fewtubes.card.layout_file import read_layout
from fewtubes.card.layout_text import layout_text
from fewtubes.card.overlaps import overlaps
from fewtubes.errors import InputError

BY_HAND = """\
unit = "pixels"
white = [[20, 20, 60, 40]]

[[tube]]
name = "my own rose"
pigments = "PR122 + PB29"
boxes = [
  {strength = 1, rectangle = [100, 80, 60, 40], white = [[170, 80, 20, 40]]},
  {strength = 1, over = "black", rectangle = [600, 90, 60, 20]},
]
"""


def read(text: str, folder: Path) -> CardLayout:
    path = folder / "layout.toml"
    path.write_text(text, encoding="utf-8")
    return read_layout(path)


def faults(text: str, folder: Path) -> list[str]:
    with pytest.raises(InputError) as caught:
        read(text, folder)
    return [str(fault) for fault in caught.value.faults]


@pytest.mark.parametrize("size", ["A4", "Letter"])
def test_what_is_written_is_read_again(size: str, tmp_path: Path) -> None:
    names = ["", 'Zoë\'s "best" \\ red', *(f"paint {number}" for number in range(7))]
    card = arranged_card(size, names).with_names([], [(), ("PR122", "PB15:3")])
    assert read(layout_text(card), tmp_path) == card


def test_only_a_printed_card_is_written(tmp_path: Path) -> None:
    with pytest.raises(ValueError, match="printed card"):
        layout_text(read(BY_HAND, tmp_path))


def test_a_layout_by_hand_is_read(tmp_path: Path) -> None:
    layout = read(BY_HAND, tmp_path)
    assert layout.unit is Unit.PIXELS
    (sheet,) = layout.sheets
    assert sheet.white == (Rectangle(20, 20, 60, 40),)
    (row,) = sheet.rows
    assert (row.name, row.codes) == ("my own rose", ("PR122", "PB29"))
    full, black = row.boxes
    assert (full.strength, full.over_black, full.white) == (1, False, (Rectangle(170, 80, 20, 40),))
    assert (black.over_black, black.rectangle) == (True, Rectangle(600, 90, 60, 20))


def test_the_example_of_the_module_is_read(tmp_path: Path) -> None:
    told = (fewtubes.card.layout_file.__doc__ or "").split("::\n")[1].split("\nThe more")[0]
    layout = read(textwrap.dedent(told), tmp_path)
    assert [len(row.boxes) for row in layout.sheets[0].rows] == [3]


@pytest.mark.parametrize(
    ("old", "new", "told"),
    [
        ('unit = "pixels"', "", 'unit: is missing; write "mm" for a printed card'),
        ('"pixels"', '"inches"', "unit: is 'inches'; allowed: mm, pixels, share."),
        ('"pixels"', '"share"', "white: 20 is no place in share; it must be a number from 0 to 1."),
        ('"pixels"', '"mm"', "sheet: is missing"),
        ("white = [[20, 20, 60, 40]]", "wite = 3", "wite: unknown key"),
        ("[[20, 20, 60, 40]]", "[20, 20, 60, 40]", "a place is [left, top, width, height]"),
        ("[[20, 20, 60, 40]]", '"left"', "it must be a list of at most 400 places"),
        ("[600, 90, 60, 20]", "[600, 90, 60]", "boxes 2, rectangle: is a list; a place is"),
        ("[600, 90, 60, 20]", "[600, 90, 0, 20]", "has no width or no height"),
        ("[600, 90, 60, 20]", "[600, 90, nan, 20]", "nan is no place in pixels"),
        ("[600, 90, 60, 20]", '["a", true, 1, 2]', "four numbers"),
        ("rectangle = [600, 90, 60, 20]", "white = []", "boxes 2, rectangle: is missing"),
        ('"black"', '"white"', "over: is 'white'; allowed: paper, black."),
        ("strength = 1, over", "strength = 2, over", "strength: is '2'; it must be above 0 and at"),
        ("PR122 +", "rose +", "'rose' is not a Colour Index generic name such as PR122"),
        ("[[tube]]", "[[tubes]]", "tube: there is no tube; give a table for each."),
        ("boxes = [", "boxes = []\nbox = [", "boxes: there is no box; give at least the full"),
        ("name =", "nom =", "nom: unknown key"),
    ],
)
def test_faults_are_told(old: str, new: str, told: str, tmp_path: Path) -> None:
    assert old in BY_HAND
    found = faults(BY_HAND.replace(old, new), tmp_path)
    assert any(told in fault for fault in found), found
    assert all(fault.startswith("layout.toml") for fault in found)


def test_bare_paper_must_be_named(tmp_path: Path) -> None:
    bare = BY_HAND.replace("white = [[20, 20, 60, 40]]\n", "")
    assert read(bare, tmp_path).sheets[0].white == ()  # beside a box there is some
    found = faults(bare.replace(", white = [[170, 80, 20, 40]]", ""), tmp_path)
    assert found == ["layout.toml, white: no bare paper is named; name some, best beside each box."]


def test_two_tubes_of_one_name_are_told(tmp_path: Path) -> None:
    twice = BY_HAND + BY_HAND[BY_HAND.index("[[tube]]") :].replace("my own", "My  Own")
    (found,) = faults(twice, tmp_path)
    assert "two rows are named 'My Own rose'" in found


def test_a_card_whose_marks_were_touched_is_told(tmp_path: Path) -> None:
    text = layout_text(arranged_card("A4", [""]))
    assert "must be four" in faults(text.replace("{code = 1,", "{code = 0,"), tmp_path)[0]
    assert "code: is '99'" in faults(text.replace("{code = 1,", "{code = 99,"), tmp_path)[0]
    assert "number: is missing" in faults(text.replace("number = 1\n", ""), tmp_path)[0]
    two = text + text[text.index("[[sheet]]") :]
    assert "two sheets have the same number" in faults(two, tmp_path)[0]
    outside = text.replace("\n[[sheet]]", "\nwhite = []\n[[sheet]]", 1)
    assert "belongs under [[sheet]]" in faults(outside, tmp_path)[0]


def test_no_file_is_told(tmp_path: Path) -> None:
    with pytest.raises(InputError, match="there is no such file"):
        read_layout(tmp_path / "none.toml")


@pytest.mark.parametrize(
    ("before", "after", "told"),
    [
        (
            "rectangle = [600, 90, 60, 20]",
            "rectangle = [105, 85, 60, 40]",
            "layout.toml, row 1 ('my own rose'), full over black: lies over layout.toml, row 1 ('my"
            " own rose'), full; correct the rectangle of one of them.",
        ),
        (
            "[170, 80, 20, 40]",
            "[110, 80, 20, 40]",
            "layout.toml, row 1 ('my own rose'), full: lies over bare paper; correct its rectangle"
            " or that under white.",
        ),
        (
            "white = [[20, 20, 60, 40]]\n",
            "white = [[20, 20, 60, 40]]\nblack = [[600, 80, 20, 60]]\n",
            "layout.toml, row 1 ('my own rose'), full over black: lies over the bare black line;"
            " correct its rectangle or that under black.",
        ),
    ],
)
def test_places_over_one_another_are_told(
    before: str, after: str, told: str, tmp_path: Path
) -> None:
    assert faults(BY_HAND.replace(before, after, 1), tmp_path) == [told]


def test_rims_may_touch(tmp_path: Path) -> None:
    """Of a place of 20 × 40 a strip of 2 × 40 is a tenth."""
    layout = read(BY_HAND.replace("[170, 80, 20, 40]", "[158, 80, 20, 40]"), tmp_path)
    assert layout.sheets[0].rows[0].boxes[0].white[0].left == 158


@pytest.mark.parametrize("size", ["A4", "Letter"])
def test_nothing_of_a_printed_card_lies_over_anything(size: str) -> None:
    for sheet in arranged_card(size, [""] * 20).sheets:
        assert list(overlaps(sheet, "card")) == []


def test_a_pigment_named_twice_counts_once(tmp_path: Path) -> None:
    layout = read(BY_HAND.replace("PR122 + PB29", "PR122 + PB29 + PR122"), tmp_path)
    assert layout.sheets[0].rows[0].codes == ("PR122", "PB29")
