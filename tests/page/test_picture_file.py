"""Picture files: every kind is unpacked, reduced and paid for, and what is none is told."""

import io
import struct
import subprocess
import sys
import zlib
from pathlib import Path

import numpy as np
import pytest
from PIL import Image, ImageCms

from fewtubes.colour.picture_file import LARGEST_BYTES, LONGEST_SIDE, MOST_PIXELS, Pixels, decoded
from fewtubes.errors import InputError

STRIPES: Pixels = np.full((100, 100, 3), (60, 110, 50), dtype=np.uint8)
STRIPES[20:80, 25:75] = (200, 40, 110)

PEAK = """
import sys
from fewtubes.colour.picture_file import decoded
def kilobytes(key):
    return int(next(l for l in open("/proc/self/status") if l.startswith(key)).split()[1])
data = open(sys.argv[1], "rb").read()
before = kilobytes("VmRSS")
decoded(data)
print(kilobytes("VmHWM") - before)
"""
"""Prints by how much the memory of a process grows at most while it unpacks a file [KiB]."""

MOST_GROWTH = 320
"""What one picture may take [MiB]: what `MOST_PIXELS` promises, and the module Pillow itself."""


def saved(image: Image.Image, kind: str, **options: object) -> bytes:
    """Return a picture as a file."""
    out = io.BytesIO()
    image.save(out, kind, **options)
    return out.getvalue()


def stored(pixels: Pixels, kind: str, **options: object) -> bytes:
    """Return the picture as a file."""
    return saved(Image.fromarray(pixels), kind, **options)


def icc(space: bytes, tags: dict[bytes, bytes]) -> bytes:
    """Return a display profile of version 2 (ICC.1:2001-04, sections 6.1 and 6.2)."""
    count, offset, table, body = len(tags), 128 + 4 + 12 * len(tags), b"", b""
    for name, data in tags.items():
        table += name + struct.pack(">II", offset + len(body), len(data))
        body += data + bytes(-len(data) % 4)
    d50 = struct.pack(">iii", 63190, 65536, 54061)  # 0.9642, 1, 0.8249 as s15Fixed16 (6.1.11)
    head = struct.pack(">I4sI4s4s4s", offset + len(body), b"", 0x02400000, b"mntr", space, b"XYZ ")
    rest = bytes(12) + b"acsp" + bytes(28) + d50
    head = head + rest + bytes(128 - len(head) - len(rest))
    return head + struct.pack(">I", count) + table + body


def png(width: int, height: int) -> bytes:
    """Return a PNG file that claims a size and holds next to nothing."""

    def chunk(kind: bytes, data: bytes) -> bytes:
        return (
            struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))
        )

    head = struct.pack(">IIBBBBB", width, height, 8, 2, 0, 0, 0)
    body = chunk(b"IHDR", head) + chunk(b"IDAT", zlib.compress(bytes(1000))) + chunk(b"IEND", b"")
    return b"\x89PNG\r\n\x1a\n" + body


@pytest.mark.parametrize("kind", ["JPEG", "PNG", "WEBP"])
def test_files_are_reduced(kind: str) -> None:
    large = np.asarray(Image.fromarray(STRIPES).resize((900, 600)))
    pixels = decoded(stored(large, kind))
    assert max(pixels.shape[:2]) <= LONGEST_SIDE
    assert pixels.shape[1] / pixels.shape[0] == pytest.approx(1.5, rel=0.02)


def test_where_a_picture_is_see_through_it_is_white() -> None:
    clear = np.zeros((10, 10, 4), dtype=np.uint8)
    assert (decoded(stored(clear, "PNG")) == 255).all()


@pytest.mark.parametrize("mode", ["L", "P", "CMYK", "1", "I;16", "LA", "RGBA"])
@pytest.mark.parametrize(("width", "height"), [(30, 20), (600, 400), (40_000, 1), (1, 40_000)])
def test_other_kinds_of_pixels(mode: str, width: int, height: int) -> None:
    kind = "JPEG" if mode == "CMYK" else "PNG"
    pixels = decoded(saved(Image.new(mode, (width, height)), kind))
    scale = min(1, LONGEST_SIDE / max(width, height))
    assert pixels.shape == (max(1, round(height * scale)), max(1, round(width * scale)), 3)


def test_a_profile_is_heeded() -> None:
    # An L*a*b* profile is no use for RGB pixels; a broken one neither: both leave the pixels alone.
    profile = ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes()
    plain = decoded(stored(STRIPES, "PNG"))
    assert (
        np.abs(decoded(stored(STRIPES, "PNG", icc_profile=profile)) - plain.astype(int)).max() <= 1
    )
    assert (decoded(stored(STRIPES, "PNG", icc_profile=b"nonsense")) == plain).all()


@pytest.mark.parametrize(
    "data",
    [
        b"",
        b"hello",
        b"GIF89a" + bytes(100),
        b"<svg xmlns='http://www.w3.org/2000/svg'/>",
        b"\x89PNG\r\n\x1a\n",
        stored(STRIPES, "JPEG")[:400],
        stored(STRIPES, "PNG")[:200],
        stored(STRIPES, "BMP"),
        stored(STRIPES, "GIF"),
    ],
)
def test_what_is_no_photograph(data: bytes) -> None:
    with pytest.raises(InputError, match="JPEG, PNG or WebP"):
        decoded(data)


