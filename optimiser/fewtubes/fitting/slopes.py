"""How the colour of a film changes with its absorption and scattering: exact slopes.

The derivatives of the equations in `fewtubes.mixing.film`, `fewtubes.mixing.surface` and
`fewtubes.colour.cielab`, which the tests hold against differences.
"""

import numpy as np

from fewtubes.colour.bands import FloatArray
from fewtubes.colour.cielab import EPSILON, SLOPE
from fewtubes.mixing.surface import INNER_REFLECTION, OUTER_REFLECTION

__all__ = ["film_slopes", "lab_slopes", "surface_slope"]

THIN = 1e-3
"""Below this n = √(K(K + 2S)) the first terms of the series of n coth n are exact enough."""


def film_slopes(
    K: FloatArray, S: FloatArray, ground: FloatArray
) -> tuple[FloatArray, FloatArray, FloatArray]:
    """Return the reflectance of a film and its slopes along K and along S.

    Parameters
    ----------
    K, S
        Absorption and scattering of the film, > 0, shapes (…, bands).
    ground
        Reflectance of the ground [0–1], broadcast against K and S.

    Returns
    -------
    R, ∂R/∂K and ∂R/∂S, each of shape (…, bands).
    """
    square = K * (K + 2 * S)
    n = np.sqrt(square)
    c = n / np.tanh(np.maximum(n, THIN))
    c = np.where(n > THIN, c, 1 + square / 3)
    # dc/d(n²) = (coth n − n ÷ sinh² n) ÷ 2n, where 1 ÷ sinh² = coth² − 1 leaves c and n² alone.
    over = np.where(n > THIN, (c - c**2 + square) / np.maximum(2 * square, THIN**2), 1 / 3)
    c_K, c_S = over * 2 * (K + S), over * 2 * K
    top = S * (1 - ground) + ground * (c - K)
    bottom = S * (1 - ground) + c + K
    R = top / bottom
    R_K = (ground * (c_K - 1) - R * (c_K + 1)) / bottom
    R_S = ((1 - ground) + ground * c_S - R * ((1 - ground) + c_S)) / bottom
    return R, R_K, R_S


def surface_slope(inner: FloatArray) -> FloatArray:
    """Return d(reflectance as seen)/d(reflectance beneath the surface), shape of `inner`."""
    k1, k2 = OUTER_REFLECTION, INNER_REFLECTION
    return np.asarray((1 - k1) * (1 - k2) / (1 - k2 * inner) ** 2)


def lab_slopes(xyz: FloatArray, white_xyz: FloatArray) -> FloatArray:
    """Return ∂(L*, a*, b*)/∂(X, Y, Z), shape (…, 3, 3), at colours of shape (…, 3)."""
    ratio = xyz / white_xyz
    steep = np.where(ratio > EPSILON, np.maximum(ratio, EPSILON) ** (-2 / 3) / 3, SLOPE) / white_xyz
    slopes = np.zeros((*xyz.shape, 3))
    slopes[..., 0, 1] = 116 * steep[..., 1]
    slopes[..., 1, 0], slopes[..., 1, 1] = 500 * steep[..., 0], -500 * steep[..., 1]
    slopes[..., 2, 1], slopes[..., 2, 2] = 200 * steep[..., 1], -200 * steep[..., 2]
    return slopes
