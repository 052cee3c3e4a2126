"""Invented photographs of flowers whose colours are known.

Six petals run from a deep base to a pale edge, straight in CIELAB, with a leaf below; gaps between
petals are dark, and glints lie on them. Backgrounds, noise and blur are our own invention.
"""

import io
from dataclasses import dataclass

import numpy as np
from PIL import Image, ImageFilter

from fewtubes.colour.bands import FloatArray
from fewtubes.colour.display import lab_to_srgb
from fewtubes.colour.picture_file import Pixels

BACKGROUNDS = ("white paper", "dark cloth", "blurred green", "table")

PALE, DEEP = (88.0, 18.0, -4.0), (42.0, 58.0, 2.0)
"""A pink petal: its edge and its base, CIELAB; within sRGB."""

LEAF = (46.0, -26.0, 28.0)


@dataclass(frozen=True)
class Painted:
    """How a picture is painted."""

    background: str = "white paper"
    pale: tuple[float, float, float] = PALE
    deep: tuple[float, float, float] = DEEP
    radius: float = 0.36
    """Length of a petal, as a share of the shorter side."""
    side: int = 480
    """Of the picture [pixels]."""
    noise: float = 4.0
    """Standard deviation in each channel [0–255]."""
    seed: int = 0
    leaf: bool = True


def painted(what: Painted) -> Pixels:
    """Return the picture, shape (side, side, 3)."""
    random = np.random.default_rng(what.seed)
    size = what.side
    row, column = np.mgrid[0:size, 0:size] / size
    lab = _background(what.background, row, column, random)
    x, y = column - 0.5 + random.uniform(-0.04, 0.04), row - 0.46 + random.uniform(-0.04, 0.04)
    if what.leaf:
        leaf = (np.abs(x - 0.02) < 0.09 * np.sin(np.clip((y - 0.2) / 0.3, 0, 1) * np.pi)) & (
            y > 0.2
        )
        lab[leaf] = LEAF
    angle = np.arctan2(y, x) + random.uniform(0, 1)
    along = np.hypot(x, y) / (what.radius * (0.82 + 0.18 * np.cos(6 * angle)))
    share = np.clip((along - 0.1) / 0.8, 0, 1)[..., None]
    colour = (1 - share) * np.array(what.deep) + share * np.array(what.pale)
    lab = np.where((along < 1)[..., None], colour, lab)
    gap = (np.abs(np.sin(3 * (angle + np.pi / 6))) < 0.02 / np.clip(along, 0.2, 1)) & (along < 1)
    lab[gap & (along > 0.3)] = (14.0, 2.0, 2.0)
    for _ in range(5):
        turn, far = random.uniform(0, 2 * np.pi), what.radius * random.uniform(0.3, 0.6)
        glint = np.hypot(x - far * np.cos(turn), y - far * np.sin(turn)) < 0.006
        lab[glint & (along < 1)] = (99.0, 0.0, 0.0)
    srgb = 255 * lab_to_srgb(lab)[0] + what.noise * random.normal(size=lab.shape)
    return np.clip(np.rint(srgb), 0, 255).astype(np.uint8)


def photographed(pixels: Pixels, *, quality: int = 85, blur: float = 0.8) -> bytes:
    """Return the picture as a camera keeps it: a little soft, and as JPEG."""
    out = io.BytesIO()
    soft = Image.fromarray(pixels).filter(ImageFilter.GaussianBlur(blur))
    soft.save(out, "JPEG", quality=quality)
    return out.getvalue()


def _background(
    kind: str, row: FloatArray, column: FloatArray, random: np.random.Generator
) -> FloatArray:
    """Return CIELAB of a background, shape (rows, columns, 3)."""
    lab = np.empty((*row.shape, 3))
    if kind == "white paper":
        lab[:] = (95.0, 0.0, 2.0)
        lab[..., 0] -= 5 * row  # light from above
    elif kind == "dark cloth":
        lab[:] = (16.0, 1.0, -3.0)
        lab[..., 0] += 3 * column
    elif kind == "table":
        lab[:] = (52.0, 12.0, 26.0)
        lab[..., 0] += 5 * np.sin(40 * row + 3 * np.sin(5 * column))  # grain of wood
    else:
        lab[:] = (44.0, -18.0, 26.0)
        for _ in range(8):
            spot = np.hypot(row - random.uniform(), column - random.uniform())
            bump = np.exp(-((spot / 0.22) ** 2))
            lab[..., 0] += random.uniform(-14, 16) * bump
            lab[..., 1] += random.uniform(-6, 6) * bump
            lab[..., 2] += random.uniform(-6, 6) * bump
    return lab
