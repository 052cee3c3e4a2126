"""Outlines that waver as if painted by hand, and are the same every time they are drawn.

Nothing here carries information; it only keeps a swatch from looking like a button.
"""

import zlib

import numpy as np

from fewtubes.colour.bands import FloatArray

__all__ = ["blob", "by_hand", "petal_side", "rectangle", "seed_of"]

SHORTEST_WAVE = 22.0
"""Length of the finest waver of an edge [picture units]; finer looks torn, not painted."""

SPACING = 2.5
"""Distance of the points along an outline [picture units]."""


def seed_of(*names: object) -> int:
    """Return a seed for whatever bears these names; the same names always give the same."""
    return zlib.crc32("\n".join(map(str, names)).encode("utf-8", "replace"))


def by_hand(points: FloatArray, *, amount: float, seed: int, closed: bool = True) -> FloatArray:
    """Return an outline moved about across its direction.

    Parameters
    ----------
    points
        Places along the outline, shape (n, 2), evenly spaced as far as may be.
    amount
        How far an edge strays as a rule (root mean square) [picture units].
    seed
        Which of all possible wavers.
    closed
        Whether the last place is followed by the first; an open outline keeps its two ends.
    """
    along = _directions(points, closed=closed)
    across = np.stack([-along[:, 1], along[:, 0]], axis=1)
    steps = np.hypot(*np.diff(points, axis=0).T)
    place = np.concatenate([[0.0], np.cumsum(steps)]) / max(float(steps.sum()), 1e-9)
    stray = amount * _waver(place, float(steps.sum()), seed)
    if not closed:
        stray *= np.sqrt(np.sin(np.pi * place).clip(0.0))
    return np.asarray(points + stray[:, None] * across)


def rectangle(left: float, top: float, width: float, height: float) -> FloatArray:
    """Return places along a rectangle with rounded corners, shape (n, 2)."""
    corner = 0.3 * height
    turn = np.linspace(0.0, np.pi / 2, 8)
    arc = corner * np.stack([np.sin(turn), 1 - np.cos(turn)], axis=1)  # from the top to the right
    right_top = arc + np.array([left + width - corner, top])
    quarter = [
        right_top,
        np.array([0, 2 * top + height]) + right_top[::-1] * (1, -1),
        (2 * left + width, 2 * top + height) - right_top,
        np.array([2 * left + width, 0]) + right_top[::-1] * (-1, 1),
    ]
    return _evenly(np.concatenate([*quarter, quarter[0][:1]]))[:-1]


def blob(x: float, y: float, radius: float) -> FloatArray:
    """Return places along a circle, shape (n, 2)."""
    count = max(16, round(2 * np.pi * radius / SPACING))
    turn = np.linspace(0, 2 * np.pi, count, endpoint=False)
    return np.stack([x + radius * np.cos(turn), y + radius * np.sin(turn)], axis=1)


def petal_side(
    base: tuple[float, float],
    *,
    direction: float,
    length: float,
    half_width: float,
    fullest: float,
) -> FloatArray:
    """Return the edge of one half of a petal or leaf from base to tip, shape (n, 2).

    Parameters
    ----------
    base
        Where it is joined on.
    direction
        From base to tip, clockwise from upwards [radians].
    length, half_width
        Along and across [picture units]; a negative width gives the half on the left.
    fullest
        Where along the length it is widest [0–1].
    """
    t = np.linspace(0, 1, max(12, round(length / SPACING)))
    bend = np.log(0.5) / np.log(fullest)
    across = half_width * np.sin(np.pi * t**bend) ** 0.8
    ahead = np.array([np.sin(direction), -np.cos(direction)])
    aside = np.array([np.cos(direction), np.sin(direction)])
    return np.asarray(base + np.outer(length * t, ahead) + np.outer(across, aside))


def _directions(points: FloatArray, *, closed: bool) -> FloatArray:
    """Return the unit direction of the outline at each place, shape (n, 2)."""
    if closed:
        along = np.roll(points, -1, axis=0) - np.roll(points, 1, axis=0)
    else:
        along = np.gradient(points, axis=0)
    return along / np.maximum(np.hypot(along[:, 0], along[:, 1]), 1e-9)[:, None]


def _waver(place: FloatArray, length: float, seed: int) -> FloatArray:
    """Return a smooth random course over places [0–1] with root mean square 1, shape (n,)."""
    random = np.random.default_rng(seed)
    waves = np.arange(2, max(4, int(length / SHORTEST_WAVE)))
    heights = random.uniform(0.4, 1.0, len(waves)) / waves**0.7
    phases = random.uniform(0, 2 * np.pi, len(waves))
    course = np.sin(2 * np.pi * np.outer(place, waves) + phases) @ heights
    return np.asarray(course / np.sqrt((heights**2).sum() / 2))


def _evenly(points: FloatArray) -> FloatArray:
    """Return places at even distances along a line through points."""
    walked = np.concatenate([[0.0], np.cumsum(np.hypot(*np.diff(points, axis=0).T))])
    places = np.linspace(0, walked[-1], max(8, round(float(walked[-1]) / SPACING)))
    return np.stack([np.interp(places, walked, points[:, axis]) for axis in (0, 1)], axis=1)
