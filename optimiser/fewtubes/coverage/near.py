"""Which sample colours a mixture may be near to, by table look-up.

CIELAB is cut into cubes; each cube holds, as a bit mask, the samples that some colour in it may
match within the tolerance. A look-up spares the difference formula for all but a few mixtures.
"""

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from fewtubes.colour.bands import FloatArray
from fewtubes.colour.difference import delta_e_2000
from fewtubes.masks import BoolArray, MaskArray, word_count

__all__ = ["NearTable"]

CUBE = 2.0
"""Edge of a cube [CIELAB units]."""

HALF_DIAGONAL = CUBE * np.sqrt(3.0) / 2

LOWEST = np.array([0.0, -130.0, -130.0])
HIGHEST = np.array([100.0, 130.0, 130.0])
"""Corners of the cut-up part of CIELAB; colours beyond count as in its outermost cubes."""

CUBES = np.round((HIGHEST - LOWEST) / CUBE).astype(np.int64)
STRIDES = np.array([CUBES[1] * CUBES[2], CUBES[2], 1], dtype=np.float32)
"""Steps in the table along each axis; whole numbers below 2²⁴ are exact in single precision."""

WIDEST = np.array([1.8, 9.0, 9.0])
"""How far colours of ΔE00 1 usually lie apart at most along L*, a*, b*: the first window."""

WIDENING = 1.5
"""Factor on a window that proves too small."""

IndexArray = npt.NDArray[np.int64]

SAFETY = 1.25
"""Allowance on the measured slope of the difference between the centres of cubes."""


@dataclass(frozen=True, eq=False)
class NearTable:
    """The masks of all cubes, shape (cubes, words), and which are not empty, shape (cubes,)."""

    masks: MaskArray
    occupied: BoolArray

    @classmethod
    def of(cls, labs: FloatArray, tolerance: float) -> "NearTable":
        """Return the table for samples, shape (samples, 3), at a tolerance [ΔE00]."""
        masks = np.zeros((*CUBES, word_count(len(labs))), dtype=np.uint64)
        for t, lab in enumerate(labs):
            window, near = _near_cubes(lab, tolerance)
            word = masks[..., t // 64]
            word[window] |= near.astype(np.uint64) << np.uint64(t % 64)
        masks = masks.reshape(-1, masks.shape[-1])
        return cls(masks, np.asarray(masks.any(axis=1)))

    def candidates(self, labs: npt.NDArray[np.float32]) -> tuple[npt.NDArray[np.intp], MaskArray]:
        """Return which mixtures, shape (mixtures, 3), are near any sample, and their samples.

        Returns
        -------
        Row numbers, shape (near,), and masks, shape (near, words).
        """
        cube = labs - LOWEST.astype(np.float32)
        cube *= np.float32(1 / CUBE)
        np.maximum(cube, 0, out=cube)
        np.minimum(cube, (CUBES - 1).astype(np.float32), out=cube)
        np.floor(cube, out=cube)
        place = (cube @ STRIDES).astype(np.int32)
        near = np.flatnonzero(self.occupied[place])
        return near, self.masks[place[near]]


def _near_cubes(lab: FloatArray, tolerance: float) -> tuple[tuple[slice, ...], BoolArray]:
    """Return a window of cubes around a sample, and which of them are near it.

    The window is widened until no cube on its faces is near, unless the table ends there.
    """
    half = WIDEST * tolerance + 2 * CUBE
    while True:
        first = np.clip(((lab - half - LOWEST) / CUBE).astype(np.int64), 0, CUBES - 2)
        last = np.clip(((lab + half - LOWEST) / CUBE).astype(np.int64) + 1, first + 2, CUBES)
        near = _near_in_window(lab, tolerance, first, last)
        cut = [
            (first[axis] > 0 and near.take(0, axis).any())
            or (last[axis] < CUBES[axis] and near.take(-1, axis).any())
            for axis in range(3)
        ]
        if not any(cut):
            window = tuple(slice(start, stop) for start, stop in zip(first, last, strict=True))
            return window, near
        half = np.where(cut, half * WIDENING, half)


def _near_in_window(
    lab: FloatArray, tolerance: float, first: IndexArray, last: IndexArray
) -> BoolArray:
    """Return which cubes of a window, from `first` to before `last`, are near a sample.

    The difference can fall between a cube's centre and its corner by at most the slope times half
    the diagonal; the slope is the steepest measured at the cube and those around it, taken with an
    allowance.
    """
    from scipy.ndimage import maximum_filter  # noqa: PLC0415

    axes = [
        low + CUBE * (np.arange(start, stop) + 0.5)
        for low, start, stop in zip(LOWEST, first, last, strict=True)
    ]
    centres = np.stack(np.meshgrid(*axes, indexing="ij"), axis=-1)
    difference = delta_e_2000(centres, lab)
    slope = np.sqrt(sum(part**2 for part in np.gradient(difference, CUBE)))
    slope = maximum_filter(slope, size=3)
    return np.asarray(difference <= tolerance + SAFETY * slope * HALF_DIAGONAL)
