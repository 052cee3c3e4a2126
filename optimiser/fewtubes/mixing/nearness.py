"""Where in CIELAB the colours lie that differ from a given one by no more than so much.

A box that surely holds them all, so that most colours can be told to be farther off without the
difference formula. It follows from the formula's own equations (G. Sharma, W. Wu, E. N. Dalal,
Color Research and Application 30(1), 2005; equation numbers are the paper's) by taking each term
at its worst.
"""

import numpy as np

from fewtubes.colour.bands import FloatArray

__all__ = ["reach_around"]

FARTHEST = 400.0
"""No two colours of CIELAB that paints reach lie farther apart along any axis."""

SLACK = 1e-3
"""Allowance for single precision [CIELAB units]."""

CHROMA_SLOPE = 0.045
"""Of S_C, Eq. (19), which is never below S_H, Eq. (20), whose slope is at most 0.015 × 1.93."""

LIGHTNESS_SLOPE = 0.015 * 1.09
"""Of S_L, Eq. (18), at most: x²/√(20 + x²) is steepest at x = √40, with 80√40/60^1.5 = 1.0887."""

BLUE, BLUE_WIDTH = 275.0, 25.0
"""Hue angle and width of the blue region in Eq. (16) [degrees]."""

LARGEST_TURN = 30.0
"""Largest Δθ of Eq. (16) [degrees]."""


def reach_around(labs: FloatArray, differences: FloatArray) -> tuple[FloatArray, FloatArray]:
    """Return how far colours within a difference lie from given ones, at most.

    Parameters
    ----------
    labs
        The colours, CIELAB, shape (colours, 3).
    differences
        Largest ΔE00 from each, ≥ 0, shape (colours,); infinity is allowed.

    Returns
    -------
    Largest distance along L*, and largest distance in the plane of a* and b* [CIELAB units], both
    shape (colours,).

    Notes
    -----
    With dl, dc, dh the three quotients of Eq. (22), ΔE² = dl² + dc² + dh² + R_T dc dh. The part
    without dl is at least κ²(dc² + dh²) with κ² = 1 − |R_T|/2 ≥ 0. So |ΔL| ≤ ΔE S_L, where S_L is
    that of the mean lightness, off by at most half of ΔL; and the distance in the plane of a′ and
    b*, √(ΔC′² + ΔH′²), is at most ΔE S_C/κ; that in a* and b* is no larger, as Eq. (5) only
    stretches. S_C depends on the mean chroma, which exceeds the given colour's by at most half that
    distance r; solved for it, r = (ΔE/κ)(1 + 0.045 C′) / (1 − 0.0225 ΔE/κ).
    """
    finite = np.minimum(differences, FARTHEST)
    off_middle = np.abs(labs[:, 0] - 50)
    worst = 1 + 0.015 * off_middle**2 / np.sqrt(20 + off_middle**2)  # Eq. (18)
    lightness = finite * worst / np.maximum(1 - LIGHTNESS_SLOPE / 2 * finite, 1e-6)
    chroma = np.hypot(labs[:, 1], labs[:, 2])
    stretch = 1.5 - 0.5 * _chroma_share(chroma / 2)  # Eq. (4): the mean is at least half of it
    stretched = np.hypot(stretch * labs[:, 1], labs[:, 2])
    kappa = np.full(len(labs), np.sqrt(1 - np.sin(np.radians(2 * LARGEST_TURN))))
    first = _in_plane(finite, stretched, kappa)
    away = _away_from_blue(labs, stretch, np.minimum(1.0, first / np.maximum(chroma, 1e-9)))
    turn = LARGEST_TURN * np.exp(-((away / BLUE_WIDTH) ** 2))  # Eq. (16)
    share = _chroma_share(stretched + first / 2)
    kappa = np.sqrt(1 - share * np.sin(np.radians(2 * turn)))  # Eq. (17), (21)
    plane = _in_plane(finite, stretched, kappa)
    return np.minimum(lightness + SLACK, FARTHEST), np.minimum(plane + SLACK, FARTHEST)


def _in_plane(differences: FloatArray, chroma: FloatArray, kappa: FloatArray) -> FloatArray:
    """Return the largest distance in the plane, shape (colours,); see the notes above."""
    scaled = differences / kappa
    room = 1 - CHROMA_SLOPE / 2 * scaled
    safe = np.where(room > 0, room, 1.0)
    found = scaled * (1 + CHROMA_SLOPE * chroma) / safe
    return np.asarray(np.where(room > 0, np.minimum(found, FARTHEST), FARTHEST))


def _away_from_blue(labs: FloatArray, stretch: FloatArray, sine: FloatArray) -> FloatArray:
    """Return how far the mean hue stays from the blue region, at least [degrees].

    The other colour's hue is off by at most the angle of this sine, and Eq. (5) turns the given
    one's own by at most the difference between no stretch and the largest.
    """
    plain = np.degrees(np.arctan2(labs[:, 2], labs[:, 1]))
    turned = np.degrees(np.arctan2(labs[:, 2], stretch * labs[:, 1]))
    margin = np.where(sine < 1, np.degrees(np.arcsin(sine)), 180.0)
    return np.maximum(0.0, _angle(plain - BLUE) - margin - _angle(plain - turned))


def _angle(turn: FloatArray) -> FloatArray:
    """Return a turn as an angle from 0 to 180 degrees."""
    return np.asarray(np.abs((turn + 180) % 360 - 180))


def _chroma_share(chroma: FloatArray) -> FloatArray:
    """Return √(C⁷ / (C⁷ + 25⁷)) of Eq. (4) and (17)."""
    c7 = chroma**7
    return np.asarray(np.sqrt(c7 / (c7 + 25.0**7)))
