"""A photographed card set straight shows its boxes where the layout says."""

from dataclasses import replace

import numpy as np
import pytest
from tests.card.painted import QUICK, PaintedCard
from tests.card.photographed import photographed

from fewtubes.card.layout import Rectangle
from fewtubes.card.straightening import straightened
from fewtubes.errors import InputError

DOTS = 2


def seen(pixels: np.ndarray, place: Rectangle) -> np.ndarray:
    left, top, right, bottom = (
        round(DOTS * side)
        for side in (place.left, place.top, place.left + place.width, place.top + place.height)
    )
    return pixels[top:bottom, left:right].astype(float)


@pytest.mark.parametrize("turns", [0, 3])
def test_bars_and_paper_are_in_their_places(turns: int, letter: PaintedCard) -> None:
    picture = photographed(letter.sheets[0], replace(QUICK, quarter_turns=turns))
    straight = straightened(picture, letter.card, dots_per_mm=DOTS)
    assert straight.sheet == letter.card.sheets[0]
    assert straight.pixels.shape == (559, 432, 3)  # 279.4 mm and 215.9 mm, 2 pixels each
    # In the picture black is about 50, and paper above 150 in the darkest corner.
    assert all(seen(straight.pixels, bar.inner(0.15)).max() < 100 for bar in straight.sheet.black)
    for row in straight.sheet.rows:
        white = seen(straight.pixels, row.boxes[0].white[0])
        assert white.min() > 150
        assert white.max(axis=(0, 1)).max() - white.min(axis=(0, 1)).max() < 40


def test_without_marks_it_cannot_be(letter: PaintedCard) -> None:
    with pytest.raises(InputError, match="marks were not found"):
        straightened(photographed(letter.sheets[0][200:600, 100:400], QUICK), letter.card)
