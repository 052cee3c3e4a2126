"""CIE 1976 L*a*b* (CIELAB) and its cylindrical coordinates.

Source: CIE 015:2018, Colorimetry, section 8.2.1.
"""

import numpy as np

from fewtubes.colour.bands import FloatArray

__all__ = ["EPSILON", "SLOPE", "lab_to_lch", "lab_to_xyz", "xyz_to_lab"]

EPSILON = (6 / 29) ** 3
"""Ratio to white below which the cube root gives way to a straight line."""

SLOPE = (29 / 6) ** 2 / 3
"""Slope of that line (841/108)."""


def xyz_to_lab(xyz: FloatArray, white_xyz: FloatArray) -> FloatArray:
    """Convert tristimulus values to CIELAB.

    Parameters
    ----------
    xyz
        Tristimulus values, shape (…, 3), on the scale of `white_xyz`.
    white_xyz
        Tristimulus values of the white, shape (3,).

    Returns
    -------
    L*, a*, b*, shape (…, 3); L* is 0–100.
    """
    ratio = xyz / white_xyz
    f = np.where(ratio > EPSILON, np.cbrt(ratio), SLOPE * ratio + 4 / 29)
    lightness = 116 * f[..., 1] - 16
    return np.stack(
        [lightness, 500 * (f[..., 0] - f[..., 1]), 200 * (f[..., 1] - f[..., 2])], axis=-1
    )


def lab_to_xyz(lab: FloatArray, white_xyz: FloatArray) -> FloatArray:
    """Convert CIELAB, shape (…, 3), to tristimulus values on the scale of `white_xyz`."""
    fy = (lab[..., 0] + 16) / 116
    f = np.stack([fy + lab[..., 1] / 500, fy, fy - lab[..., 2] / 200], axis=-1)
    ratio = np.where(f > 6 / 29, f**3, (f - 4 / 29) / SLOPE)
    return np.asarray(ratio * white_xyz)


def lab_to_lch(lab: FloatArray) -> FloatArray:
    """Return lightness L*, chroma C* and hue angle h [degrees, 0–360), shape (…, 3)."""
    chroma = np.hypot(lab[..., 1], lab[..., 2])
    hue = np.degrees(np.arctan2(lab[..., 2], lab[..., 1])) % 360
    hue = np.where(hue < 360, hue, 0.0)  # a hair below 0 rounds to 360
    return np.stack([lab[..., 0], chroma, hue], axis=-1)
