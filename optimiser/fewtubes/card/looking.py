"""What a place in a photograph looks like: its pixels in linear light, and their steady middle."""

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from fewtubes.card.layout import Rectangle
from fewtubes.colour.bands import FloatArray
from fewtubes.colour.display import srgb_to_linear
from fewtubes.colour.picture_file import Pixels

__all__ = ["BLOCKS", "Patch", "Projection", "looked_at", "steady_mean"]

Projection = Callable[[FloatArray], FloatArray]
"""Takes places of a layout to places of the picture [pixels from its corner], shapes (…, 2)."""

MOST_SAMPLES = 48
"""Pixels looked at along a side; more tell nothing new."""

BLOCKS = 4
"""A patch is cut into so many pieces along each side to see how even it is."""

LINEAR: FloatArray = srgb_to_linear(np.arange(256) / 255)
"""Linear light of each level of sRGB, shape (256,)."""
LINEAR.setflags(write=False)

TRIMMED = 0.2
"""Share left out at either end, the darkest and the brightest pixels: specks, shine, blooms."""


@dataclass(frozen=True, eq=False)
class Patch:
    """The pixels within a place."""

    levels: Pixels
    """sRGB as in the picture, shape (rows, columns, 3)."""
    places: FloatArray
    """Where they lie in the picture, x and y [pixels], shape (rows, columns, 2)."""
    side: float
    """Shorter side of the whole place, before its margin went off [pixels]."""
    inside: bool
    """Whether the place lies within the picture."""

    @property
    def linear(self) -> FloatArray:
        """Linear light [0–1], shape (rows, columns, 3)."""
        return LINEAR[self.levels]


def looked_at(pixels: Pixels, place: Rectangle, projection: Projection, *, margin: float) -> Patch:
    """Return the pixels of a place.

    Parameters
    ----------
    pixels
        The picture.
    place
        In the unit of the layout.
    projection
        From that unit to pixels.
    margin
        Share of width and height left out on each side [0–0.5).
    """
    corners = projection(np.array(place.corners))
    sides = np.linalg.norm(corners - np.roll(corners, -1, axis=0), axis=1)
    across, down = min(sides[0], sides[2]), min(sides[1], sides[3])
    counts = (
        int(np.clip(np.ceil((1 - 2 * margin) * side), BLOCKS, MOST_SAMPLES))
        for side in (across, down)
    )
    inner = place.inner(margin)
    x, y = (
        start + length * (np.arange(count) + 0.5) / count
        for start, length, count in zip(
            (inner.left, inner.top), (inner.width, inner.height), counts, strict=True
        )
    )
    places = projection(np.stack(np.meshgrid(x, y), axis=-1))
    height, width = pixels.shape[:2]
    inside = bool(((corners >= -0.5) & (corners <= [width + 0.5, height + 0.5])).all())
    within = np.clip(np.floor(places), 0, [width - 1, height - 1])
    columns, rows = within.astype(int).reshape(-1, 2).T
    levels = pixels[rows, columns].reshape(*places.shape[:2], 3)
    return Patch(levels, places, float(min(across, down)), inside)


def steady_mean(linear: FloatArray) -> FloatArray:
    """Return the mean of the pixels, shape (3,), without the darkest and brightest fifths.

    Parameters
    ----------
    linear
        Linear light, shape (…, 3).
    """
    flat = linear.reshape(-1, 3)
    order = np.argsort(flat.sum(axis=1), kind="stable")
    cut = int(TRIMMED * len(order))
    return np.asarray(flat[order[cut : len(order) - cut]].mean(axis=0))
