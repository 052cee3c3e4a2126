"""The main colours of a photograph, by k-means in CIELAB.

A photograph is not a measurement: camera, light and screen all have their say. It is decoded and
searched in memory and kept nowhere.

Sources: Lloyd, S. P. (1982), Least squares quantization in PCM, IEEE Trans. Inf. Theory 28, for
k-means; Arthur, D., and Vassilvitskii, S. (2007), k-means++, Proc. SODA, for its starting places.
"""

import io
import struct
import warnings
import zlib
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np
import numpy.typing as npt

from fewtubes.colour.bands import FloatArray
from fewtubes.colour.difference import delta_e_2000
from fewtubes.colour.display import hex_to_lab, lab_to_hex
from fewtubes.errors import Fault, InputError

if TYPE_CHECKING:
    from PIL.Image import Image

__all__ = ["LARGEST_BYTES", "MOST_PIXELS", "MainColour", "Pixels", "decoded", "main_colours"]

Pixels = npt.NDArray[np.uint8]
"""sRGB, 0–255, shape (rows, columns, 3)."""

LARGEST_BYTES = 10 * 1024 * 1024
"""Size of a file; photographs of current cameras stay below."""

MOST_PIXELS = 50_000_000
"""Told by a file's head before anything is unpacked; 50 million unpack to 150 MB."""

FORMATS = ("JPEG", "PNG", "WEBP")

LONGEST_SIDE = 160
"""Pixels to which the longer side is reduced; colours of a petal survive that, noise does not."""

MIDDLE = 0.25
"""Share cut off on each side where only the middle is looked at."""

SEED = 1
"""Of the starting places; a fixed one finds the same colours every time."""

ROUNDS = 40
"""Of k-means; it settles in fewer as a rule."""

ALIKE = 5.0
"""Clusters nearer than this are one colour to a painter [ΔE00]; our own choice."""

LEAST_SHARE = 0.02
"""Smaller clusters are specks [0–1]; our own choice."""

WHERE = "photograph"

UNPACKING_ERRORS = (
    OSError, ValueError, SyntaxError, EOFError, IndexError, KeyError, TypeError, OverflowError,
    struct.error, zlib.error,
)  # fmt: skip
"""What decoders are known to raise over files that are cut short or made up."""


@dataclass(frozen=True)
class MainColour:
    """One of the colours that make up a photograph."""

    lab: tuple[float, float, float]
    """The cluster's mean, CIELAB (D65)."""
    hex: str
    share: float
    """Of the pixels looked at [0–1]."""


def decoded(data: bytes) -> Pixels:
    """Return a photograph reduced to at most `LONGEST_SIDE` pixels a side.

    Colours are brought to sRGB if the file says which others it has.

    Raises
    ------
    InputError
        If it is too large, or no JPEG, PNG or WebP picture.
    """
    from PIL import Image  # noqa: PLC0415

    if len(data) > LARGEST_BYTES:
        raise _fault("has more than 10 MB; save it smaller and try again.")
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")  # the size is checked here, and told in our own words
            with Image.open(io.BytesIO(data), formats=FORMATS) as image:
                if image.width * image.height > MOST_PIXELS:
                    raise _fault(_too_many(image.width, image.height))
                return _reduced(image)
    except Image.DecompressionBombError:
        raise _fault("has far too many pixels; save it smaller and try again.") from None
    except UNPACKING_ERRORS:
        raise _fault("is not a whole JPEG, PNG or WebP picture; choose another file.") from None


def main_colours(pixels: Pixels, *, most: int, middle_only: bool = False) -> tuple[MainColour, ...]:
    """Return the main colours, the one with the largest share first.

    Parameters
    ----------
    pixels
        The photograph, shape (rows, columns, 3).
    most
        Colours wanted; fewer are found where some are alike.
    middle_only
        Whether to leave out the outer quarter on each side.
    """
    looked_at = _middle(pixels) if middle_only else pixels
    lab = _srgb_to_lab(looked_at.reshape(-1, 3))
    centres, counts = _clusters(lab, min(most, len(np.unique(lab, axis=0))))
    centres, counts = _merged(centres, counts)
    found = [
        MainColour((L, a, b), lab_to_hex(np.array([L, a, b])), float(count / len(lab)))
        for (L, a, b), count in zip(centres.tolist(), counts.tolist(), strict=True)
    ]
    kept = (colour for colour in found if colour.share >= LEAST_SHARE)
    return tuple(sorted(kept, key=lambda colour: -colour.share))


