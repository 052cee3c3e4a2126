"""The minimal sets of sample colours, computed once and remembered colour by colour.

They depend on the paints, the paper, the light, the recipe space and the tolerance, but not on
budget or other wishes; a scenario with other flowers only computes the colours that are new. What
was mixed of three tubes serves a painter who mixes two: the minimal sets of two are those of three
that are no larger.
"""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import replace
from typing import Any

import numpy as np
import numpy.typing as npt

from fewtubes.colour.bands import FloatArray
from fewtubes.coverage.cache import Cache
from fewtubes.coverage.reach import MOST_IN_SET, NO_TUBE, SetArray, find_reach
from fewtubes.mixing.deadline import Deadline
from fewtubes.mixing.effort import mixing_stage
from fewtubes.mixing.mixture import Optics
from fewtubes.mixing.recipes import MOST_IN_MIX, RecipeSpace

__all__ = ["no_larger", "reach_of"]

KIND = "reach"

TYPES: dict[str, np.dtype[Any]] = {
    "labs": np.dtype("<f8"),
    "sets": np.dtype("<i2"),
    "counts": np.dtype("<i8"),
}
"""Types of what is kept: see `_packed`."""


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
    bases = [
        {
            "K": K,
            "S": S,
            "ground": optics.ground,
            "weights": optics.weights,
            "strengths": np.array(one.strengths),
            "parts": np.array([n for parts in one.parts.values() for row in parts for n in row]),
            "tolerance": np.array(tolerance),
        }
        for one in _as_wide(space)
    ]
    basis = bases[0]
    known = _unpacked(cache.load(KIND, basis), tube_count=len(K))
    keys = [tuple(lab) for lab in labs.tolist()]
    for wider in bases[1:]:
        if any(key not in known for key in keys):
            held = _unpacked(cache.load(KIND, wider), tube_count=len(K))
            known = {key: no_larger(sets, space.most_tubes) for key, sets in held.items()} | known
    missing = [key for key in dict.fromkeys(keys) if key not in known]
    if missing:
        if progress is not None:
            purpose, limit = f"for {len(missing)} colours", deadline or Deadline()
            progress(mixing_stage(len(K), purpose, limit, space.most_tubes))
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


def no_larger(sets: SetArray, most: int) -> SetArray:
    """Return the minimal sets of a colour that hold at most so many tubes, shape (sets, 3)."""
    return np.asarray(sets[(sets != NO_TUBE).sum(axis=1) <= most])


def _as_wide(space: RecipeSpace) -> Iterator[RecipeSpace]:
    """Yield the space, then those of the same washes in which a mix holds more tubes."""
    for most in range(space.most_tubes, MOST_IN_MIX + 1):
        yield replace(space, most_tubes=most)


Arrays = Mapping[str, npt.NDArray[Any]]

Known = dict[tuple[float, ...], SetArray]


def _packed(known: Known) -> Arrays:
    """Return colours, all their sets in a row, and how many belong to each colour."""
    return {
        "labs": np.array(list(known), TYPES["labs"]),
        "sets": np.concatenate([np.zeros((0, MOST_IN_SET), TYPES["sets"]), *known.values()]),
        "counts": np.array([len(sets) for sets in known.values()], TYPES["counts"]),
    }


def _unpacked(stored: Arrays | None, *, tube_count: int) -> Known:
    """Return the inverse of `_packed`; nothing where the content makes no sense."""
    if stored is None or not _sensible(stored, tube_count=tube_count):
        return {}
    ends = np.cumsum(stored["counts"])[:-1]
    parts = np.split(stored["sets"], ends.astype(np.intp))
    return {tuple(lab): sets for lab, sets in zip(stored["labs"].tolist(), parts, strict=True)}


def _sensible(stored: Arrays, *, tube_count: int) -> bool:
    """Whether the arrays are of the kinds and shapes of `_packed`, and sets of known tubes."""
    if {name: array.dtype for name, array in stored.items()} != TYPES:
        return False
    labs, sets, counts = stored["labs"], stored["sets"], stored["counts"]
    return (
        labs.shape[1:] == (3,)
        and counts.shape == labs.shape[:1]
        and sets.shape[1:] == (MOST_IN_SET,)
        and bool(np.isfinite(labs).all())
        and bool((counts >= 0).all() and (counts <= len(sets)).all())
        and int(counts.sum()) == len(sets)
        and _ascending(sets, tube_count)
    )


def _ascending(sets: SetArray, tube_count: int) -> bool:
    """Whether each row holds tubes there are, in ascending order, filled up with `NO_TUBE`."""
    numbers = np.where(sets == NO_TUBE, tube_count, sets.astype(np.int64))
    rising = (np.diff(numbers) > 0) | (sets[:, 1:] == NO_TUBE)
    return bool((numbers >= 0).all() and (sets < tube_count).all() and rising.all())