def test_a_profile_of_greys_is_heeded() -> None:
    # A grey whose signal is the light itself: 128 of 255 is half the light, which sRGB writes as
    # 1.055 · 0.50196^(1/2.4) − 0.055 = 0.7366, 188 of 255 (IEC 61966-2-1, section 5.2).
    straight = b"curv" + bytes(4) + struct.pack(">I", 0)
    white = b"XYZ " + bytes(4) + struct.pack(">iii", 63190, 65536, 54061)
    profile = icc(b"GRAY", {b"wtpt": white, b"kTRC": straight})
    for mode, colour in (("L", 128), ("LA", (128, 255)), ("I;16", 128 * 257)):
        data = saved(Image.new(mode, (400, 10), colour), "PNG", icc_profile=profile)
        assert np.abs(decoded(data).astype(int) - 188).max() <= 1
    # Told of a coloured picture it says nothing.
    plain = decoded(stored(STRIPES, "PNG"))
    assert (decoded(stored(STRIPES, "PNG", icc_profile=profile)) == plain).all()


def test_grey_in_sixteen_bits_keeps_its_lightness() -> None:
    for side in (20, 500):
        data = saved(Image.fromarray(np.full((side, side), 0x8123, dtype=np.uint16)), "PNG")
        assert (decoded(data) == 0x81).all()


@pytest.mark.parametrize("mode", ["1", "P", "RGBA", "RGB"])
def test_fine_patterns_are_averaged(mode: str) -> None:
    # Half the points black and half white, or clear: seen from afar half of 255.
    board = np.indices((640, 640)).sum(axis=0) % 2 * 255
    image = Image.fromarray(board.astype(np.uint8)).convert("1" if mode == "1" else "L")
    if mode == "RGBA":
        image = Image.merge("RGBA", [Image.new("L", image.size)] * 3 + [image])
    data = saved(image.convert(mode), "PNG")
    assert np.abs(decoded(data).astype(int) - 127.5).max() <= 1


@pytest.mark.parametrize("kind", ["PNG", "WEBP", "MPO"])
def test_of_several_pictures_the_first_is_taken(kind: str) -> None:
    first, second = (Image.new("RGB", (300, 200), colour) for colour in ("white", "black"))
    data = saved(first, kind, save_all=True, append_images=[second])
    assert (decoded(data) == 255).all()


def test_a_picture_on_its_side_has_the_same_colours() -> None:
    exif = Image.Exif()
    exif[0x0112] = 6  # orientation: turn by 90° (Exif 2.32, table 4)
    turned = decoded(saved(Image.fromarray(STRIPES), "PNG", exif=exif))
    assert {*map(tuple, turned.reshape(-1, 3))} == {*map(tuple, STRIPES.reshape(-1, 3))}


@pytest.mark.parametrize(
    ("kind", "width", "height", "told"),
    [
        ("PNG", 8000, 8000, "8,000 × 8,000 pixels; a PNG picture may have at most 50 million"),
        ("PNG", 20_000, 20_000, "pixels"),
        ("PNG", 2**31 - 1, 1, "pixels"),
        ("JPEG", 8000, 8000, "a JPEG picture may have at most 50 million"),
        ("WEBP", 4001, 4000, "a WebP picture may have at most 16 million, so save it smaller or"),
    ],
)
def test_a_bomb_is_told_by_its_head(kind: str, width: int, height: int, told: str) -> None:
    assert width * height > MOST_PIXELS[kind]
    data = png(width, height)
    if kind != "PNG":
        data = saved(Image.new("L", (width, height)), kind, **FAST.get(kind, {}))
    with pytest.raises(InputError, match=told):
        decoded(data)


FAST: dict[str, dict[str, object]] = {"WEBP": {"lossless": True, "method": 0, "quality": 0}}


@pytest.mark.skipif(not Path("/proc/self/status").exists(), reason="the system tells no peak")
@pytest.mark.parametrize(
    ("kind", "mode", "side", "options"),
    [
        ("PNG", "RGBA", 7000, {"compress_level": 1}),
        ("JPEG", "RGB", 7000, {"progressive": True}),
        ("WEBP", "RGB", 4000, FAST["WEBP"]),
    ],
)
def test_the_largest_pictures_take_little_memory(
    tmp_path: Path, kind: str, mode: str, side: int, options: dict[str, object]
) -> None:
    file = tmp_path / "picture"
    file.write_bytes(saved(Image.new(mode, (side, side)), kind, **options))
    done = subprocess.run(  # noqa: S603
        [sys.executable, "-c", PEAK, str(file)], capture_output=True, text=True, check=True
    )
    assert int(done.stdout) / 1024 < MOST_GROWTH


def test_little_memory_is_told(monkeypatch: pytest.MonkeyPatch) -> None:
    def none_left(*_: object) -> None:
        raise MemoryError

    monkeypatch.setattr(Image.Image, "crop", none_left)
    with pytest.raises(InputError, match="more memory than this machine has left"):
        decoded(stored(STRIPES, "PNG"))


def test_a_file_that_is_too_large() -> None:
    with pytest.raises(InputError, match="10 MB"):
        decoded(bytes(LARGEST_BYTES + 1))
