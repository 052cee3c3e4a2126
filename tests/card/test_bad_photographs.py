"""What is wrong with a photograph is said in one sentence, with what to do."""

import io
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from PIL import Image
from tests.card.painted import DOTS_PER_MM, QUICK, PaintedCard
from tests.card.photographed import as_jpeg, photographed, scanned

from fewtubes.card.layout import Box, CardLayout, Mark, Rectangle, Row, Sheet, Unit
from fewtubes.card.reading import card_reading, read_card, read_cards
from fewtubes.colour.display import lab_to_linear
from fewtubes.errors import InputError

Change = Callable[[np.ndarray, Sheet], None]


def told(picture: bytes, layout: CardLayout) -> str:
    """Return the only fault of a picture."""
    with pytest.raises(InputError) as caught:
        read_card(picture, layout)
    (fault,) = caught.value.faults
    assert fault.where.startswith("photograph")
    assert fault.what.count(". ") == 0
    assert fault.what.endswith(".")
    return fault.what


def changed(painted: PaintedCard, change: Change) -> np.ndarray:
    sheet = painted.sheets[0].copy()
    change(sheet, painted.card.sheets[0])
    return sheet


def part(sheet: np.ndarray, place: Rectangle) -> np.ndarray:
    """Return the pixels of a place on a painted sheet, to be changed."""
    left, top, right, bottom = (
        round(DOTS_PER_MM * side)
        for side in (place.left, place.top, place.left + place.width, place.top + place.height)
    )
    return sheet[top:bottom, left:right]


def covered(*corners: int) -> Change:
    def cover(sheet: np.ndarray, layout: Sheet) -> None:
        for corner in corners:
            part(sheet, layout.marks[corner].rectangle)[:] = 0.5

    return cover


@pytest.mark.parametrize(
    ("corners", "sentence"),
    [
        ((3,), "the corner mark bottom left of sheet 1 was not found; photograph the whole sheet"),
        ((0, 1), "the corner marks top left, top right of sheet 1 were not found"),
        ((0, 1, 2, 3), "the corner marks were not found; photograph the whole sheet, not mirrored"),
    ],
)
def test_marks_are_missing(corners: tuple[int, ...], sentence: str, letter: PaintedCard) -> None:
    sheet = changed(letter, covered(*corners))
    assert sentence in told(scanned(sheet), letter.card)


def test_it_is_mirrored(letter: PaintedCard) -> None:
    assert "not mirrored" in told(scanned(letter.sheets[0][:, ::-1]), letter.card)


def test_it_is_another_card(letter: PaintedCard, a4: PaintedCard) -> None:
    assert "shows a sheet that is not in this layout" in told(letter.photographs[0], a4.card)


def test_it_shows_two_sheets(a4: PaintedCard) -> None:
    both = np.concatenate([sheet[::2, ::2] for sheet in a4.sheets], axis=1)
    assert "shows several sheets at a time" in told(scanned(both), a4.card)


def test_the_marks_lie_elsewhere(letter: PaintedCard) -> None:
    sheet = letter.card.sheets[0]
    *others, last = sheet.marks
    place = replace(last.rectangle, top=last.rectangle.top - 40, width=24.0)
    moved = replace(sheet, marks=(*others, Mark(last.code, place)))
    layout = replace(letter.card, sheets=(moved,))
    assert "do not lie as on this card (off by" in told(letter.photographs[0], layout)


@pytest.mark.parametrize(
    ("shot", "sentence"),
    [
        ({"blur": 14.0}, "is blurred, so that the corner marks are not all found; hold the camera"),
        (
            {"exposure": 0.002},
            "is too dark to find the corner marks; photograph the card in",
        ),
        ({"exposure": 0.07}, "is too dark; photograph the card in brighter light"),
        ({"exposure": 1.8}, "is over-exposed, so that"),
        ({"channels": (1.0, 0.7, 0.35)}, "the paper looks coloured (red 1."),
    ],
)
def test_the_light_is_wrong(shot: dict[str, Any], sentence: str, letter: PaintedCard) -> None:
    picture = photographed(letter.sheets[0], replace(QUICK, **shot))
    assert sentence in told(picture, letter.card)


def test_the_paper_is_coloured(letter: PaintedCard) -> None:
    kraft = np.array([0.55, 0.36, 0.22])  # brown wrapping paper, our own guess
    picture = photographed(letter.sheets[0] * kraft, replace(QUICK, exposure=1.5))
    assert "the paper looks coloured" in told(picture, letter.card)


