"""What reaches each colour, in mixes as small as is wished, and in larger ones where none does."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace

import numpy as np

from fewtubes.colour.bands import FloatArray
from fewtubes.coverage.cache import Cache
from fewtubes.coverage.reach import SetArray
from fewtubes.errors import LimitError
from fewtubes.mixing.deadline import Deadline
from fewtubes.mixing.effort import expected_seconds
from fewtubes.mixing.mixture import Optics
from fewtubes.mixing.recipes import MOST_IN_MIX, RecipeSpace

__all__ = ["Mixing"]

ASIDE = 0.25
"""Share of the time left that looking at larger mixes may be expected to take; what they tell is a
reason, no part of the choice."""


@dataclass(frozen=True, eq=False)
class Mixing:
    """The tubes, what they are laid on, and how near is near enough.

    Parameters
    ----------
    K, S
        Absorption and scattering of the tubes per unit load, shape (tubes, bands).
    optics, space
        Paper and light; the recipes allowed.
    tolerance
        Largest match that counts [ΔE00].
    cache, deadline, progress
        As of `fewtubes.coverage.remembered.reach_of`.
    mix
        Finds the minimal sets, as that does.
    """

    K: FloatArray
    S: FloatArray
    optics: Optics
    space: RecipeSpace
    tolerance: float
    cache: Cache
    deadline: Deadline | None
    progress: Callable[[str], None]
    mix: Callable[..., tuple[SetArray, ...]]

    def sets(self, labs: FloatArray) -> tuple[SetArray, ...]:
        """Return the minimal sets for each colour, CIELAB, shape (colours, 3).

        Raises
        ------
        LimitError
            If there is too little time or memory for so many tubes.
        """
        return self.mix(
            self.K,
            self.S,
            labs,
            optics=self.optics,
            space=self.space,
            tolerance=self.tolerance,
            cache=self.cache,
            deadline=self.deadline,
            progress=self.progress,
        )

    def larger(self, labs: FloatArray, sets: Sequence[SetArray]) -> Mapping[int, SetArray]:
        """Return what reaches the colours that no set does if mixes may be as large as any.

        By number; without those that nothing reaches. Nothing where no smaller mixes are wished
        for, and where looking would take more time than a reason is worth.
        """
        none = [number for number, rows in enumerate(sets) if not len(rows)]
        limit = self.deadline or Deadline()
        if not none or self.space.most_tubes == MOST_IN_MIX:
            return {}
        if expected_seconds(len(self.K)) > ASIDE * limit.left:
            return {}
        widest = replace(self, space=replace(self.space, most_tubes=MOST_IN_MIX))
        try:
            found = widest.sets(np.asarray(labs[none]))
        except LimitError:
            return {}
        return {number: rows for number, rows in zip(none, found, strict=True) if len(rows)}
