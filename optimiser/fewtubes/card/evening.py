"""Light and shadow over a card, told by its bare paper.

The paper is the same everywhere, so that what it sends back shows the light that falls there. The
logarithm of that is a polynomial of low order in the place, fitted to all bare paper so that
patches that a brush or a shadow has touched count for nothing (least squares weighted again and
again with the biweight of A. E. Beaton and J. W. Tukey, Technometrics 16(2), 147, 1974).
"""

from dataclasses import dataclass

import numpy as np

from fewtubes.colour.bands import FloatArray

__all__ = ["LightField", "light_field"]

ROUNDS = 20
"""Of weighing again; it settles in fewer."""

BIWEIGHT = 4.685
"""Spreads from which on a patch counts for nothing; 95 % efficient for normal errors."""

LEAST_SPREAD = 0.004
"""Of the logarithm of light: half a level of sRGB."""

MAD_TO_SPREAD = 1.4826
"""From the median of the absolute deviations to a standard deviation, for normal errors."""

PATCHES_FOR = {2: 12, 1: 4}
"""Patches that a polynomial of each order asks for: more than its terms, 6 and 3."""


@dataclass(frozen=True, eq=False)
class LightField:
    """The light over a picture, as it falls back from bare paper."""

    centre: FloatArray
    """Middle of the patches [pixels], shape (2,)."""
    scale: float
    """Reach of the patches from there [pixels]."""
    order: int
    coefficients: FloatArray
    """Of the logarithm of linear light, shape (terms, 3)."""
    spread: float
    """How far bare paper is off the polynomial: standard deviation of the logarithm."""
    outliers: float
    """Share of the patches that count for nothing [0–1]."""

    def at(self, places: FloatArray) -> FloatArray:
        """Return the linear light of bare paper at places, shapes (…, 2) and (…, 3)."""
        unit = (places - self.centre) / self.scale
        return np.asarray(np.exp(_terms(unit, self.order) @ self.coefficients))


def light_field(places: FloatArray, linear: FloatArray) -> LightField:
    """Return the light that bare paper tells of.

    Parameters
    ----------
    places
        Of the patches in the picture [pixels], shape (patches, 2).
    linear
        Their linear light, > 0, shape (patches, 3).
    """
    order = next((order for order, least in PATCHES_FOR.items() if len(places) >= least), 0)
    centre = places.mean(axis=0)
    scale = float(max(np.abs(places - centre).max(), 1.0))
    terms = _terms((places - centre) / scale, order)
    wanted = np.log(linear)
    weights = _first_weights(wanted)
    spread = LEAST_SPREAD
    for _ in range(ROUNDS):
        root = np.sqrt(weights)[:, None]
        coefficients = np.linalg.lstsq(terms * root, wanted * root, rcond=1e-6)[0]
        off = np.linalg.norm(wanted - terms @ coefficients, axis=1) / np.sqrt(3)
        spread = max(MAD_TO_SPREAD * float(np.median(off)), LEAST_SPREAD)
        weights = np.maximum(1 - (off / (BIWEIGHT * spread)) ** 2, 0.0) ** 2
    return LightField(centre, scale, order, coefficients, spread, float((weights == 0).mean()))


def _first_weights(wanted: FloatArray) -> FloatArray:
    """Return weights that leave out patches far from the median, as paint on them makes them."""
    off = np.abs(wanted - np.median(wanted, axis=0)).max(axis=1)
    return np.asarray(np.where(off <= 3 * np.median(off) + LEAST_SPREAD, 1.0, 1e-3))


def _terms(unit: FloatArray, order: int) -> FloatArray:
    """Return the products of powers of x and y up to an order, shape (…, terms)."""
    x, y = unit[..., 0], unit[..., 1]
    return np.stack([x**i * y**j for total in range(order + 1) for i, j in _powers(total)], axis=-1)


def _powers(total: int) -> list[tuple[int, int]]:
    return [(total - j, j) for j in range(total + 1)]
