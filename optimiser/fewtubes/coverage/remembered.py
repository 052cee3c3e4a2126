"""The minimal sets of sample colours, computed once and remembered colour by colour.

They depend on the paints, the paper, the light, the recipe space and the tolerance, but not on
budget or wishes; a scenario with other flowers only computes the colours that are new.
"""

from collections.abc import Callable

import numpy as np

from fewtubes.colour.bands import FloatArray
from fewtubes.coverage.cache import Cache
from fewtubes.coverage.reach import MOST_IN_SET, SetArray, find_reach
from fewtubes.mixing.deadline import Deadline
from fewtubes.mixing.effort import mixing_stage
from fewtubes.mixing.mixture import Optics
from fewtubes.mixing.recipes import PARTS, RecipeSpace

__all__ = ["reach_of"]

KIND = "reach"


def reach_of(
    K: FloatArray,
    S: FloatArray,
    labs: FloatArray,
    *,
    optics: Optics,
    space: RecipeSpace,
    tolerance: float,
    cache: Cache,
    deadline: Deadline | None = None,
    progress: Callable[[str], None] | None = None,
) -> tuple[SetArray, ...]:
    """Return what `find_reach` returns, remembering it; see there for the other parameters.

    Parameters
    ----------
    progress
        Called with a few words, and how long it is expected to take, if there is anything to mix.
    """
    basis = {
        "K": K,
        "S": S,
        "ground": optics.ground,
        "weights": optics.weights,
        "strengths": np.array(space.strengths),
        "parts": np.array([number for parts in PARTS.values() for row in parts for number in row]),
        "tolerance": np.array(tolerance),
    }
    known = _unpacked(cache.load(KIND, basis))
    keys = [tuple(lab) for lab in labs.tolist()]
    missing = [key for key in dict.fromkeys(keys) if key not in known]
    if missing:
        if progress is not None:
            progress(mixing_stage(len(K), f"for {len(missing)} colours", deadline or Deadline()))
        found = find_reach(
            K,
            S,
            np.array(missing),
            optics=optics,
            space=space,
            tolerance=tolerance,
            deadline=deadline,
        )
        known.update(zip(missing, found, strict=True))
        cache.store(KIND, basis, _packed(known))
    return tuple(known[key] for key in keys)


Known = dict[tuple[float, ...], SetArray]


def _packed(known: Known) -> dict[str, FloatArray | SetArray]:
    """Return colours, all their sets in a row, and how many belong to each colour."""
    return {
        "labs": np.array(list(known)),
        "sets": np.concatenate([np.zeros((0, MOST_IN_SET), np.int16), *known.values()]),
        "counts": np.array([len(sets) for sets in known.values()]),
    }


def _unpacked(stored: dict[str, FloatArray] | None) -> Known:
    """Return the inverse of `_packed`; nothing where the content makes no sense."""
    if stored is None or set(stored) != {"labs", "sets", "counts"}:
        return {}
    ends = np.cumsum(stored["counts"])[:-1]
    parts = np.split(stored["sets"], ends.astype(np.intp))
    return {
        tuple(lab): sets.astype(np.int16)
        for lab, sets in zip(stored["labs"].tolist(), parts, strict=True)
    }
