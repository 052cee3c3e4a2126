"""A picture file, unpacked in memory and reduced at once.

What a file may cost is told by its head, before anything is unpacked. Of the pixels as they stand
in the file only a tile at a time is brought to another kind, so that the whole picture is held
once at most, and a JPEG not even that.
"""

import io
import struct
import warnings
import zlib
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np
import numpy.typing as npt

from fewtubes.errors import Fault, InputError

if TYPE_CHECKING:
    from PIL.Image import Image

__all__ = [
    "LARGEST_BYTES",
    "LONGEST_SIDE",
    "MOST_PIXELS",
    "WHERE",
    "Photograph",
    "Pixels",
    "decoded",
    "photograph",
]

Pixels = npt.NDArray[np.uint8]
"""sRGB, 0–255, shape (rows, columns, 3)."""

LARGEST_BYTES = 10 * 1024 * 1024
"""Size of a file; photographs of current cameras stay below."""

MOST_PIXELS = {"JPEG": 50_000_000, "PNG": 50_000_000, "WEBP": 16_000_000}
"""By kind of file, so that unpacking takes no more than about 300 MB.

Measured: a PNG takes 4 bytes a pixel, a JPEG next to nothing unless it is progressive (6 bytes, 8
in four inks, for its coefficients), a WebP 16 bytes (several canvases).
"""

SPOKEN = {"JPEG": "JPEG", "PNG": "PNG", "WEBP": "WebP"}
"""What each kind is called."""

LONGEST_SIDE = 160
"""Pixels to which the longer side is reduced; colours of a petal survive that, noise does not."""

TILE = 1024
"""Longest side of what is brought to another kind at a time, in pixels of the file."""

WHERE = "photograph"

UNPACKING_ERRORS = (
    OSError, ValueError, SyntaxError, EOFError, IndexError, KeyError, TypeError, OverflowError,
    struct.error, zlib.error,
)  # fmt: skip
"""What decoders are known to raise over files that are cut short or made up."""

WIDE_GREYS = frozenset({"I", "I;16", "I;16L", "I;16B"})
"""Pillow's names for grey in 16 bits."""

GREYS = WIDE_GREYS | {"1", "L", "LA"}

KEPT_APART = "CMYK"
"""Four inks stay four until their profile has spoken."""

ORIENTATION = 0x0112
"""Tag that tells how the camera was held (Exif 2.32, 4.6.4)."""

TURNS = {
    2: (0, True),
    3: (2, False),
    4: (2, True),
    5: (3, True),
    6: (3, False),
    7: (1, True),
    8: (1, False),
}
"""By orientation: quarter turns to the left that set a picture upright, and whether it is to be
mirrored from left to right then."""


@dataclass(frozen=True, eq=False)
class Photograph:
    """A picture upright and reduced, and the size it had."""

    pixels: Pixels
    width: int
    """Of the file's picture, upright [pixels]."""
    height: int
    """Of the file's picture, upright [pixels]."""


def decoded(data: bytes) -> Pixels:
    """Return a photograph reduced to at most `LONGEST_SIDE` pixels a side; see `photograph`."""
    return photograph(data).pixels


def photograph(data: bytes, *, longest_side: int = LONGEST_SIDE, where: str = WHERE) -> Photograph:
    """Return a photograph upright, its longer side reduced to at most `longest_side` pixels.

    Colours are brought to sRGB if the file says which others it has; where it is see-through it
    counts as white; of moving pictures the first is taken.

    Parameters
    ----------
    data
        The content of the file.
    longest_side
        Of what is returned [pixels].
    where
        What a fault is told of.

    Raises
    ------
    InputError
        If it is too large, or no JPEG, PNG or WebP picture.
    """
    try:
        return _unpacked(data, longest_side)
    except InputError as error:
        raise InputError([Fault(where, fault.what) for fault in error.faults]) from None


def _unpacked(data: bytes, longest_side: int) -> Photograph:
    from PIL import Image

    if len(data) > LARGEST_BYTES:
        raise _fault("has more than 10 MB; save it smaller and try again.")
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")  # the size is checked here, and told in our own words
            with Image.open(io.BytesIO(data), formats=tuple(MOST_PIXELS)) as image:
                _check_size(image)
                return _upright(image, longest_side)
    except Image.DecompressionBombError:
        raise _fault("has far too many pixels; save it smaller and try again.") from None
    except MemoryError:
        what = "takes more memory than this machine has left; save it smaller and try again."
        raise _fault(what) from None
    except UNPACKING_ERRORS:
        raise _fault("is not a whole JPEG, PNG or WebP picture; choose another file.") from None


