"""The minimal sets that are left once tubes are ruled out."""

import numpy as np

from fewtubes.coverage.reach import NO_TUBE, SetArray

__all__ = ["sets_without"]


def sets_without(
    sets: tuple[SetArray, ...], out: frozenset[int], count: int
) -> tuple[tuple[tuple[int, ...], ...], ...]:
    """Return the sets that hold none of the tubes ruled out, as tuples."""
    ruled_out = np.zeros(count + 1, dtype=np.bool_)  # the last place stands for NO_TUBE
    ruled_out[list(out)] = True
    found = []
    for rows in sets:
        kept = rows[~ruled_out[rows].any(axis=1)]
        sizes = (kept != NO_TUBE).sum(axis=1).tolist()  # what fills up a row stands at its end
        wide = kept.tolist()
        found.append(tuple([tuple(row[:size]) for row, size in zip(wide, sizes, strict=True)]))
    return tuple(found)
