"""A card painted and photographed by computation, for tests and benchmarks.

What a camera does to a card, step by step in linear light: the sheet as printed, paint in its
boxes, light that falls off over the card and has a colour, perspective, a little blur, noise of
the sensor, and a JPEG file. All figures are our own invention, of the size that cameras of
telephones have.
"""

import io
from collections.abc import Mapping
from dataclasses import dataclass
from functools import partial
from typing import Any

import numpy as np

from fewtubes.card.arrangement import PAPER_SIZES
from fewtubes.card.drawing import sheet_pixels
from fewtubes.card.layout import CardLayout, Rectangle, Sheet
from fewtubes.colour.bands import FloatArray
from fewtubes.colour.display import linear_to_srgb, srgb_to_linear
from fewtubes.colour.picture_file import Pixels

DOTS_PER_MM = 6.0

EXPOSURE = 0.92
"""Linear level that a perfect white in the brightest light would reach with a channel of 1."""

READ_NOISE, SHOT_NOISE = 0.0008, 0.008
"""Of the sensor at black, and of its square root law at white; in linear light."""


@dataclass(frozen=True)
class Shot:
    """How a card is photographed."""

    channels: tuple[float, float, float] = (1.05, 1.0, 0.86)
    """Colour of the light: red, green, blue."""
    darkest: float = 0.7
    """Light in the darkest corner, 1 in the brightest."""
    exposure: float = EXPOSURE
    blur: float = 1.0
    """Standard deviation [pixels of the photograph]."""
    tilt: float = 0.06
    """By which the far corners lie closer together, as a share of the picture."""
    quarter_turns: int = 0
    """The camera is turned by so many."""
    width: int = 1800
    """Of the photograph before it is turned [pixels]."""
    patchiness: float = 0.03
    """Of a wash from place to place, relative."""
    seed: int = 1
    quality: int = 90
    noise: float = 1.0
    """Factor on the noise of the sensor."""


Painted = Mapping[tuple[int, int], FloatArray]
"""Linear sRGB of a box by row and place in the row, counted from 0; shape (3,), not held to 0–1."""


def painted_sheet(
    card: CardLayout,
    sheet: Sheet,
    colours: Painted,
    paper: FloatArray,
    *,
    seed: int = 1,
    patchiness: float = 0.03,
    dots_per_mm: float = DOTS_PER_MM,
) -> FloatArray:
    """Return a painted sheet in linear sRGB, shape (rows, columns, 3).

    A box that has no colour stays bare. The stroke over black goes on over the paper beside it in
    the colour of the first box.
    """
    drawn = srgb_to_linear(sheet_pixels(sheet, card, dots_per_mm=dots_per_mm).astype(float) / 255)
    seen = drawn * paper
    bare_black = 0.04
    seen = np.maximum(seen, bare_black)
    random = np.random.default_rng(seed)
    for (row, place), colour in colours.items():
        box = sheet.rows[row].boxes[place]
        fill = partial(_fill, seen, dots_per_mm=dots_per_mm, random=random, patchiness=patchiness)
        fill(box.rectangle, colour)
        for stroke in box.stroke:
            fill(stroke, colours[row, 0])
    return seen


def _fill(
    seen: FloatArray,
    place: Rectangle,
    colour: FloatArray,
    *,
    dots_per_mm: float,
    random: np.random.Generator,
    patchiness: float,
) -> None:
    """Paint a place, a little more here and a little less there, with a darker rim."""
    left, top = round(place.left * dots_per_mm), round(place.top * dots_per_mm)
    right = round((place.left + place.width) * dots_per_mm)
    bottom = round((place.top + place.height) * dots_per_mm)
    coarse = random.normal(size=(4, 5))
    rows = np.linspace(0, 3, bottom - top)
    columns = np.linspace(0, 4, right - left)
    smooth = np.array([np.interp(columns, np.arange(5), line) for line in coarse])
    smooth = np.array([np.interp(rows, np.arange(4), line) for line in smooth.T]).T
    smooth -= smooth.mean()
    rim = round(0.8 * dots_per_mm)
    smooth = 1 + patchiness * smooth
    inner = np.full_like(smooth, 0.85)
    inner[rim:-rim, rim:-rim] = 1.0
    seen[top:bottom, left:right] = colour * (smooth * inner)[..., None]


