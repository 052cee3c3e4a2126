"""The CIEDE2000 colour difference.

Source: G. Sharma, W. Wu, E. N. Dalal, The CIEDE2000 Color-Difference Formula, Color Research and
Application 30(1), 2005, 21–30. Equation numbers are the paper's. All weights k are 1.
"""

from typing import Any

import numpy as np
import numpy.typing as npt

from fewtubes.colour.bands import FloatArray

__all__ = ["delta_e_2000", "nearly_opposite"]

TWENTY_FIVE_TO_7 = 25.0**7

OPPOSITE = 180 + 1e-9
"""Hue angles farther apart than this count as more than a half turn [degrees].

The mean hue jumps there; the slack keeps rounding from deciding it (the paper's pair 14).
"""

SINGLE = 1e-3
"""More than a* and b* of a mixture are off by in single precision [CIELAB units]."""

Floats = npt.NDArray[np.floating[Any]]
"""Arrays of either precision; the result has that of the arguments."""


def delta_e_2000(lab_1: Floats, lab_2: Floats) -> FloatArray:
    """Return ΔE00 between CIELAB colours, shapes (…, 3) that broadcast, result shape (…).

    The difference is symmetric, 0 for equal colours, and about 1 where a trained eye sees it
    side by side.
    """
    L1, a1, b1 = lab_1[..., 0], lab_1[..., 1], lab_1[..., 2]
    L2, a2, b2 = lab_2[..., 0], lab_2[..., 1], lab_2[..., 2]
    mean_chroma = (np.hypot(a1, b1) + np.hypot(a2, b2)) / 2  # Eq. (2), (3)
    g = 0.5 * (1 - _chroma_share(mean_chroma))  # Eq. (4)
    a1, a2 = (1 + g) * a1, (1 + g) * a2  # Eq. (5)
    C1, C2 = np.hypot(a1, b1), np.hypot(a2, b2)  # Eq. (6)
    h1, h2 = np.degrees(np.arctan2(b1, a1)) % 360, np.degrees(np.arctan2(b2, a2)) % 360  # Eq. (7)

    neutral = C1 * C2 == 0
    turn = h2 - h1
    around = np.abs(turn) > OPPOSITE
    dh = np.where(neutral, 0.0, np.where(around, turn - np.copysign(360, turn), turn))  # Eq. (10)
    dL, dC = L2 - L1, C2 - C1  # Eq. (8), (9)
    dH = 2 * np.sqrt(C1 * C2) * np.sin(np.radians(dh / 2))  # Eq. (11)

    mean_L, mean_C = (L1 + L2) / 2, (C1 + C2) / 2  # Eq. (12), (13)
    mean_h = _mean_hue(h1, h2, neutral)
    T = (  # Eq. (15)
        1
        - 0.17 * np.cos(np.radians(mean_h - 30))
        + 0.24 * np.cos(np.radians(2 * mean_h))
        + 0.32 * np.cos(np.radians(3 * mean_h + 6))
        - 0.20 * np.cos(np.radians(4 * mean_h - 63))
    )
    theta = 30 * np.exp(-(((mean_h - 275) / 25) ** 2))  # Eq. (16)
    S_L = 1 + 0.015 * (mean_L - 50) ** 2 / np.sqrt(20 + (mean_L - 50) ** 2)  # Eq. (18)
    S_C = 1 + 0.045 * mean_C  # Eq. (19)
    S_H = 1 + 0.015 * mean_C * T  # Eq. (20)
    R_T = -np.sin(np.radians(2 * theta)) * 2 * _chroma_share(mean_C)  # Eq. (17), (21)
    dl, dc, dh = dL / S_L, dC / S_C, dH / S_H
    return np.asarray(np.sqrt(np.maximum(dl**2 + dc**2 + dh**2 + R_T * dc * dh, 0.0)))  # Eq. (22)


def nearly_opposite(lab_1: Floats, lab_2: Floats) -> npt.NDArray[np.bool_]:
    """Return whether hues are so nearly opposite that single precision may take the wrong side.

    The mean hue, and the difference with it, jumps where hues are opposite. Eq. (5) stretches both
    colours alike, so hues are opposite after it just where they are before.

    Parameters
    ----------
    lab_1, lab_2
        CIELAB, shapes (…, 3) that broadcast.
    """
    a1, b1, a2, b2 = lab_1[..., 1], lab_1[..., 2], lab_2[..., 1], lab_2[..., 2]
    off = SINGLE * (np.abs(a1) + np.abs(b1) + np.abs(a2) + np.abs(b2))
    return np.asarray((np.abs(a1 * b2 - a2 * b1) <= off) & (a1 * a2 + b1 * b2 < 0))


def _chroma_share(chroma: Floats) -> Floats:
    """Return √(C⁷ / (C⁷ + 25⁷)), which Eq. (4) and (17) share."""
    c7 = chroma**7
    return np.sqrt(c7 / (c7 + TWENTY_FIVE_TO_7))


def _mean_hue(h1: Floats, h2: Floats, neutral: npt.NDArray[np.bool_]) -> Floats:
    """Return the mean hue angle [degrees], Eq. (14)."""
    total = h1 + h2
    apart = np.abs(h1 - h2) > OPPOSITE
    around = np.where(total < 360, total + 360, total - 360)
    return np.where(neutral, total, np.where(apart, around, total) / 2)
