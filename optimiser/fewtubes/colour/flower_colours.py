"""The colours of a flower in a photograph, with the palest and the deepest of each of its parts.

A mean tells a petal that runs from a pale edge to a deep base as neither. So of each part of the
picture (`picture_parts.py`) three colours are told: its body, and, where they differ from it, the
ends of its lightness. An end is the median of the lightest or darkest fiftieth of the part's
pixels, so that no single pixel decides (a trimmed extreme; Huber, P. J., 1981, Robust Statistics,
on why not the extreme itself).
"""

from dataclasses import dataclass
from enum import Enum

import numpy as np

from fewtubes.colour.bands import FloatArray
from fewtubes.colour.difference import delta_e_2000
from fewtubes.colour.display import lab_to_hex
from fewtubes.colour.picture_file import Pixels
from fewtubes.colour.picture_parts import Part, Standing, picture_parts

__all__ = ["Depth", "FlowerColour", "flower_colours"]

END = 0.02
"""Share of a part's pixels, by lightness, that are one of its ends [0–1]."""

LEAST_END = 9
"""Pixels that an end has at least."""

BODY = (0.35, 0.65)
"""Between these quantiles of lightness lies the body of a part [0–1]."""

APART = 3.0
"""An end nearer the body than this is not told apart from it [ΔE00]; below the usual tolerance, so
that no recipe is missed by it."""


class Depth(Enum):
    """Which of a part's colours it is."""

    LIGHTEST = "lightest"
    BODY = "body"
    DEEPEST = "deepest"


@dataclass(frozen=True)
class FlowerColour:
    """One colour of a flower in a photograph, or of what is behind it."""

    lab: tuple[float, float, float]
    """CIELAB (D65)."""
    hex: str
    depth: Depth
    part: int
    """Which part of the picture, from 0; those of the flower first, the largest first."""
    share: float
    """Of the picture that its whole part takes [0–1]."""
    standing: Standing


def flower_colours(pixels: Pixels) -> tuple[FlowerColour, ...]:
    """Return the colours of each part, light before deep; those of the background come last.

    Parameters
    ----------
    pixels
        The photograph, shape (rows, columns, 3), at least one pixel.
    """
    return tuple(
        FlowerColour(
            (float(lab[0]), float(lab[1]), float(lab[2])),
            lab_to_hex(lab),
            depth,
            place,
            part.share,
            part.standing,
        )
        for place, part in enumerate(picture_parts(pixels))
        for depth, lab in _colours(part)
    )


def _colours(part: Part) -> list[tuple[Depth, FloatArray]]:
    """Return the body of a part between those of its ends that differ from it."""
    by_lightness = part.lab[np.argsort(part.lab[:, 0], kind="stable")]
    count = len(by_lightness)
    low, high = (round(share * (count - 1)) for share in BODY)
    body = by_lightness[low : high + 1].mean(axis=0)
    if part.standing is Standing.BACKGROUND:
        return [(Depth.BODY, body)]
    end = min(count, max(LEAST_END, round(END * count)))
    lightest, deepest = (
        np.median(ends, axis=0) for ends in (by_lightness[-end:], by_lightness[:end])
    )
    found = [(Depth.LIGHTEST, lightest), (Depth.BODY, body), (Depth.DEEPEST, deepest)]
    return [
        (depth, lab)
        for depth, lab in found
        if depth is Depth.BODY or float(delta_e_2000(lab, body)) >= APART
    ]
