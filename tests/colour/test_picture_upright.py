"""Photographs are set upright as Pillow sets them, and tell the size they had."""

import io

import numpy as np
import pytest
from PIL import Image, ImageOps

from fewtubes.colour.picture_file import decoded, photograph
from fewtubes.errors import InputError


def picture(orientation: object, kind: str = "PNG") -> bytes:
    """Return a picture without symmetry, noted as held in one of eight ways (Exif 2.32, 4.6.4)."""
    levels = np.zeros((40, 60, 3), dtype=np.uint8)
    levels[:10, :20] = [250, 10, 10]
    levels[30:, 50:] = [10, 250, 10]
    exif = Image.Exif()
    exif[0x0112] = orientation
    stream = io.BytesIO()
    Image.fromarray(levels).save(stream, kind, exif=exif)
    return stream.getvalue()


@pytest.mark.parametrize("kind", ["PNG", "JPEG"])
@pytest.mark.parametrize("orientation", range(1, 9))
def test_it_is_set_upright(orientation: int, kind: str) -> None:
    data = picture(orientation, kind)
    expected = ImageOps.exif_transpose(Image.open(io.BytesIO(data)))
    found = photograph(data)
    assert (found.pixels == np.asarray(expected)).all()
    assert (found.width, found.height) == expected.size
    assert (decoded(data) == found.pixels).all()


@pytest.mark.parametrize("orientation", [0, 9, 300])
def test_a_note_that_means_nothing_is_left_alone(orientation: int) -> None:
    assert (photograph(picture(orientation)).pixels == photograph(picture(1)).pixels).all()


def test_it_is_reduced_as_far_as_asked() -> None:
    assert photograph(picture(6), longest_side=30).pixels.shape == (30, 20, 3)
    assert photograph(picture(6), longest_side=30).height == 60
    assert photograph(picture(6), longest_side=300).pixels.shape == (60, 40, 3)


def test_faults_are_told_of_the_file() -> None:
    with pytest.raises(InputError, match=r"card\.jpg: is not a whole JPEG"):
        photograph(b"nothing", where="card.jpg")
