"""A picture file, unpacked in memory and reduced at once.

What a file may cost is told by its head, before anything is unpacked. Of the pixels as they stand
in the file only a tile at a time is brought to another kind, so that the whole picture is held
once at most, and a JPEG not even that.
"""

import io
import struct
import warnings
import zlib
from typing import TYPE_CHECKING

import numpy as np
import numpy.typing as npt

from fewtubes.errors import Fault, InputError

if TYPE_CHECKING:
    from PIL.Image import Image

__all__ = ["LARGEST_BYTES", "LONGEST_SIDE", "MOST_PIXELS", "WHERE", "Pixels", "decoded"]

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


def decoded(data: bytes) -> Pixels:
    """Return a photograph reduced to at most `LONGEST_SIDE` pixels a side.

    Colours are brought to sRGB if the file says which others it has; where it is see-through it
    counts as white; of moving pictures the first is taken.

    Raises
    ------
    InputError
        If it is too large, or no JPEG, PNG or WebP picture.
    """
    from PIL import Image

    if len(data) > LARGEST_BYTES:
        raise _fault("has more than 10 MB; save it smaller and try again.")
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")  # the size is checked here, and told in our own words
            with Image.open(io.BytesIO(data), formats=tuple(MOST_PIXELS)) as image:
                _check_size(image)
                return np.asarray(_reduced(image), dtype=np.uint8)
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


def _reduced(image: "Image") -> "Image":
    """Return an opened picture in sRGB, its longer side at most `LONGEST_SIDE`."""
    from PIL import Image

    image.draft("RGB", (4 * LONGEST_SIDE, 4 * LONGEST_SIDE))  # JPEG unpacks that small
    image.load()
    profile = image.info.get("icc_profile")
    factor = max(1, max(image.size) // LONGEST_SIDE)
    width, height = (-(-side // factor) for side in image.size)
    mode = KEPT_APART if image.mode == KEPT_APART else "RGB"
    small = Image.new(mode, (width, height))
    step = factor * max(1, TILE // factor)
    for top in range(0, image.height, step):
        for left in range(0, image.width, step):
            right, bottom = min(left + step, image.width), min(top + step, image.height)
            tile = _opaque(image.crop((left, top, right, bottom)))
            small.paste(tile.reduce(factor), (left // factor, top // factor))
    small.thumbnail((LONGEST_SIDE, LONGEST_SIDE), Image.Resampling.BOX)
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
