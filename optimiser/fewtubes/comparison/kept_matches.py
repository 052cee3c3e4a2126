"""Checks recipes from the cache: whether they fit the colours and tubes that are asked about."""

from collections.abc import Mapping
from typing import Any

import numpy as np
import numpy.typing as npt

from fewtubes.mixing.recipes import PARTS

__all__ = ["NO_TUBE", "sensible"]

NO_TUBE = -1
"""Stands where a recipe has no further tube."""

Arrays = Mapping[str, npt.NDArray[Any]]

TYPES = {
    "tubes": np.dtype("<i8"),
    "parts": np.dtype("<i8"),
    "strengths": np.dtype("<f8"),
    "labs": np.dtype("<f8"),
    "differences": np.dtype("<f8"),
}


def sensible(stored: Arrays, *, colours: int, tubes: int) -> bool:
    """Whether the arrays have the types and shapes of one recipe per colour, of known tubes."""
    shapes = {
        "tubes": (colours, len(PARTS)),
        "parts": (colours, len(PARTS)),
        "strengths": (colours,),
        "labs": (colours, 3),
        "differences": (colours,),
    }
    return (
        {name: array.dtype for name, array in stored.items()} == TYPES
        and {name: array.shape for name, array in stored.items()} == shapes
        and _are_recipes(stored, tubes)
    )


def _are_recipes(stored: Arrays, tubes: int) -> bool:
    """Whether every row is a recipe of tubes there are, or none at all."""
    numbers, parts = stored["tubes"], stored["parts"]
    used = numbers != NO_TUBE
    mixed = used[:, 0]
    strengths, differences = stored["strengths"][mixed], stored["differences"][mixed]
    return bool(
        ((numbers >= NO_TUBE) & (numbers < tubes)).all()
        and (used[:, 1:] <= used[:, :-1]).all()
        and ((parts > 0) == used).all()
        and ((strengths > 0) & (strengths <= 1)).all()
        and (np.isfinite(differences) & (differences >= 0)).all()
        and np.isfinite(stored["labs"][mixed]).all()
    )
