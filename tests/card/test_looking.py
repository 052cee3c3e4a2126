"""The pixels of a place."""

import numpy as np
import pytest

from fewtubes.card.layout import Rectangle
from fewtubes.card.looking import looked_at, steady_mean


def as_it_is(places: np.ndarray) -> np.ndarray:
    return places


def picture() -> np.ndarray:
    """Return a picture whose red tells the column and whose green tells the row."""
    rows, columns = np.mgrid[0:100, 0:200]
    return np.stack([columns, rows, np.zeros_like(rows)], axis=-1).astype(np.uint8)


def test_a_place_is_looked_at_pixel_by_pixel() -> None:
    patch = looked_at(picture(), Rectangle(20, 30, 10, 20), as_it_is, margin=0.2)
    assert patch.levels.shape == (12, 6, 3)  # 20 and 10 less two fifths
    assert patch.levels[0, :, 0].tolist() == list(range(22, 28))
    assert patch.levels[:, 0, 1].tolist() == list(range(34, 46))
    assert patch.side == pytest.approx(10)
    assert patch.inside


@pytest.mark.parametrize("place", [Rectangle(195, 30, 10, 10), Rectangle(20, 95, 10, 10)])
def test_a_place_beyond_the_edge_is_told(place: Rectangle) -> None:
    patch = looked_at(picture(), place, as_it_is, margin=0.0)
    assert not patch.inside
    assert patch.levels.shape == (10, 10, 3)


def test_linear_light_is_that_of_the_standard() -> None:
    # IEC 61966-2-1, 5.2: 0 and 1 stay; level 10 is 10 / 255 / 12.92 = 0.003035 (10 / 255 = 0.0392
    # lies below 0.04045); level 188 is ((0.73725 + 0.055) / 1.055)^2.4 = 0.50289.
    levels = np.array([[[0, 10, 188], [255, 255, 255]]], dtype=np.uint8)
    patch = looked_at(levels, Rectangle(0, 0, 2, 1), as_it_is, margin=0.0)
    seen = {tuple(pixel) for pixel in np.round(patch.linear.reshape(-1, 3), 5)}
    assert seen == {(0.0, 0.00304, 0.50289), (1.0, 1.0, 1.0)}


def test_specks_and_shine_do_not_move_the_mean() -> None:
    linear = np.full((10, 10, 3), 0.3)
    linear[0] = 1.0  # a tenth shines
    linear[1, :5] = 0.0  # specks
    assert np.allclose(steady_mean(linear), 0.3)
