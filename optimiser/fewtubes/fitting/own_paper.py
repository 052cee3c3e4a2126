"""The paper of the swatches: a reflectance that has the colour seen."""

import numpy as np

from fewtubes.catalogue.records import Paper
from fewtubes.colour.bands import WAVELENGTH_NM, FloatArray
from fewtubes.colour.cielab import lab_to_xyz
from fewtubes.colour.difference import delta_e_2000
from fewtubes.fitting.seen import lab_of
from fewtubes.fitting.sheet import Seen, SeenReflectance
from fewtubes.mixing.mixture import Optics, reflectance_lab

__all__ = ["SAME_PAPER", "paper_like"]

SAME_PAPER = 1.0
"""Papers nearer than this are one paper to the eye [ΔE00]."""

STEPS = 20
"""Of Newton's method; half a dozen do."""


def paper_like(usual: Paper, seen: Seen, optics: Optics, *, id_: str, name: str) -> Paper:
    """Return a paper of the colour seen: the usual one where the eye cannot tell them apart.

    Parameters
    ----------
    usual
        A paper of the same kind.
    seen
        The bare paper.
    optics
        Of the usual paper, in the light it was seen under.
    id_, name
        Of the paper if it is another.

    Notes
    -----
    A measured spectrum is taken as it is. From a colour alone, the usual reflectance is multiplied
    by exp(level + tilt + bow), of which the three sizes follow from X, Y and Z (Newton's method).
    """
    lab = lab_of(seen, optics)
    if float(delta_e_2000(reflectance_lab(usual.reflectance, optics), lab)) < SAME_PAPER:
        return usual
    if isinstance(seen, SeenReflectance):
        return Paper(id_, name, seen.reflectance)
    return Paper(id_, name, _bent(usual.reflectance, lab_to_xyz(lab, optics.white), optics))


def _bent(reflectance: FloatArray, xyz: FloatArray, optics: Optics) -> FloatArray:
    """Return a reflectance with these tristimulus values, at most 1, shape (bands,)."""
    across = (WAVELENGTH_NM - WAVELENGTH_NM.mean()) / np.ptp(WAVELENGTH_NM) * 2
    bends = np.stack([np.ones_like(across), across, across**2])
    sizes = np.zeros(3)
    for _ in range(STEPS):
        bent = reflectance * np.exp(sizes @ bends)
        slopes = (bends * bent) @ optics.weights
        sizes = sizes + np.linalg.solve(slopes.T, xyz - bent @ optics.weights)
    found: FloatArray = np.minimum(reflectance * np.exp(sizes @ bends), 1.0)
    found.setflags(write=False)
    return found
