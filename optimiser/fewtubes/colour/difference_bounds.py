"""Lower bounds on ΔE00 between given colours and all colours of a box of CIELAB at once.

And the other way round: upper bounds on how far colours within a difference lie from a given one.
Both follow from the formula's own equations (G. Sharma, W. Wu, E. N. Dalal, Color Research and
Application 30(1), 2005; equation numbers are the paper's) by taking each term at its worst, so that
no colour is ever nearer, or farther off. What depends on both colours (the stretch of a*, the means
of lightness, chroma and hue) is enclosed together.
"""

import numpy as np

from fewtubes.colour.bands import FloatArray

__all__ = ["FARTHEST", "least_difference", "reach_around"]

T_MOST = 1.93
"""Of T, Eq. (15), at most: the sum of its amplitudes, 1 + 0.17 + 0.24 + 0.32 + 0.20."""

T_SLOPE = 0.17 + 2 * 0.24 + 3 * 0.32 + 4 * 0.20
"""Of T, at most: the sum of its amplitudes, each times its frequency [per radian]."""

BLUE, BLUE_WIDTH = np.radians(275.0), np.radians(25.0)
"""Hue angle and width of the blue region, Eq. (16) [rad]."""

LARGEST_TURN = np.radians(30.0)
"""Largest Δθ, Eq. (16) [rad]."""

NEARLY_OPPOSITE = np.pi - 1e-3
"""From this hue difference on the mean hue may be that of either side, Eq. (14) [rad]."""

CHROMA_SLOPE = 0.045
"""Of S_C, Eq. (19), which is never below S_H, Eq. (20), whose slope is at most 0.015 × 1.93."""

LIGHTNESS_SLOPE = 0.015 * 1.09
"""Of S_L, Eq. (18), at most: x²/√(20 + x²) is steepest at x = √40, with 80√40/60^1.5 = 1.0887."""

FARTHEST = 1000.0
"""No two colours of surfaces lie farther apart: their a* are within ±431, their b* within ±173."""

SLACK = 1e-3
"""Allowance for single precision [CIELAB units]."""

ROUNDING = 1e-6
"""More than the rounding of double precision in what is returned [ΔE00]."""


