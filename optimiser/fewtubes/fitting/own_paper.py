"""The paper of the swatches: a reflectance that has the colour seen."""

from collections.abc import Mapping
from itertools import chain, count

import numpy as np

from fewtubes.catalogue.records import Paper
from fewtubes.colour.bands import WAVELENGTH_NM, FloatArray
from fewtubes.colour.cielab import lab_to_xyz
from fewtubes.colour.difference import delta_e_2000
from fewtubes.fitting.seen import lab_of
from fewtubes.fitting.sheet import Seen, SeenReflectance
from fewtubes.mixing.mixture import Optics, reflectance_lab

__all__ = ["SAME_PAPER", "paper_like"]

PAPER_ID, PAPER_NAME = "swatch-paper", "paper of the swatches"
"""Of a new paper; a second one is numbered."""

SAME_PAPER = 1.0
"""Papers nearer than this are one paper to the eye [ΔE00]."""

STEPS = 20
"""Of Newton's method; half a dozen do."""


def paper_like(known: Mapping[str, Paper], usual: Paper, seen: Seen, optics: Optics) -> Paper:
    """Return a paper of the colour seen: a known one where the eye cannot tell them apart.

    Parameters
    ----------
    known
        Papers by id.
    usual
        The one of them whose kind a new one is taken to be of.
    seen
        The bare paper.
    optics
        The light it was seen under.

    Notes
    -----
    A measured spectrum is taken as it is. From a colour alone, the usual reflectance is multiplied
    by exp(level + tilt + bow), of which the three sizes follow from X, Y and Z (Newton's method).
    """
    lab = lab_of(seen, optics)
    near = {id_: _apart(paper, lab, optics) for id_, paper in known.items()}
    nearest = min(near, key=lambda id_: near[id_])
    if near[nearest] < SAME_PAPER:
        return known[nearest]
    id_, name = _unused(known)
    if isinstance(seen, SeenReflectance):
        return Paper(id_, name, seen.reflectance)
    return Paper(id_, name, _bent(usual.reflectance, lab_to_xyz(lab, optics.white), optics))


def _apart(paper: Paper, lab: FloatArray, optics: Optics) -> float:
    """Return how far a paper is from a colour [ΔE00]."""
    return float(delta_e_2000(reflectance_lab(paper.reflectance, optics), lab))


def _unused(known: Mapping[str, Paper]) -> tuple[str, str]:
    """Return an id and a name that no known paper has."""
    names = {paper.name for paper in known.values()}
    tries = chain([("", "")], ((f"-{number}", f" {number}") for number in count(2)))
    return next(
        (PAPER_ID + mark, PAPER_NAME + words)
        for mark, words in tries
        if PAPER_ID + mark not in known and PAPER_NAME + words not in names
    )


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
