"""The main colours of a photograph, and files that only pretend to be one."""

import io
import struct
import zlib

import numpy as np
import pytest
from PIL import Image, ImageCms

from fewtubes.colour.difference import delta_e_2000
from fewtubes.colour.display import hex_to_lab
from fewtubes.colour.photograph import (
    LARGEST_BYTES,
    LONGEST_SIDE,
    MOST_PIXELS,
    Pixels,
    decoded,
    main_colours,
)
from fewtubes.errors import InputError

GREEN, PINK, YELLOW = (60, 110, 50), (200, 40, 110), (240, 200, 40)


def petals(noise: float = 0.0) -> Pixels:
    """Return a pink square on green with a yellow heart: 70, 26 and 4 hundredths."""
    picture = np.empty((100, 100, 3), dtype=np.float64)
    picture[:] = GREEN
    picture[20:80, 25:75] = PINK  # 60 × 50 = 3,000 of 10,000, of which 400 are
    picture[40:60, 40:60] = YELLOW  # 20 × 20
    picture += np.random.default_rng(0).normal(0, 1, picture.shape) * noise
    return np.clip(picture, 0, 255).astype(np.uint8)


def stored(pixels: Pixels, kind: str, **options: object) -> bytes:
    """Return the picture as a file."""
    out = io.BytesIO()
    Image.fromarray(pixels).save(out, kind, **options)
    return out.getvalue()


def png(width: int, height: int) -> bytes:
    """Return a PNG file that claims a size and holds next to nothing."""

    def chunk(kind: bytes, data: bytes) -> bytes:
        return (
            struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))
        )

    head = struct.pack(">IIBBBBB", width, height, 8, 2, 0, 0, 0)
    body = chunk(b"IHDR", head) + chunk(b"IDAT", zlib.compress(bytes(1000))) + chunk(b"IEND", b"")
    return b"\x89PNG\r\n\x1a\n" + body


def test_flat_colours_are_found_exactly() -> None:
    found = main_colours(petals(), most=6)
    # Shares by counting the squares of `petals`; k-means on three points must find the points.
    assert [(c.hex, round(c.share, 4)) for c in found] == [
        ("#3c6e32", 0.7),
        ("#c8286e", 0.26),
        ("#f0c828", 0.04),
    ]


def test_noise_and_compression_leave_the_colours_in_place() -> None:
    found = main_colours(decoded(stored(petals(8), "JPEG", quality=90)), most=6)
    wanted = np.array([hex_to_lab(text) for text in ("#3c6e32", "#c8286e", "#f0c828")])
    labs = np.array([colour.lab for colour in found])
    nearest = delta_e_2000(wanted[:, None], labs[None]).min(axis=1)
    # Under 3 no painter sees another colour; own cut-off, three times what was seen (about 1).
    assert (nearest < 3).all()


def test_shares_add_up_to_what_is_no_speck() -> None:
    found = main_colours(petals(20), most=8)
    assert 0.9 < sum(colour.share for colour in found) <= 1 + 1e-12
    assert [c.share for c in found] == sorted((c.share for c in found), reverse=True)


def test_the_same_photograph_gives_the_same_colours() -> None:
    assert main_colours(petals(25), most=6) == main_colours(petals(25), most=6)


def test_clusters_are_not_alike() -> None:
    found = main_colours(petals(30), most=12)
    labs = np.array([colour.lab for colour in found])
    apart = delta_e_2000(labs[:, None], labs[None]) + 100 * np.eye(len(labs))
    assert apart.min() >= 5


def test_the_middle_leaves_out_the_background() -> None:
    found = main_colours(petals(), most=6, middle_only=True)
    assert [colour.hex for colour in found] == ["#c8286e", "#f0c828"]


@pytest.mark.parametrize("shape", [(1, 1, 3), (1, 7, 3), (3, 2, 3)])
def test_a_speck_of_one_colour(shape: tuple[int, int, int]) -> None:
    pixels = np.full(shape, 128, dtype=np.uint8)
    for middle in (False, True):
        (colour,) = main_colours(pixels, most=6, middle_only=middle)
        assert (colour.hex, colour.share) == ("#808080", 1.0)


@pytest.mark.parametrize("kind", ["JPEG", "PNG", "WEBP"])
def test_files_are_reduced(kind: str) -> None:
    large = np.asarray(Image.fromarray(petals()).resize((900, 600)))
    pixels = decoded(stored(large, kind))
    assert max(pixels.shape[:2]) <= LONGEST_SIDE
    assert pixels.shape[1] / pixels.shape[0] == pytest.approx(1.5, rel=0.02)


def test_where_a_picture_is_see_through_it_is_white() -> None:
    clear = np.zeros((10, 10, 4), dtype=np.uint8)
    assert (decoded(stored(clear, "PNG")) == 255).all()


@pytest.mark.parametrize("mode", ["L", "P", "CMYK", "1", "I;16"])
def test_other_kinds_of_pixels(mode: str) -> None:
    grey = Image.new(mode, (30, 20))
    out = io.BytesIO()
    grey.save(out, "JPEG" if mode == "CMYK" else "PNG")
    assert decoded(out.getvalue()).shape == (20, 30, 3)


def test_a_profile_is_heeded() -> None:
    # An L*a*b* profile is no use for RGB pixels; a broken one neither: both leave the pixels alone.
    profile = ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes()
    plain = decoded(stored(petals(), "PNG"))
    assert (
        np.abs(decoded(stored(petals(), "PNG", icc_profile=profile)) - plain.astype(int)).max() <= 1
    )
    assert (decoded(stored(petals(), "PNG", icc_profile=b"nonsense")) == plain).all()


@pytest.mark.parametrize(
    "data",
    [
        b"",
        b"hello",
        b"GIF89a" + bytes(100),
        b"<svg xmlns='http://www.w3.org/2000/svg'/>",
        b"\x89PNG\r\n\x1a\n",
        stored(petals(), "JPEG")[:400],
        stored(petals(), "PNG")[:200],
        stored(petals(), "BMP"),
        stored(petals(), "GIF"),
    ],
)
def test_what_is_no_photograph(data: bytes) -> None:
    with pytest.raises(InputError, match="JPEG, PNG or WebP"):
        decoded(data)


@pytest.mark.parametrize(("width", "height"), [(8000, 8000), (20_000, 20_000), (2**31 - 1, 1)])
def test_a_bomb_is_told_by_its_head(width: int, height: int) -> None:
    assert width * height > MOST_PIXELS
    with pytest.raises(InputError, match="pixels"):
        decoded(png(width, height))


def test_a_file_that_is_too_large() -> None:
    with pytest.raises(InputError, match="10 MB"):
        decoded(bytes(LARGEST_BYTES + 1))
