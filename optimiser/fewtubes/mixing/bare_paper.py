"""The paper left bare, as a recipe without tubes: what watercolourists call reserving the white.

A colour that the paper already has needs no paint: one paints around it (common practice, no
source). Coloured papers do the same for colours near theirs.
"""

import numpy as np

from fewtubes.colour.bands import FloatArray
from fewtubes.colour.difference import delta_e_2000
from fewtubes.mixing.mixture import Optics, reflectance_lab
from fewtubes.mixing.surface import with_surface

__all__ = ["paper_differences", "paper_lab"]


def paper_lab(optics: Optics) -> FloatArray:
    """Return CIELAB of the bare paper, shape (3,)."""
    return reflectance_lab(with_surface(optics.ground), optics)


def paper_differences(labs: FloatArray, optics: Optics) -> FloatArray:
    """Return how far the bare paper is from each colour [ΔE00], (colours, 3) to (colours,).

    Whatever asks whether the paper does for a colour asks here, so that all decide by one figure.
    """
    return np.asarray(delta_e_2000(paper_lab(optics), labs.reshape(-1, 3)))