def photographed(sheet: FloatArray, shot: Shot | None = None) -> bytes:
    """Return the photograph of a painted sheet as a JPEG file.

    Parameters
    ----------
    sheet
        Linear sRGB, shape (rows, columns, 3).
    shot
        How it is taken.
    """
    shot = shot or Shot()
    seen = _projected(sheet * _light(sheet.shape, shot), shot)
    return as_jpeg(_recorded(seen, shot), quality=shot.quality)


def _light(shape: tuple[int, ...], shot: Shot) -> FloatArray:
    """Return the light over the sheet, falling off as from a window at the top left."""
    y, x = np.mgrid[0 : 1 : shape[0] * 1j, 0 : 1 : shape[1] * 1j]
    off = (0.55 * x + 0.45 * y) ** 1.3
    falling = 1 - (1 - shot.darkest) * off
    return np.asarray(falling[..., None] * np.array(shot.channels))


def _projected(seen: FloatArray, shot: Shot) -> FloatArray:
    """Return the sheet as the camera sees it, on a table of grey wood."""
    import cv2

    rows, columns = seen.shape[:2]
    width = shot.width
    height = round(width * rows / columns)
    edge = 0.03 * width
    lean = shot.tilt * width
    corners = np.array(
        [
            [edge + lean, edge],
            [width - edge - 0.6 * lean, edge + 0.3 * lean],
            [width - edge, height - edge],
            [edge, height - edge - 0.5 * lean],
        ],
        dtype=np.float32,
    )
    sheet = np.array([[0, 0], [columns, 0], [columns, rows], [0, rows]], dtype=np.float32)
    matrix = cv2.getPerspectiveTransform(sheet, corners)
    table = np.array([0.20, 0.15, 0.10]) * shot.channels
    warped = cv2.warpPerspective(
        seen.astype(np.float32),
        matrix,
        (width, height),
        flags=cv2.INTER_AREA,
        borderMode=cv2.BORDER_CONSTANT,
        borderValue=tuple(float(value) for value in table),
    )
    if shot.blur:
        warped = cv2.GaussianBlur(warped, (0, 0), shot.blur)
    return np.rot90(np.asarray(warped, dtype=np.float64), shot.quarter_turns)


def _recorded(seen: FloatArray, shot: Shot) -> Pixels:
    """Return the levels of sRGB that the camera makes of linear light."""
    random = np.random.default_rng(shot.seed)
    light = np.maximum(seen * shot.exposure, 0.0)
    noise = shot.noise * np.hypot(READ_NOISE, SHOT_NOISE * np.sqrt(light))
    recorded = np.clip(light + noise * random.standard_normal(light.shape), 0.0, 1.0)
    return np.rint(255 * linear_to_srgb(recorded)).astype(np.uint8)


def as_jpeg(levels: Pixels, *, quality: int = 90, **options: Any) -> bytes:
    """Return a picture as a JPEG file."""
    from PIL import Image

    stream = io.BytesIO()
    Image.fromarray(levels).save(stream, "JPEG", quality=quality, **options)
    return stream.getvalue()


def scanned(sheet: FloatArray) -> bytes:
    """Return a scan of a sheet as a PNG file: even white light, nothing askew."""
    from PIL import Image

    stream = io.BytesIO()
    levels = np.rint(255 * linear_to_srgb(np.clip(sheet, 0.0, 1.0))).astype(np.uint8)
    Image.fromarray(levels).save(stream, "PNG")
    return stream.getvalue()


__all__ = [
    "PAPER_SIZES",
    "Painted",
    "Shot",
    "as_jpeg",
    "painted_sheet",
    "photographed",
    "scanned",
]