def _check_size(image: "Image") -> None:
    """Raise a fault if a picture that is not unpacked yet has more pixels than its kind may."""
    kind = image.format if image.format in MOST_PIXELS else "JPEG"  # or several JPEGs in one file
    most = MOST_PIXELS[kind]
    if image.width * image.height <= most:
        return
    smaller = (
        "save it smaller" if most == max(MOST_PIXELS.values()) else "save it smaller or as JPEG"
    )
    raise _fault(
        f"has {image.width:,} × {image.height:,} pixels; a {SPOKEN[kind]} picture may have at most"
        f" {most // 1_000_000} million, so {smaller} and try again."
    )


def _upright(image: "Image", longest_side: int) -> Photograph:
    """Return an opened picture reduced and turned as the camera was held."""
    turns, mirrored = TURNS.get(_orientation(image), (0, False))
    width, height = image.size
    pixels = np.rot90(np.asarray(_reduced(image, longest_side), dtype=np.uint8), turns)
    if turns % 2:
        width, height = height, width
    upright = pixels[:, ::-1] if mirrored else pixels
    return Photograph(np.ascontiguousarray(upright), width, height)


def _orientation(image: "Image") -> int:
    """Return how the camera was held, 1 (upright) where nothing readable tells."""
    try:
        told = image.getexif().get(ORIENTATION, 1)
    except UNPACKING_ERRORS:
        return 1
    return told if isinstance(told, int) else 1


def _reduced(image: "Image", longest_side: int) -> "Image":
    """Return an opened picture in sRGB, its longer side at most `longest_side`."""
    from PIL import Image

    finest = max(4 * LONGEST_SIDE, longest_side)
    image.draft("RGB", (finest, finest))  # JPEG unpacks that small
    image.load()
    profile = image.info.get("icc_profile")
    factor = max(1, max(image.size) // longest_side)
    width, height = (-(-side // factor) for side in image.size)
    mode = KEPT_APART if image.mode == KEPT_APART else "RGB"
    small = Image.new(mode, (width, height))
    step = factor * max(1, TILE // factor)
    for top in range(0, image.height, step):
        for left in range(0, image.width, step):
            right, bottom = min(left + step, image.width), min(top + step, image.height)
            tile = _opaque(image.crop((left, top, right, bottom)))
            small.paste(tile.reduce(factor), (left // factor, top // factor))
    small.thumbnail((longest_side, longest_side), Image.Resampling.BOX)
    return _in_srgb(small, profile, was_grey=image.mode in GREYS)


def _opaque(tile: "Image") -> "Image":
    """Return a piece of a picture in RGB, or in its four inks; see-through parts become white."""
    from PIL import Image

    if tile.mode == KEPT_APART:
        return tile
    if tile.mode in WIDE_GREYS:  # Pillow would cut off what is above 255 instead of scaling it
        return Image.fromarray((np.asarray(tile) >> 8).astype(np.uint8)).convert("RGB")
    if tile.mode in {"RGBA", "LA", "PA"} or "transparency" in tile.info:
        white = Image.new("RGBA", tile.size, "white")
        return Image.alpha_composite(white, tile.convert("RGBA")).convert("RGB")
    return tile.convert("RGB")


def _in_srgb(image: "Image", profile: bytes | None, *, was_grey: bool) -> "Image":
    """Return the picture in sRGB; without a profile of its own kind it counts as sRGB already."""
    from PIL import ImageCms

    if not profile:
        return image.convert("RGB")
    spoken_of = image.convert("L") if was_grey else image
    for told in (spoken_of, image):  # a grey picture may have a profile of colours, too
        try:
            source = ImageCms.ImageCmsProfile(io.BytesIO(profile))
            target = ImageCms.createProfile("sRGB")
            changed = ImageCms.profileToProfile(told, source, target, outputMode="RGB")
        except (ImageCms.PyCMSError, OSError, ValueError, TypeError):
            continue
        if changed is not None:
            return changed
    return image.convert("RGB")


def _fault(what: str) -> InputError:
    return InputError([Fault(WHERE, what)])
