"""How much of the ground a full-strength film hides.

The contrast ratio is that of TAPPI T 425 and ISO 6504-3 in idea: luminous reflectance over black
divided by that over white, both beneath the surface, whose gloss would lift the darks. The class
names are the trade's; the cut-offs are our own choice, since watercolour has no standard for them.
"""

from enum import IntEnum

import numpy as np

from fewtubes.colour.bands import FloatArray
from fewtubes.mixing.film import film_reflectance
from fewtubes.mixing.surface import beneath_surface

__all__ = ["CUT_OFFS", "Transparency", "contrast_ratio", "transparency"]

WHITE_BACKING = 0.89
"""Reflectance of the white backing, as in TAPPI T 425 (C0.89)."""


class Transparency(IntEnum):
    """The trade's four classes; a larger number hides more."""

    TRANSPARENT = 1
    SEMI_TRANSPARENT = 2
    SEMI_OPAQUE = 3
    OPAQUE = 4

    @property
    def word(self) -> str:
        """The class as it is printed, e.g. ``semi-transparent``."""
        return self.name.lower().replace("_", "-")


CUT_OFFS = (
    (0.0, Transparency.TRANSPARENT),
    (0.10, Transparency.SEMI_TRANSPARENT),
    (0.25, Transparency.SEMI_OPAQUE),
    (0.50, Transparency.OPAQUE),
)
"""Contrast ratio [0–1] from which each class begins; our own choice, no standard.

House paint is held to about 0.98 (ISO 6504-3, from memory); a watercolour stroke stays far below.
From half on, the film itself sends back more light than comes up from a white ground through it;
below a tenth, nearly all of its light comes from the ground.
"""


def contrast_ratio(K: FloatArray, S: FloatArray, luminous_weights: FloatArray) -> FloatArray:
    """Return the luminous reflectance over black ÷ over white of full-strength films [0–1].

    Parameters
    ----------
    K, S
        Absorption and scattering at full strength, shape (…, bands).
    luminous_weights
        The Y column of the tristimulus weights, shape (bands,).
    """
    white = np.full(K.shape[-1], WHITE_BACKING)
    over_black = film_reflectance(K, S, 0.0) @ luminous_weights
    over_white = film_reflectance(K, S, beneath_surface(white)) @ luminous_weights
    return np.asarray(over_black / over_white)


def transparency(ratio: float) -> Transparency:
    """Return the class of a contrast ratio [0–1]."""
    return max(grade for start, grade in CUT_OFFS if ratio >= start)
