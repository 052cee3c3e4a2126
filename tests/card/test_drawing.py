"""A card as it is printed."""

import re

import numpy as np
import pytest

from fewtubes.card.arrangement import PAPER_SIZES, arranged_card
from fewtubes.card.drawing import card_pdf, sheet_pixels
from fewtubes.card.layout import Rectangle
from fewtubes.card.marks import FIELDS, mark_fields

DOTS = 5


def seen(pixels: np.ndarray, place: Rectangle) -> np.ndarray:
    left, top, right, bottom = (
        round(DOTS * side)
        for side in (place.left, place.top, place.left + place.width, place.top + place.height)
    )
    return pixels[top:bottom, left:right]


@pytest.mark.parametrize("size", PAPER_SIZES)
def test_the_file_has_a_page_a_sheet_at_true_size(size: str) -> None:
    content = card_pdf(arranged_card(size, [""] * 9))
    assert content.startswith(b"%PDF-")
    boxes = re.findall(rb"/MediaBox \[ ?0 0 ([\d.]+) ([\d.]+) ?\]", content)
    assert len(boxes) == 2
    points = [side / 25.4 * 72 for side in PAPER_SIZES[size]]  # 72 points an inch (ISO 32000-1)
    for box in boxes:
        assert [float(side) for side in box] == pytest.approx(points, abs=0.01)


def test_it_is_the_same_every_time() -> None:
    card = arranged_card("A4", ["my rose"])
    assert card_pdf(card) == card_pdf(card)


def test_marks_boxes_and_bars_lie_where_the_layout_says() -> None:
    card = arranged_card("Letter", ["my rose", "my blue"])
    sheet = card.sheets[0]
    pixels = sheet_pixels(sheet, card, dots_per_mm=DOTS)
    assert pixels.shape[:2] == pytest.approx((sheet.height * DOTS, sheet.width * DOTS), abs=1)
    for row in sheet.rows:
        for box in row.boxes:
            inner = seen(pixels, box.rectangle.inner(0.1))
            assert (inner == (0 if box.over_black else 255)).all()
            assert all((seen(pixels, place) == 255).all() for place in box.white)
            assert all((seen(pixels, place.inner(0.1)) == 255).all() for place in box.stroke)
    assert all((seen(pixels, place.inner(0.1)) == 0).all() for place in sheet.black)
    for mark in sheet.marks:
        side = mark.rectangle.width / FIELDS
        for (row_, column), white in np.ndenumerate(mark_fields(mark.code)):
            field = Rectangle(
                mark.rectangle.left + column * side, mark.rectangle.top + row_ * side, side, side
            )
            assert (seen(pixels, field.inner(0.2)) == (255 if white else 0)).all()


@pytest.mark.parametrize(
    "name",
    ["a" * 200, "W" * 200, "long " * 40, "$x_2$ and 50 %", "青い絵の具", "Zoë's <pink> & \\more"],
)
def test_any_name_keeps_clear_of_the_boxes(name: str) -> None:
    card = arranged_card("A4", [name])
    assert card_pdf(card).startswith(b"%PDF-")
    sheet = card.sheets[0]
    pixels = sheet_pixels(sheet, card, dots_per_mm=DOTS)
    assert all((seen(pixels, place) == 255).all() for place in sheet.rows[0].boxes[0].white)
    below = Rectangle(10, sheet.rows[0].boxes[0].rectangle.top + 20, 45, 6)
    assert (seen(pixels, below) == 255).all()