def least_difference(labs: FloatArray, low: FloatArray, high: FloatArray) -> FloatArray:
    """Return a ΔE00 that no colour of a box falls below.

    Parameters
    ----------
    labs
        One colour for each box, CIELAB, L* from 0 to 100, shape (pairs, 3).
    low, high
        Opposite corners of the boxes, shapes (pairs, 3); all finite.

    Returns
    -------
    Lower bounds of the difference between colour and box, ≥ 0, shape (pairs,).

    Notes
    -----
    Let index 1 be the colour and 2 any colour of the box. Both are stretched by the same factor
    s = 1 + G, Eq. (4), (5), which falls as the mean chroma rises.

    ΔL′/S_L: the quotient grows with the distance of L2 from L1, because S_L rises too slowly with
    the mean to catch up: with x = L̄ − 50 and u = x²/√(20 + x²), u′ < 1.089 and x u′ − u < 1.73,
    so that 0.015 u′ |ΔL|/2 < 0.015 (u + 1.73 + 50 × 1.089) < S_L. The nearest L2 decides.

    ΔC′/S_C = |C2 − C1| / (1 + 0.0225 (C1 + C2)) grows with the larger chroma and falls with the
    smaller one. The nearest ends of the two intervals decide.

    ΔH′/S_H: ΔH′ = 2 √(C1 C2) sin(Δh/2), Eq. (11), is least at the smallest chromas and the
    smallest angle; S_H is largest at the largest chromas and the largest T of any mean hue.

    R_T, Eq. (21), lies from −R to 0 with R = 2 √(C̄⁷/(C̄⁷ + 25⁷)) sin 2Δθ. Where ΔC′ and ΔH′ differ
    in sign R_T ΔC′ ΔH′ ≥ 0 can only add. Else c² + h² − R c h over all c ≥ c0, h ≥ h0 is least at
    c = max(c0, h0 R/2), h = max(h0, c0 R/2), as R < 2 makes the form convex.
    """
    nearest_L = np.clip(labs[:, 0], low[:, 0], high[:, 0])
    dl = np.abs(nearest_L - labs[:, 0]) / _lightness_weight((nearest_L + labs[:, 0]) / 2)
    a, b = labs[:, 1], labs[:, 2]
    near, far = _ends(low[:, 1:], high[:, 1:])
    chroma = np.hypot(a, b)
    least = 1.5 - 0.5 * _chroma_share((chroma + np.hypot(far[0], far[1])) / 2)  # Eq. (4)
    most = 1.5 - 0.5 * _chroma_share((chroma + np.hypot(near[0], near[1])) / 2)
    C1 = np.hypot(least * a, b), np.hypot(most * a, b)  # Eq. (6)
    C2 = np.hypot(least * near[0], near[1]), np.hypot(most * far[0], far[1])
    more = np.maximum(0.0, C2[0] - C1[1]) / (1 + 0.0225 * (C2[0] + C1[1]))
    less = np.maximum(0.0, C1[0] - C2[1]) / (1 + 0.0225 * (C1[0] + C2[1]))
    middle = np.sqrt(least * most)
    centre, half = (low + high)[:, 1:] / 2, (high - low)[:, 1:] / 2
    turn, spread = _hue_difference(labs[:, 1:], centre, half, middle, most / least)
    smallest = np.clip(np.abs(turn) - spread, 0.0, np.pi)
    mean_hue, off = _mean_hue(np.arctan2(b, middle * a), turn, spread)
    largest_mean = (C1[1] + C2[1]) / 2
    T = np.minimum(T_MOST, _hue_weight(mean_hue) + T_SLOPE * off)
    dh = 2 * np.sqrt(C1[0] * C2[0]) * np.sin(smallest / 2) / (1 + 0.015 * largest_mean * T)
    away = np.maximum(0.0, np.abs(_wrapped(mean_hue - BLUE)) - off)
    turned = LARGEST_TURN * np.exp(-((away / BLUE_WIDTH) ** 2))  # Eq. (16)
    R = 2 * _chroma_share(largest_mean) * np.sin(2 * turned)  # Eq. (17), (21)
    signs_differ = (smallest > 0) & (off < np.pi) & (np.where(turn > 0, less, more) > 0)
    R = np.where(signs_differ, 0.0, R)
    dc = more + less
    c, h = np.maximum(dc, dh * R / 2), np.maximum(dh, dc * R / 2)
    square = dl**2 + c**2 + h**2 - R * c * h  # Eq. (22)
    return np.asarray(np.maximum(0.0, np.sqrt(np.maximum(square, 0.0)) - ROUNDING))


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
    worst = _lightness_weight(labs[:, 0])
    lightness = finite * worst / np.maximum(1 - LIGHTNESS_SLOPE / 2 * finite, 1e-6)
    chroma = np.hypot(labs[:, 1], labs[:, 2])
    stretch = 1.5 - 0.5 * _chroma_share(chroma / 2)  # Eq. (4): the mean is at least half of it
    stretched = np.hypot(stretch * labs[:, 1], labs[:, 2])
    kappa = np.full(len(labs), np.sqrt(1 - np.sin(2 * LARGEST_TURN)))
    first = _in_plane(finite, stretched, kappa)
    away = _away_from_blue(labs, stretch, np.minimum(1.0, first / np.maximum(chroma, 1e-9)))
    turn = LARGEST_TURN * np.exp(-((away / BLUE_WIDTH) ** 2))  # Eq. (16)
    kappa = np.sqrt(1 - _chroma_share(stretched + first / 2) * np.sin(2 * turn))  # Eq. (17), (21)
    plane = _in_plane(finite, stretched, kappa)
    return np.minimum(lightness + SLACK, FARTHEST), np.minimum(plane + SLACK, FARTHEST)


