"""How near mixes of the others come to each tube, as values that do not change."""

import math
from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING

from fewtubes.catalogue.records import Tube
from fewtubes.mixing.matching import Match

if TYPE_CHECKING:
    import pandas as pd

__all__ = ["MixedTube", "MixedTubes"]


@dataclass(frozen=True, eq=False)
class MixedTube:
    """A tube and how near mixes of the others come to it."""

    tube: Tube
    """As in the catalogue."""
    labs: tuple[tuple[float, float, float], ...]
    """CIELAB of the tube alone at each of `STRENGTHS`."""
    matches: tuple[Match, ...]
    """The nearest recipe at each of `STRENGTHS`; empty if there is nothing to mix from."""
    twins: tuple[Tube, ...]
    """Tubes that were left out as being the same paint."""

    @cached_property
    def largest(self) -> float:
        """Largest difference over the strengths [ΔE00]; infinite without anything to mix from."""
        return max((match.difference for match in self.matches), default=math.inf)

    @cached_property
    def mean(self) -> float:
        """Mean difference over the strengths [ΔE00]."""
        if not self.matches:
            return math.inf
        return sum(match.difference for match in self.matches) / len(self.matches)

    @cached_property
    def farthest(self) -> int:
        """The number of the strength with the largest difference."""
        differences = [match.difference for match in self.matches]
        return differences.index(max(differences)) if differences else 0


class MixedTubes(tuple[MixedTube, ...]):
    """The tubes ranked, those farthest from any mix of the others first."""

    __slots__ = ()

    def tubes(self) -> "pd.DataFrame":
        """Return how near mixes come to each tube, with the columns of ``unmixable.csv``.

        Returns
        -------
        A row for each tube:

        `tube`, `name`
            Id and name.
        `largest`, `mean`
            Difference from the nearest mixes over the washes [ΔE00]; missing with nothing to mix
            from.
        `single`, `same_paint`
            Whether no mix of others comes near it; names of the tubes left out as the same
            paint, parted by semicolons.
        """
        from fewtubes.comparison.unmixable_tables import tubes

        return tubes(self).frame()

    def washes(self) -> "pd.DataFrame":
        """Return the nearest mix for each wash, with the columns of ``unmixable-washes.csv``.

        Returns
        -------
        A row for each tube and wash strength:

        `tube`, `name`, `strength`
            Id, name, and wash strength [0–1].
        `L`, `a`, `b`
            CIELAB of the wash.
        `match`, `mix`
            Difference of the nearest mix of others [ΔE00], and that mix in words.
        `tube_1`, `parts_1`, `tube_2`, `parts_2`, `tube_3`, `parts_3`, `mix_strength`
            That mix: ids and parts, missing where it has fewer tubes, and its strength [0–1].
        """
        from fewtubes.comparison.unmixable_tables import washes

        return washes(self).frame()