def test_the_light_falls_off_too_much(letter: PaintedCard) -> None:
    across = np.linspace(0, 1, letter.sheets[0].shape[1])
    # Boxes lie between 0.29 and 0.87 of the width: 20^0.53 = 4.9 from the first to the last.
    picture = scanned(letter.sheets[0] * (20**-across)[None, :, None])
    assert "the light is too uneven, over four times as bright" in told(picture, letter.card)


def test_much_of_the_paper_is_pure_white(letter: PaintedCard) -> None:
    sheet = np.where(letter.sheets[0] > 0.8, 1.0, letter.sheets[0])
    assert "so that the paper is pure white; photograph" in told(scanned(sheet), letter.card)


def test_a_shadow_with_an_edge_crosses_the_card(letter: PaintedCard) -> None:
    def shade(sheet: np.ndarray, _layout: Sheet) -> None:
        rows, columns = np.indices(sheet.shape[:2])
        sheet[(rows // 60 + columns // 60) % 2 == 0] *= 0.5  # as through leaves

    picture = scanned(changed(letter, shade))
    assert "differs too much from place to place" in told(picture, letter.card)


def test_a_full_box_is_bare(letter: PaintedCard) -> None:
    def bare(sheet: np.ndarray, layout: Sheet) -> None:
        part(sheet, layout.rows[1].boxes[0].rectangle)[:] = lab_to_linear(letter.paper)

    sentence = told(scanned(changed(letter, bare)), letter.card)
    assert sentence.startswith("looks like bare paper although others of its row are painted")


def test_nothing_is_painted(letter: PaintedCard) -> None:
    empty = letter.card.sheets[0]
    rows = tuple(replace(row, name="") for row in empty.rows)
    layout = replace(letter.card, sheets=(replace(empty, rows=rows),))

    def bare(sheet: np.ndarray, sheet_layout: Sheet) -> None:
        for box in (box for row in sheet_layout.rows for box in row.boxes):
            for place in (box.rectangle, *box.stroke):
                part(sheet, place)[:] = lab_to_linear(letter.paper)

    assert "nothing is painted on this sheet" in told(scanned(changed(letter, bare)), layout)


@pytest.mark.parametrize("factor", [(1.12, 1.12, 1.12), (1.7, 0.7, 0.5)])
def test_a_paint_is_metallic_or_fluorescent(factor: tuple[float, ...], letter: PaintedCard) -> None:
    """Brighter than paper in all channels, or in red alone as a fluorescent pink is."""

    def brighten(sheet: np.ndarray, layout: Sheet) -> None:
        paper = lab_to_linear(letter.paper)
        part(sheet, layout.rows[1].boxes[0].rectangle)[:] = paper * factor

    picture = photographed(changed(letter, brighten), replace(QUICK, exposure=0.5))
    assert "is brighter than paint on this paper can be" in told(picture, letter.card)


def test_light_shines_on_a_box(letter: PaintedCard) -> None:
    def shine(sheet: np.ndarray, layout: Sheet) -> None:
        box = layout.rows[1].boxes[1].rectangle
        part(sheet, Rectangle(box.left + 6, box.top, 3, box.height))[:] = 2.0

    sentence = told(photographed(changed(letter, shine), QUICK), letter.card)
    assert sentence.startswith("shines on ")


def test_the_black_line_is_not_black(letter: PaintedCard) -> None:
    def whiten(sheet: np.ndarray, layout: Sheet) -> None:
        for place in layout.black:
            part(sheet, place)[:] = lab_to_linear(letter.paper)

    reading = card_reading(scanned(changed(letter, whiten)), letter.card)
    assert [len(tube.swatches) for tube in reading.sheet.tubes] == [4] * 4
    assert "the line under the boxes over black is not black" in reading.notes[0]
    assert reading.sheet.black is None


def smaller(painted: PaintedCard, side: int) -> bytes:
    image = Image.open(io.BytesIO(scanned(painted.sheets[0])))
    image.thumbnail((side, side), Image.Resampling.LANCZOS)
    return as_jpeg(np.asarray(image), quality=95)


def test_the_picture_is_too_small(letter: PaintedCard) -> None:
    # The bar is 8 mm high, and the sheet 279.4 mm: 8 / 279.4 · 400 = 11.5 pixels.
    with pytest.raises(InputError) as caught:
        read_card(smaller(letter, 400), letter.card)
    assert len(caught.value.faults) == 4
    for fault in caught.value.faults:
        assert fault.where.endswith("full over black")
        assert "is only 11 pixels wide or high in the picture; take a picture" in fault.what
    assert "× 150 pixels, too few to find the corner" in told(smaller(letter, 150), letter.card)


def rectangle_layout(place: Rectangle, white: Rectangle) -> CardLayout:
    row = Row("my rose", (), (Box(1.0, over_black=False, rectangle=place),))
    return CardLayout(Unit.PIXELS, (Sheet(1, 0, 0, (row,), white=(white,)),))


def test_a_rectangle_lies_outside(letter: PaintedCard) -> None:
    picture = scanned(letter.sheets[0])
    white = Rectangle(225, 135, 12, 30)
    outside = rectangle_layout(Rectangle(5000, 100, 50, 50), white)
    assert told(picture, outside).startswith("lies outside the picture; correct its rectangle")
    nowhere = rectangle_layout(Rectangle(100, 100, 50, 50), Rectangle(5000, 9, 9, 9))
    assert told(picture, nowhere) == (
        "the place [5000, 9, 9, 9] under white lies outside the picture; correct it."
    )
    small = rectangle_layout(Rectangle(100, 100, 50, 50), Rectangle(225, 135, 3, 3))
    assert told(picture, small).startswith("no bare paper lies in the picture")


def test_every_other_place_outside_a_layout_by_hand_is_told(letter: PaintedCard) -> None:
    """One that is left out in silence may be the only one beside its box."""
    far = tuple(Rectangle(5000 + number, 9, 9, 9) for number in range(4))
    box = Box(1.0, over_black=True, rectangle=Rectangle(100, 100, 50, 50))
    row = Row("my rose", (), (replace(box, white=far[:1], stroke=far[1:2]),))
    white = (Rectangle(225, 135, 12, 30), far[2])
    layout = CardLayout(Unit.PIXELS, (Sheet(1, 0, 0, (row,), white=white, black=far[3:]),))
    with pytest.raises(InputError) as caught:
        read_card(scanned(letter.sheets[0]), layout)
    assert [fault.what.split(" lies ")[0] for fault in caught.value.faults] == [
        "the place [5002, 9, 9, 9] under white",
        "the place [5003, 9, 9, 9] under black",
        "the place [5000, 9, 9, 9] under white",
        "the place [5001, 9, 9, 9] under stroke",
    ]


def test_the_file_is_no_picture(letter: PaintedCard, tmp_path: Path) -> None:
    assert "is not a whole JPEG, PNG or WebP picture" in told(b"no picture", letter.card)
    with pytest.raises(InputError, match=r"none\.jpg: there is no such file; name the photograph"):
        read_card(tmp_path / "none.jpg", letter.card)
    with pytest.raises(InputError, match="is not a file"):
        read_card(tmp_path, letter.card)
    large = tmp_path / "large.jpg"
    large.write_bytes(b"\0" * (10 * 1024 * 1024 + 1))
    with pytest.raises(InputError, match=r"large\.jpg: has more than 10 MB"):
        read_card(large, letter.card)


def test_several_pictures_tell_all_their_faults(a4: PaintedCard) -> None:
    first, second = a4.photographs
    with pytest.raises(InputError, match="shows sheet 1 as 'photograph' does; leave one out"):
        read_cards([first, second, first], a4.card)
    with pytest.raises(InputError) as caught:
        read_cards([first, b"one", b"two"], a4.card)
    assert len(caught.value.faults) == 2
    with pytest.raises(InputError, match="there is no picture"):
        read_cards([], a4.card)


def test_two_cards_alike_in_a_picture_are_told(letter: PaintedCard) -> None:
    one = letter.sheets[0]
    both = np.concatenate([one, np.full_like(one[:, :20], 0.2), one], axis=1)
    assert told(scanned(both), letter.card) == (
        "shows a corner mark twice; photograph one sheet by itself."
    )


def test_a_picture_without_colour_is_told(letter: PaintedCard) -> None:
    with Image.open(io.BytesIO(letter.photographs[0])) as picture:
        stream = io.BytesIO()
        picture.convert("L").save(stream, "JPEG")
    assert told(stream.getvalue(), letter.card) == (
        "has no colour, only greys; photograph or scan the card in colour."
    )