def _reduced(image: "Image") -> Pixels:
    """Return the pixels of an opened picture; where it is see-through it counts as white."""
    from PIL import Image  # noqa: PLC0415

    image.draft("RGB", (4 * LONGEST_SIDE, 4 * LONGEST_SIDE))  # JPEG unpacks that small
    profile = image.info.get("icc_profile")
    image.thumbnail((LONGEST_SIDE, LONGEST_SIDE), Image.Resampling.BOX)
    if image.mode in {"RGBA", "LA", "PA"} or "transparency" in image.info:
        white = Image.new("RGBA", image.size, "white")
        shown = Image.alpha_composite(white, image.convert("RGBA")).convert("RGB")
    else:
        shown = image.convert("RGB")
    return np.asarray(_in_srgb(shown, profile), dtype=np.uint8)


def _in_srgb(image: "Image", profile: bytes | None) -> "Image":
    """Return the picture in sRGB; without a usable profile it counts as sRGB already."""
    from PIL import ImageCms  # noqa: PLC0415

    if not profile:
        return image
    try:
        source = ImageCms.ImageCmsProfile(io.BytesIO(profile))
        changed = ImageCms.profileToProfile(image, source, ImageCms.createProfile("sRGB"))
    except (ImageCms.PyCMSError, OSError, ValueError, TypeError):
        return image
    return image if changed is None else changed


def _middle(pixels: Pixels) -> Pixels:
    """Return the middle of a photograph, at least one pixel."""
    rows, columns = (round(MIDDLE * side) for side in pixels.shape[:2])
    return pixels[
        rows : pixels.shape[0] - rows or None, columns : pixels.shape[1] - columns or None
    ]


def _srgb_to_lab(srgb: Pixels) -> FloatArray:
    """Return CIELAB (D65) of pixels, shapes (n, 3); each colour is computed once."""
    packed = srgb.astype(np.uint32) @ np.array([1 << 16, 1 << 8, 1], dtype=np.uint32)
    colours, places = np.unique(packed, return_inverse=True)
    table = np.array([hex_to_lab(f"#{colour:06x}") for colour in colours.tolist()])
    return np.asarray(table[places])


def _clusters(lab: FloatArray, count: int) -> tuple[FloatArray, FloatArray]:
    """Return means and sizes of the clusters, shapes (clusters, 3) and (clusters,)."""
    from scipy.cluster.vq import kmeans2  # noqa: PLC0415

    with warnings.catch_warnings():
        warnings.simplefilter("ignore", UserWarning)  # an empty cluster is dropped below
        centres, labels = kmeans2(lab, _starts(lab, count), iter=ROUNDS, minit="matrix")
    counts = np.bincount(labels, minlength=count)
    return centres[counts > 0], counts[counts > 0].astype(np.float64)


def _starts(lab: FloatArray, count: int) -> FloatArray:
    """Return starting places by k-means++, shape (count, 3)."""
    random = np.random.default_rng(SEED)
    chosen = [lab[random.integers(len(lab))]]
    nearest = ((lab - chosen[0]) ** 2).sum(axis=1)
    while len(chosen) < count:
        chosen.append(lab[random.choice(len(lab), p=nearest / nearest.sum())])
        nearest = np.minimum(nearest, ((lab - chosen[-1]) ** 2).sum(axis=1))
    return np.array(chosen)


def _merged(centres: FloatArray, counts: FloatArray) -> tuple[FloatArray, FloatArray]:
    """Return the clusters after the two most alike were made one, until none are alike."""
    while len(centres) > 1:
        apart = delta_e_2000(centres[:, None], centres[None])
        apart[np.diag_indices(len(centres))] = np.inf
        one, other = sorted(int(place) for place in np.unravel_index(apart.argmin(), apart.shape))
        if apart[one, other] >= ALIKE:
            break
        weights = counts[[one, other]]
        centres[one] = weights @ centres[[one, other]] / weights.sum()
        counts[one] = weights.sum()
        centres, counts = np.delete(centres, other, axis=0), np.delete(counts, other)
    return centres, counts


def _too_many(width: int, height: int) -> str:
    return (
        f"has {width:,} × {height:,} pixels; at most {MOST_PIXELS // 1_000_000} million are"
        " allowed, so save it smaller and try again."
    )


def _fault(what: str) -> InputError:
    return InputError([Fault(WHERE, what)])
