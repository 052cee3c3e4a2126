"""Sets of which one tube must be bought: the reason why a colour stays out of reach.

A blocker of a sample is a set of tubes that shares a tube with every set covering the sample. Who
buys none of them cannot have the colour: "one of these pinks, or this petal stays out of reach".
Blockers are found where they are needed and kept, since they hold whatever the budget.
"""

import numpy as np
import numpy.typing as npt

from fewtubes.masks import BoolArray
from fewtubes.selection.packed import PackedSets

__all__ = ["BlockerPool"]

FloatRows = npt.NDArray[np.float32]


class BlockerPool:
    """The blockers found so far; rows are added, never changed.

    Attributes
    ----------
    rows
        Tubes of each blocker as 0 or 1, shape (blockers, n).
    samples
        The sample each one blocks, shape (blockers,).
    """

    def __init__(self, packed: PackedSets) -> None:
        self._packed = packed
        self._known: set[bytes] = set()
        self._count = 0
        self._rows: FloatRows = np.zeros((256, packed.tube_count), dtype=np.float32)
        self._samples: npt.NDArray[np.intp] = np.zeros(256, dtype=np.intp)

    @property
    def rows(self) -> FloatRows:
        """Tubes of each blocker as 0 or 1, shape (blockers, n)."""
        return self._rows[: self._count]

    @property
    def samples(self) -> npt.NDArray[np.intp]:
        """The sample each one blocks, shape (blockers,)."""
        return self._samples[: self._count]

    def add(self, sample: int, palette: BoolArray, excluded: BoolArray) -> None:
        """Find a blocker of a sample without tubes of the palette, and keep it.

        Parameters
        ----------
        palette, excluded
            Tubes held and tubes ruled out, shape (n,); the palette does not cover the sample. The
            blocker takes in tubes ruled out freely, so that among the others it is small.
        """
        blocker = smallest_blocker(self._packed.members[sample], palette, excluded)
        key = sample.to_bytes(4, "little") + blocker.tobytes()
        if key in self._known:
            return
        self._known.add(key)
        if self._count == len(self._rows):
            self._rows = np.concatenate([self._rows, np.zeros_like(self._rows)])
            self._samples = np.concatenate([self._samples, np.zeros_like(self._samples)])
        self._rows[self._count] = blocker
        self._samples[self._count] = sample
        self._count += 1


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
    blocker = excluded & sets.any(axis=0)
    open_sets = sets[~sets[:, blocker].any(axis=1)]
    meets = (open_sets & ~palette).sum(axis=0)
    while len(open_sets):
        tube = int(meets.argmax())
        blocker[tube] = True
        met = open_sets[:, tube]
        meets = meets - (open_sets[met] & ~palette).sum(axis=0)
        open_sets = open_sets[~met]
    return np.asarray(blocker)
