"""The perspective between a flat sheet and its photograph.

Source: R. Hartley and A. Zisserman, Multiple View Geometry in Computer Vision, 2nd edition (2004),
algorithm 4.2: the direct linear transformation on normalised points.
"""

import numpy as np

from fewtubes.colour.bands import FloatArray

__all__ = ["homography", "projected"]


def homography(points: FloatArray, seen: FloatArray) -> FloatArray:
    """Return the matrix that takes points of the sheet to points of the picture, shape (3, 3).

    Parameters
    ----------
    points, seen
        At least four, no three of four on a line, shapes (n, 2); the least squares of more.
    """
    to_unit, unit = _normalised(points)
    to_unit_seen, unit_seen = _normalised(seen)
    x, y = unit.T
    u, v = unit_seen.T
    ones, none = np.ones_like(x), np.zeros_like(x)
    # Eq. (4.3): two rows a point
    first = np.stack([none, none, none, -x, -y, -ones, v * x, v * y, v], axis=1)
    second = np.stack([x, y, ones, none, none, none, -u * x, -u * y, -u], axis=1)
    _, _, right = np.linalg.svd(np.concatenate([first, second]))
    matrix = np.linalg.inv(to_unit_seen) @ right[-1].reshape(3, 3) @ to_unit
    return np.asarray(matrix / matrix[2, 2])


def projected(matrix: FloatArray, points: FloatArray) -> FloatArray:
    """Return where points lie in the picture, shapes (…, 2)."""
    lifted = points @ matrix[:, :2].T + matrix[:, 2]
    return np.asarray(lifted[..., :2] / lifted[..., 2:])


def _normalised(points: FloatArray) -> tuple[FloatArray, FloatArray]:
    """Return the matrix that moves points about the origin, √2 away on average, and the points."""
    centre = points.mean(axis=0)
    scale = np.sqrt(2) / np.linalg.norm(points - centre, axis=1).mean()
    matrix = np.array([[scale, 0, -scale * centre[0]], [0, scale, -scale * centre[1]], [0, 0, 1]])
    return matrix, (points - centre) * scale
