"""Smallest hitting sets: the fewest tubes of which one must be bought to reach a colour.

Every recipe that reaches a colour holds one of them beside what is owned: such a set hits all
minimal sets of the colour. It is found by trying the tubes of a set not yet hit, one after the
other, to a small depth.
"""

import numpy as np

from fewtubes.masks import BoolArray

__all__ = ["MOST_IN_BLOCKER", "least_blocker", "set_rows"]

MOST_IN_BLOCKER = 6
"""Tubes up to which such a set tells a painter anything; larger ones are not looked for."""


def set_rows(sets: tuple[tuple[int, ...], ...], owned: frozenset[int], count: int) -> BoolArray:
    """Return minimal sets as rows without the owned tubes, shape (sets, tubes)."""
    rows = np.zeros((len(sets), count), dtype=np.bool_)
    for row, tubes in enumerate(sets):
        rows[row, list(tubes)] = True
    rows[:, list(owned)] = False
    return rows


def least_blocker(rows: BoolArray, most: int = MOST_IN_BLOCKER) -> tuple[int, ...] | None:
    """Return a smallest set of tubes that shares a tube with every row, ascending.

    Parameters
    ----------
    rows
        The minimal sets of a colour, up to three tubes each, without owned ones, shape
        (sets, tubes).
    most
        Largest size looked for.

    Returns
    -------
    None if there is no row, if a row is empty (what is owned reaches the colour), or if every such
    set is larger than `most`.
    """
    if not len(rows) or not rows.any(axis=1).all():
        return None
    for size in range(1, most + 1):
        found = _hit(rows, size)
        if found is not None:
            return tuple(sorted(found))
    return None


def _hit(rows: BoolArray, size: int) -> tuple[int, ...] | None:
    """Return at most `size` tubes that hit all rows, or None if there are no such tubes."""
    if not len(rows):
        return ()
    counts = rows.sum(axis=0)
    if int(np.partition(counts, -size)[-size:].sum() if size < len(counts) else counts.sum()) < len(
        rows
    ):
        return None  # even the tubes in most rows cannot hit them all
    if size == 1:
        return (int(counts.argmax()),) if counts.max() == len(rows) else None
    tubes = np.flatnonzero(rows[rows.sum(axis=1).argmin()])
    for tube in sorted(tubes.tolist(), key=lambda tube: -int(counts[tube])):
        rest = _hit(rows[~rows[:, tube]], size - 1)
        if rest is not None:
            return (tube, *rest)
    return None
