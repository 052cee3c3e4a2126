"""How closely a hand-out is set: the roomiest setting of those that take the fewest sheets."""

import re
from dataclasses import replace
from importlib.resources import files

import pytest

from fewtubes.picture.shapes import Picture
from fewtubes.report.illustrated.handout import (
    Handout,
    HandoutPuddle,
    HandoutSubject,
    HandoutTube,
    HandoutWash,
)
from fewtubes.report.illustrated.handout_height import HEIGHT, height, setting_for, sheets, span
from fewtubes.report.illustrated.handout_setting import CLOSE, DENSE, ROOMY, SETTINGS

DRAWING = Picture(356, 366, "#ffffff", "t", "d", ())
WASH = HandoutWash("half-strength", "1 + 1 water", "2 petal")
PUDDLE = HandoutPuddle(1, (("A", 8), ("B", 1)), ("yellow", "red"), (WASH,))


def flower(*, washes: int, puddles: int = 2) -> HandoutSubject:
    """Return a flower whose washes are spread evenly over its puddles."""
    each = [washes // puddles + (turn < washes % puddles) for turn in range(puddles)]
    mixes = tuple(replace(PUDDLE, number=n + 1, washes=(WASH,) * m) for n, m in enumerate(each))
    return HandoutSubject("daffodil", (("daffodil", DRAWING),), mixes, "", "")


def of(*subjects: HandoutSubject) -> Handout:
    tubes = tuple(HandoutTube(letter, "middle yellow", "PY97") for letter in "ABC")
    return Handout("A class", tubes, subjects, ("Wash your hands.",), (), "Labels decide.")


@pytest.mark.parametrize(
    ("flowers", "setting"),
    [(1, ROOMY), (4, ROOMY), (5, CLOSE), (6, DENSE), (12, DENSE)],
)
def test_more_flowers_are_set_more_closely_on_the_same_sheet(flowers: int, setting: object) -> None:
    """Of four washes in two puddles each; up to twelve such flowers take one sheet."""
    handout = of(*[flower(washes=4)] * flowers)
    chosen = setting_for(handout)
    assert chosen is setting
    assert sheets(chosen, handout) == 1


def test_what_does_not_stand_on_one_sheet_is_as_roomy_as_its_sheets_allow() -> None:
    """Of six washes in two puddles each eight take one sheet, and nine two, with room to spare."""
    assert sheets(setting_for(of(*[flower(washes=6)] * 8)), of(*[flower(washes=6)] * 8)) == 1
    handout = of(*[flower(washes=6)] * 9)
    assert [sheets(setting, handout) for setting in SETTINGS] == [3, 2, 2]
    assert setting_for(handout) is CLOSE


def test_sheets_are_reckoned_with_whole_flowers() -> None:
    """Of three flowers higher than half a sheet each takes one, though in all two would do.

    26 washes in one puddle, two side by side, are 13 rows of 8 mm boxes with 1.5 mm between: 123.5;
    with the mix, its words, and what is around, more than half of 257.
    """
    tall = flower(washes=26, puddles=1)
    one, two, three = (of(*[tall] * flowers) for flowers in (1, 2, 3))
    each = height(ROOMY, two) - height(ROOMY, one)
    assert HEIGHT / 2 < each < HEIGHT
    assert HEIGHT < height(ROOMY, three) < 2 * HEIGHT
    assert [sheets(ROOMY, handout) for handout in (one, two, three)] == [1, 2, 3]


def test_only_what_is_higher_than_a_sheet_is_parted() -> None:
    """60 washes in one puddle are 30 rows of at least 9.5 mm: 285, and a sheet has 257."""
    giant = of(flower(washes=60, puddles=1))
    assert height(ROOMY, giant) > HEIGHT
    assert sheets(ROOMY, giant) == 3  # what is told once, then the flower on two


def test_puddles_without_a_drawing_run_on_row_by_row() -> None:
    """Colours of one's own have none: 40 puddles fill a sheet before the next begins."""
    mixes = tuple(replace(PUDDLE, number=number) for number in range(1, 41))
    own = of(HandoutSubject("Colours of your own", (), mixes, "", ""))
    assert HEIGHT < height(ROOMY, own) < 2 * HEIGHT
    assert sheets(ROOMY, own) == 2


def test_denser_settings_are_never_taller() -> None:
    for washes in (2, 6, 9):
        handout = of(*[flower(washes=washes)] * 8)
        roomy, close, dense = (sheets(setting, handout) for setting in SETTINGS)
        assert roomy >= close >= dense


def test_a_puddle_reaches_over_as_many_columns_as_washes_within_the_room() -> None:
    """A close setting has four columns; a mix of three long names needs more than one of them."""
    subject = flower(washes=1, puddles=1)
    for washes, columns in ((1, 1), (3, 3), (6, 4)):
        assert span(CLOSE, subject, replace(PUDDLE, washes=(WASH,) * washes)) == columns
    long = ("ultramarine blue", "warm red", "green-leaning blue")
    mixed = replace(PUDDLE, parts=(("A", 2), ("B", 2), ("C", 1)), names=long)
    assert span(CLOSE, subject, mixed) == 2
    assert span(DENSE, subject, mixed) == 1  # by letters alone


def test_measures_go_into_the_style_sheet() -> None:
    """Whatever the sheet refers to is given by every setting, or by the sheet of inks."""
    written = (files("fewtubes.report.illustrated") / "handout.css").read_text(encoding="utf-8")
    wanted = set(re.findall(r"var\(--([\w-]+)\)", written)) - {"ground", "ink", "soft-ink", "span"}
    for setting in SETTINGS:
        assert set(re.findall(r"--([\w-]+):", setting.css())) == wanted
        across = range(1, max(setting.columns, setting.wide_columns) + 1)
        assert all(f".span{columns} " in written for columns in across)


def test_nothing_is_smaller_than_can_be_read_or_painted() -> None:
    """8 points, 10 mm by 7 mm: our own measure."""
    for setting in SETTINGS:
        assert min(setting.text, setting.head, setting.fine, setting.paint) >= 8
        assert setting.box[0] >= 10
        assert setting.box[1] >= 7
