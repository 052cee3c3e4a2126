"""The covered weight of any set of tubes, fast."""

from collections.abc import Iterable
from dataclasses import replace

import numpy as np

from fewtubes.selection.instance import ChoiceInstance
from fewtubes.selection.packed import IntArray, PackedSets

__all__ = ["CoveredWeight"]


class CoveredWeight:
    """What sets of tubes cover, owned and must-have tubes counted only where they are named."""

    def __init__(self, instance: ChoiceInstance) -> None:
        nothing: frozenset[int] = frozenset()
        self._packed = PackedSets.of(replace(instance, owned=nothing, must_have=nothing))
        self.total = sum(instance.weights)

    def value(self, tubes: Iterable[int]) -> int:
        """Return the covered weight of a set of tubes."""
        row = np.array([sorted(set(tubes))], dtype=np.int64)
        return int(self._packed.value(self._packed.cover(row))[0])

    def with_each(self, tubes: Iterable[int], more: IntArray) -> IntArray:
        """Return the covered weight of a set with one more tube, for each of those, (more,)."""
        row = np.array([sorted(set(tubes))], dtype=np.int64)
        rows = np.concatenate([np.repeat(row, len(more), axis=0), more[:, None]], axis=1)
        return self._packed.value(self._packed.cover(rows))

    def share(self, value: int) -> float:
        """Return a weight as a share of all [0–1]; 0 where there is nothing to paint."""
        return value / self.total if self.total else 0.0