def _ends(low: FloatArray, high: FloatArray) -> tuple[FloatArray, FloatArray]:
    """Return |a*| and |b*| of rectangles, (pairs, 2), nearest to and farthest from neutral."""
    near = np.maximum(0.0, np.maximum(low, -high))
    return near.T, np.maximum(-low, high).T


def _hue_difference(
    plane: FloatArray, centre: FloatArray, half: FloatArray, middle: FloatArray, ratio: FloatArray
) -> tuple[FloatArray, FloatArray]:
    """Return the hue difference of colour and box [rad], and how far off it may be at most.

    Colours, and the centres and half edges of rectangles, are given in a* and b*, (pairs, 2). The
    rectangle, stretched by the middle factor, lies in a circle, which from neutral spans the
    arcsine of radius over distance to either side. Another factor turns a hue by at most half the
    logarithm of their ratio, since dh/d(ln s) = −a b/(a² + b²), and turns both colours.
    """
    x, y = middle * centre[:, 0], centre[:, 1]
    radius = np.hypot(middle * half[:, 0], half[:, 1])
    sine = radius / np.maximum(np.hypot(x, y), 1e-9)
    spread = np.where(sine < 1, np.arcsin(np.minimum(sine, 1.0)), np.pi) + np.log(ratio) / 2
    a, b = middle * plane[:, 0], plane[:, 1]
    turn = np.arctan2(a * y - b * x, a * x + b * y)
    return turn, spread


def _mean_hue(
    hue: FloatArray, turn: FloatArray, spread: FloatArray
) -> tuple[FloatArray, FloatArray]:
    """Return the mean hue [rad], and how far off it may be; anything if hues may be opposite."""
    off = np.where(np.abs(turn) + spread < NEARLY_OPPOSITE, spread, np.pi)
    return hue + turn / 2, off


def _in_plane(differences: FloatArray, chroma: FloatArray, kappa: FloatArray) -> FloatArray:
    """Return the largest distance in the plane, shape (colours,); see the notes above."""
    scaled = differences / kappa
    room = 1 - CHROMA_SLOPE / 2 * scaled
    safe = np.where(room > 0, room, 1.0)
    found = scaled * (1 + CHROMA_SLOPE * chroma) / safe
    return np.asarray(np.where(room > 0, np.minimum(found, FARTHEST), FARTHEST))


def _away_from_blue(labs: FloatArray, stretch: FloatArray, sine: FloatArray) -> FloatArray:
    """Return how far the mean hue stays from the blue region, at least [rad].

    The other colour's hue is off by at most the angle of this sine, and Eq. (5) turns the given
    one's own by at most the difference between no stretch and the largest.
    """
    plain = np.arctan2(labs[:, 2], labs[:, 1])
    turned = np.arctan2(labs[:, 2], stretch * labs[:, 1])
    margin = np.where(sine < 1, np.arcsin(sine), np.pi)
    from_blue, turn = np.abs(_wrapped(plain - BLUE)), np.abs(_wrapped(plain - turned))
    return np.asarray(np.maximum(0.0, from_blue - margin - turn))


def _lightness_weight(mean: FloatArray) -> FloatArray:
    """Return S_L, Eq. (18)."""
    square = (mean - 50) ** 2
    return np.asarray(1 + 0.015 * square / np.sqrt(20 + square))


def _hue_weight(mean: FloatArray) -> FloatArray:
    """Return T, Eq. (15), of a mean hue [rad]."""
    return np.asarray(
        1
        - 0.17 * np.cos(mean - np.radians(30))
        + 0.24 * np.cos(2 * mean)
        + 0.32 * np.cos(3 * mean + np.radians(6))
        - 0.20 * np.cos(4 * mean - np.radians(63))
    )


def _chroma_share(chroma: FloatArray) -> FloatArray:
    """Return √(C⁷ / (C⁷ + 25⁷)) of Eq. (4) and (17)."""
    c7 = chroma**7
    return np.asarray(np.sqrt(c7 / (c7 + 25.0**7)))


def _wrapped(angle: FloatArray) -> FloatArray:
    """Return an angle from −π to π."""
    return np.asarray((angle + np.pi) % (2 * np.pi) - np.pi)
