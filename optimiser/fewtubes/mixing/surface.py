"""The surface of dry paint: light reflected before it enters and on its way out.

Source: J. L. Saunderson, Calculation of the Color of Pigmented Plastics, JOSA 32(12), 1942,
727–736. The coefficients follow from Fresnel's equations at a refractive index of 1.5.
"""

import numpy as np

from fewtubes.colour.bands import FloatArray

__all__ = ["INNER_REFLECTION", "OUTER_REFLECTION", "beneath_surface", "with_surface"]

OUTER_REFLECTION = 0.040
"""k1: share of light along the normal that a surface of index 1.5 reflects, ((n−1)/(n+1))²."""

INNER_REFLECTION = 0.596
"""k2: share of diffuse light from inside that such a surface throws back [0–1]."""


def with_surface(
    inner: FloatArray, *, k1: float = OUTER_REFLECTION, k2: float = INNER_REFLECTION
) -> FloatArray:
    """Return the reflectance seen from outside, k1 + (1 − k1)(1 − k2) R / (1 − k2 R)."""
    return np.asarray(k1 + (1 - k1) * (1 - k2) * inner / (1 - k2 * inner))


def beneath_surface(
    outer: FloatArray, *, k1: float = OUTER_REFLECTION, k2: float = INNER_REFLECTION
) -> FloatArray:
    """Return the reflectance inside, the inverse of `with_surface`; values below k1 give 0."""
    lifted = np.maximum(outer - k1, 0.0)
    return np.asarray(lifted / ((1 - k1) * (1 - k2) + k2 * lifted))
