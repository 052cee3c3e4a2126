"""Colours as they were seen, brought to CIELAB whichever way they were given."""

from collections.abc import Sequence

import numpy as np

from fewtubes.colour.bands import FloatArray
from fewtubes.colour.display import hex_to_lab, lab_to_linear, linear_to_lab
from fewtubes.fitting.grounds import Grounds
from fewtubes.fitting.sheet import PaintedSwatch, ScreenColour, Seen, SeenLab
from fewtubes.mixing.mixture import Optics, reflectance_lab

__all__ = ["as_seen", "lab_of", "labs_of"]

FULL = 255
"""A channel of a screen at its upper end."""


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


def as_seen(labs: FloatArray, swatches: Sequence[PaintedSwatch]) -> FloatArray:
    """Return computed colours as they would have been seen, shape (…, swatches, 3).

    Parameters
    ----------
    labs
        CIELAB computed for each swatch, shape (…, swatches, 3).
    swatches
        Where one is a screen's colour and a channel of it is at its end, what lies beyond that end
        is held back as the screen does.
    """
    seen = np.array(labs, dtype=float)
    for place, swatch in enumerate(swatches):
        if isinstance(swatch.colour, ScreenColour):
            channels = np.array(swatch.colour.channels)
            linear = lab_to_linear(seen[..., place, :])
            held = np.where(channels == 0, np.maximum(linear, 0.0), linear)
            held = np.where(channels == FULL, np.minimum(held, 1.0), held)
            changed = (held != linear).any(axis=-1, keepdims=True)
            seen[..., place, :] = np.where(changed, linear_to_lab(held), seen[..., place, :])
    return seen
