"""The colour of a mixture of paints on paper, exactly.

Source: D. R. Duncan, The colour of pigment mixtures, Proc. Phys. Soc. 52(3), 1940, 390–401 (K and S
of a mixture are the sums of its parts').
"""

from dataclasses import dataclass

import numpy as np

from fewtubes.catalogue.records import Light, Paper
from fewtubes.colour.bands import FloatArray
from fewtubes.colour.cielab import xyz_to_lab
from fewtubes.colour.light import tristimulus_weights, white_point
from fewtubes.mixing.film import film_reflectance
from fewtubes.mixing.surface import beneath_surface, with_surface

__all__ = ["Optics", "film_lab", "mixture_lab", "reflectance_lab"]


@dataclass(frozen=True, eq=False)
class Optics:
    """What a film lies on and is seen under.

    Parameters
    ----------
    ground
        Reflectance of the paper beneath its surface [0–1], shape (bands,).
    weights
        Tristimulus weights of the light, shape (bands, 3).
    white
        XYZ of the perfect diffuser under that light, shape (3,).
    """

    ground: FloatArray
    weights: FloatArray
    white: FloatArray

    @classmethod
    def of(cls, paper: Paper, light: Light) -> "Optics":
        """Return the optics of a paper under a light; takes seconds (see `tristimulus_weights`)."""
        return cls.with_weights(paper, tristimulus_weights(light.wavelength_nm, light.power))

    @classmethod
    def with_weights(cls, paper: Paper, weights: FloatArray) -> "Optics":
        """Return the optics of a paper under a light whose weights, (bands, 3), are known."""
        return cls(beneath_surface(paper.reflectance), weights, white_point(weights))


def reflectance_lab(reflectance: FloatArray, optics: Optics) -> FloatArray:
    """Return CIELAB, shape (…, 3), of reflectances as seen [0–1], shape (…, bands)."""
    return xyz_to_lab(reflectance @ optics.weights, optics.white)


def mixture_lab(loads: FloatArray, K: FloatArray, S: FloatArray, optics: Optics) -> FloatArray:
    """Return CIELAB of mixtures on paper.

    Parameters
    ----------
    loads
        Load of each tube, ≥ 0, shape (…, tubes); 1 in all is a full-strength stroke.
    K, S
        Absorption and scattering per unit load [1/load], shape (tubes, bands).
    optics
        Paper and light.

    Returns
    -------
    CIELAB relative to the light's white, shape (…, 3).
    """
    return film_lab(loads @ K, loads @ S, optics)


def film_lab(K: FloatArray, S: FloatArray, optics: Optics) -> FloatArray:
    """Return CIELAB, shape (…, 3), of films with this K and S in all, shapes (…, bands)."""
    inner = film_reflectance(K, S, optics.ground)
    return reflectance_lab(with_surface(np.asarray(inner)), optics)
