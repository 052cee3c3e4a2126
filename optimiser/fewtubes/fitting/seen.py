"""Colours as they were seen, brought to CIELAB whichever way they were given."""

from collections.abc import Sequence

import numpy as np

from fewtubes.colour.bands import FloatArray
from fewtubes.colour.display import hex_to_lab
from fewtubes.fitting.grounds import Grounds
from fewtubes.fitting.sheet import PaintedSwatch, ScreenColour, Seen, SeenLab
from fewtubes.mixing.mixture import Optics, reflectance_lab

__all__ = ["lab_of", "labs_of"]


def lab_of(colour: Seen, optics: Optics) -> FloatArray:
    """Return CIELAB of a colour, shape (3,); of a spectrum under the light of the optics."""
    if isinstance(colour, SeenLab):
        return np.array(colour.lab)
    if isinstance(colour, ScreenColour):
        return hex_to_lab("#{:02x}{:02x}{:02x}".format(*colour.channels))
    return reflectance_lab(colour.reflectance, optics)


def labs_of(swatches: Sequence[PaintedSwatch], grounds: Grounds) -> FloatArray:
    """Return CIELAB of swatches, shape (swatches, 3)."""
    return np.array([lab_of(swatch.colour, grounds.optics) for swatch in swatches])
