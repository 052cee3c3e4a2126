"""An invented camera that sees otherwise than the eye, as every real one does.

Its three sensitivities are bell curves and no mixture of the observer's, so that no matrix makes
its colours true (the Luther condition fails; R. Luther, Z. techn. Phys. 8, 540, 1927). Like real
cameras it takes the matrix that is best on average, found over paints of the demo catalogue.
"""

from dataclasses import dataclass

import numpy as np

from fewtubes.catalogue.reading import read_catalogue
from fewtubes.colour.bands import WAVELENGTH_NM, FloatArray
from fewtubes.colour.display import lab_to_linear
from fewtubes.mixing.film import film_reflectance
from fewtubes.mixing.mixture import Optics, reflectance_lab
from fewtubes.mixing.surface import with_surface

__all__ = ["InventedCamera"]

CENTRES_NM, WIDTHS_NM = (600.0, 540.0, 455.0), (35.0, 38.0, 28.0)
"""Of the red, green and blue sensitivities; of the size that camera sensors have, from memory."""

STRENGTHS = (1.0, 0.5, 0.25, 0.125)


@dataclass(frozen=True, eq=False)
class InventedCamera:
    """Linear sRGB = reflectance @ weights, shape (bands, 3)."""

    weights: FloatArray

    @classmethod
    def made_for(cls, optics: Optics) -> "InventedCamera":
        """Return the camera, its matrix found on washes of the demo's pigments."""
        light = optics.weights.sum(axis=1)  # falls off at the ends as every eye and sensor does
        curves = [
            np.exp(-(((WAVELENGTH_NM - centre) / width) ** 2) / 2)
            for centre, width in zip(CENTRES_NM, WIDTHS_NM, strict=True)
        ]
        raw = np.array(curves).T * np.maximum(light, 0.05 * light.max())[:, None]
        raw /= raw.sum(axis=0)  # white balance: a perfect white is 1 in all three
        pigments = read_catalogue().pigments.values()
        films = [
            film_reflectance(load * pigment.K, load * pigment.S, optics.ground)
            for pigment in pigments
            for load in STRENGTHS
        ]
        seen = np.vstack([with_surface(np.array(films)), np.ones_like(WAVELENGTH_NM)])
        true = lab_to_linear(reflectance_lab(seen, optics))
        recorded = seen @ raw
        # White stays white: it counts as much as all the washes together.
        sure = np.ones(len(seen))
        sure[-1] = len(seen)
        matrix = np.linalg.lstsq(recorded * sure[:, None], true * sure[:, None], rcond=None)[0]
        return cls(np.asarray(raw @ matrix))

    def linear(self, seen: FloatArray) -> FloatArray:
        """Return linear sRGB of reflectances as seen, (…, bands), not held to 0–1."""
        return np.asarray(seen @ self.weights)
