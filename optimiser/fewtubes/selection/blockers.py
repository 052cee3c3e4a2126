"""Blockers: hitting sets, of which one tube must be bought or a colour stays out of reach.

A blocker of a sample is a set of tubes that shares a tube with every set covering the sample. Who
buys none of them cannot have the colour: "one of these pinks, or this petal stays out of reach".
Blockers are found where they are needed and kept, since they hold whatever the budget.
"""

import numpy as np
import numpy.typing as npt

from fewtubes.masks import BoolArray
from fewtubes.selection.packed import PackedSets

__all__ = ["BlockerPool", "Rows", "smallest_blocker"]

Rows = npt.NDArray[np.float32]

FIRST_ROOM = 256
"""Blockers there is room for at first; the room is doubled when it is full."""


class BlockerPool:
    """The blockers found so far; they are added to, never changed."""

    def __init__(self, packed: PackedSets) -> None:
        self._packed = packed
        self._known: set[bytes] = set()
        self._count = 0
        self._rows: Rows = np.zeros((FIRST_ROOM, packed.tube_count), dtype=np.float32)
        self._samples: npt.NDArray[np.intp] = np.zeros(FIRST_ROOM, dtype=np.intp)

    @property
    def rows(self) -> Rows:
        """Tubes of each blocker as 0 or 1, shape (blockers, n)."""
        return self._rows[: self._count]

    @property
    def samples(self) -> npt.NDArray[np.intp]:
        """The sample each one blocks, shape (blockers,)."""
        return self._samples[: self._count]

    def add(self, sample: int, palette: BoolArray, excluded: BoolArray) -> BoolArray:
        """Find a blocker of a sample, keep it and return it, shape (n,).

        Parameters
        ----------
        palette, excluded
            Tubes held and tubes ruled out, shape (n,); the palette does not cover the sample. The
            blocker holds none of the first; the second it takes in freely, so that among the
            others it is small.
        """
        blocker = smallest_blocker(self._packed.members[sample], palette, excluded)
        key = sample.to_bytes(4, "little") + blocker.tobytes()
        if key in self._known:
            return blocker
        self._known.add(key)
        if self._count == len(self._rows):
            self._rows = np.concatenate([self._rows, np.zeros_like(self._rows)])
            self._samples = np.concatenate([self._samples, np.zeros_like(self._samples)])
        self._rows[self._count] = blocker
        self._samples[self._count] = sample
        self._count += 1
        return blocker


def smallest_blocker(sets: BoolArray, palette: BoolArray, excluded: BoolArray) -> BoolArray:
    """Return a blocker, shape (n,), found greedily: the tube that meets most sets first.

    Parameters
    ----------
    sets
        The minimal sets of a sample, shape (sets, n).
    palette
        Tubes the blocker must not hold; they hold none of the sets whole.
    excluded
        Tubes the blocker holds at no cost.
    """
    blocker: BoolArray = excluded & sets.any(axis=0)
    open_sets = sets[~sets[:, blocker].any(axis=1)]
    meets = (open_sets & ~palette).sum(axis=0)
    while len(open_sets):
        tube = int(meets.argmax())
        blocker[tube] = True
        met = open_sets[:, tube]
        meets = meets - (open_sets[met] & ~palette).sum(axis=0)
        open_sets = open_sets[~met]
    return _without_surplus(blocker, sets, excluded)


def _without_surplus(blocker: BoolArray, sets: BoolArray, excluded: BoolArray) -> BoolArray:
    """Drop tubes not ruled out whose sets all hold another tube of the blocker."""
    kept = blocker.copy()
    inside = sets & kept
    met = inside.sum(axis=1)
    for tube in np.flatnonzero(kept & ~excluded):
        if (met[inside[:, tube]] >= 2).all():
            met = met - inside[:, tube]
            inside[:, tube] = False
            kept[tube] = False
    return kept
