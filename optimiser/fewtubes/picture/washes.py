"""What a tube looks like from a full-strength stroke to the thinnest wash, by the film model."""

from dataclasses import dataclass, replace

import numpy as np

from fewtubes.catalogue.records import Tube
from fewtubes.colour.bands import FloatArray
from fewtubes.mixing.matching import recipe_lab
from fewtubes.mixing.mixture import Optics, mixture_lab
from fewtubes.mixing.recipes import STRENGTHS, Recipe

__all__ = ["RIM_LOAD", "TubeWashes", "rim_lab", "washes_of"]

RIM_LOAD = 1.3
"""Load at the edge of a stroke ÷ its load inside: paint gathers where a wash dries last.

The effect is common practice, no source; the amount is our own and only for the look.
"""


@dataclass(frozen=True, eq=False)
class TubeWashes:
    """CIELAB at each of `STRENGTHS`, full strength first; shapes (12, 3)."""

    inside: FloatArray
    rim: FloatArray
    over_black: FloatArray
    """Over a black line under the same surface."""
    black: FloatArray
    """The black line itself, shape (3,)."""


def washes_of(tube: Tube, optics: Optics) -> TubeWashes:
    """Return the washes of a tube on a paper under a light."""
    loads = np.array(STRENGTHS)[:, None]
    K, S = tube.K[None], tube.S[None]
    black = replace(optics, ground=np.zeros_like(optics.ground))
    return TubeWashes(
        inside=mixture_lab(loads, K, S, optics),
        rim=mixture_lab(RIM_LOAD * loads, K, S, optics),
        over_black=mixture_lab(loads, K, S, black),
        black=mixture_lab(np.zeros(1), K, S, black),
    )


def rim_lab(recipe: Recipe, tubes: dict[str, Tube], optics: Optics) -> FloatArray:
    """Return CIELAB at the edge of a stroke of a mix, shape (3,)."""
    return recipe_lab(replace(recipe, strength=RIM_LOAD * recipe.strength), tubes, optics)
