"""The colour of each box of a card as it would be in even white light on the nominal paper."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from fewtubes.card.layout import Box, Rectangle
from fewtubes.card.looking import BLOCKS, Patch, Projection, looked_at, steady_mean
from fewtubes.card.shadows import EDGE, Beside, CardLight
from fewtubes.colour.bands import FloatArray
from fewtubes.colour.display import linear_to_lab, linear_to_srgb
from fewtubes.colour.picture_file import Pixels
from fewtubes.fitting.sheet import ScreenColour, Seen, SeenLab

__all__ = ["MARGIN", "Looking", "SeenBox", "seen_box", "seen_places"]

MARGIN = 0.2
"""Share of a box left out on each side: a stroke dries with a dark rim, and brushes overshoot."""

LOWEST, HIGHEST = 2, 253
"""Levels of sRGB from which on a channel tells a bound and not a value."""

CLIPPED_SHARE = 0.25
"""Of the pixels at such a level, from which on the channel as a whole is a bound."""

NOISE_FLOOR = 0.85
"""Standard deviation of L*, a* and b* of the best reading.

An ideal camera is sure to 0.4. For one that sees otherwise than the eye, as cameras do, this is
still too sure: of its mixtures about three in four lie within what nine in ten are told to
(`tests/benchmarks/bench_fit.py`).
"""

NOISE_IF_CLIPPED = 6.0
"""Where a channel is over-exposed, so that the colour is known from two channels only."""

LIGHT_TO_L = 116 / 3
"""L* per unit of the logarithm of light near white, dL* = (116 / 3) · (Y/Yn)^⅓ · d ln Y."""

MAD_TO_SPREAD = 1.4826
"""From the median of the absolute deviations to a standard deviation, for normal errors."""

INDEPENDENT = 2.0
"""Patchiness of a wash counts by this part: of its 16 pieces about four tell something new."""


@dataclass(frozen=True, eq=False)
class Looking:
    """A picture whose light is known."""

    pixels: Pixels
    projection: Projection
    light: CardLight
    paper: FloatArray
    """Linear sRGB of the nominal paper, shape (3,)."""

    def evened(self, patch: Patch, beside: Beside | None = None) -> FloatArray:
        """Return linear sRGB on the nominal paper, shape (rows, columns, 3)."""
        light = self.light.field.at(patch.places) * (1.0 if beside is None else beside.factor)
        return np.asarray(patch.linear / light * self.paper)


@dataclass(frozen=True, eq=False)
class SeenBox:
    """What a box looks like."""

    box: Box
    patch: Patch
    linear: FloatArray
    """Linear sRGB on the nominal paper, not held to 0–1, shape (3,)."""
    low: npt.NDArray[np.bool_]
    """Channels that are at most what is seen, shape (3,)."""
    high: npt.NDArray[np.bool_]
    """Channels that are over-exposed, shape (3,)."""
    shine: float
    """Share of its pixels that are brighter than bare paper in every channel [0–1]."""
    noise: float
    """Standard deviation of each of L*, a* and b*."""
    shadow_edge: bool
    """Whether the light differs from one side of it to the other."""
    stroke: FloatArray | None
    """For a box over black: linear sRGB of the same stroke over paper, None where not known."""

    @property
    def lab(self) -> FloatArray:
        """CIELAB as seen, bounds taken as values, shape (3,)."""
        return linear_to_lab(self.linear)

    @property
    def colour(self) -> Seen:
        """CIELAB; a screen's colour where a channel is a bound, as those of 0 and 255 are.

        Where only over-exposure hides how bright a channel is, it stays CIELAB and `noise` says so.
        """
        if not self.low.any():
            L, a, b = self.lab.tolist()
            return SeenLab((L, a, b))
        levels = np.rint(255 * linear_to_srgb(np.clip(self.linear, 0.0, 1.0))).astype(int)
        levels[self.low] = 0
        red, green, blue = levels.tolist()
        return ScreenColour((red, green, blue))


def seen_box(box: Box, looking: Looking) -> SeenBox:
    """Return what a box looks like."""
    patch = looked_at(looking.pixels, box.rectangle, looking.projection, margin=MARGIN)
    beside = looking.light.beside(box)
    evened = looking.evened(patch, beside)
    linear = steady_mean(evened)
    low = (patch.levels <= LOWEST).mean(axis=(0, 1)) >= CLIPPED_SHARE
    low |= 255 * linear_to_srgb(np.maximum(linear, 0.0)) <= LOWEST
    high = (patch.levels >= HIGHEST).mean(axis=(0, 1)) >= CLIPPED_SHARE
    hidden = high & (255 * linear_to_srgb(np.clip(linear, 0.0, 1.0)) < HIGHEST)
    patchiness = _patchiness(evened) / INDEPENDENT
    unsure = beside.doubt if box.white else looking.light.field.spread
    noise = float(np.linalg.norm([NOISE_FLOOR, patchiness, LIGHT_TO_L * unsure]))
    return SeenBox(
        box=box,
        patch=patch,
        linear=linear,
        low=low,
        high=high,
        shine=_shine(patch, evened, looking.paper),
        noise=max(noise, NOISE_IF_CLIPPED) if hidden.any() else noise,
        shadow_edge=beside.doubt > EDGE,
        stroke=seen_places(box.stroke, looking, beside),
    )


def seen_places(
    places: Sequence[Rectangle], looking: Looking, beside: Beside | None = None
) -> FloatArray | None:
    """Return linear sRGB of places that look the same, the median of them; None for no place."""
    patches = (
        looked_at(looking.pixels, place, looking.projection, margin=MARGIN) for place in places
    )
    means = [steady_mean(looking.evened(patch, beside)) for patch in patches if patch.inside]
    return np.asarray(np.median(means, axis=0)) if means else None


def _patchiness(evened: FloatArray) -> float:
    """Return how much the pieces of a patch differ: standard deviation of L*, a* and b*."""
    strips = np.array_split(evened, BLOCKS)
    pieces = [piece for strip in strips for piece in np.array_split(strip, BLOCKS, axis=1)]
    lab = linear_to_lab(np.array([piece.mean(axis=(0, 1)) for piece in pieces]))
    spread = MAD_TO_SPREAD * np.median(np.abs(lab - np.median(lab, axis=0)), axis=0)
    return float(np.sqrt((spread**2).mean()))


def _shine(patch: Patch, evened: FloatArray, paper: FloatArray) -> float:
    """Return the share of pixels that send back more than paint can, whatever the channel."""
    brighter = (evened > 1.03 * paper).all(axis=2)
    white = (patch.levels >= HIGHEST).all(axis=2)
    return float((brighter | white).mean())
