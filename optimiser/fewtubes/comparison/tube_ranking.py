"""How near mixes of the others come to each tube, as values that do not change."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING

from fewtubes.catalogue.records import Tube
from fewtubes.mixing.likeness import HARDLY_DIFFERENT, NEAR
from fewtubes.mixing.matching import Match

if TYPE_CHECKING:
    import pandas as pd

__all__ = ["Family", "MixedTube", "MixedTubes", "families_of"]


@dataclass(frozen=True, eq=False)
class MixedTube:
    """A tube and how near mixes of the others come to it."""

    tube: Tube
    """As in the catalogue."""
    labs: tuple[tuple[float, float, float], ...]
    """CIELAB of the tube alone at each of `STRENGTHS`."""
    matches: tuple[Match, ...]
    """The nearest recipe at each of `STRENGTHS`; empty if there is nothing to mix from."""
    family: tuple[Tube, ...] = ()
    """The other tubes of its family, which were not mixed from."""
    from_paper: float = math.inf
    """Largest difference from the bare paper over the strengths [ΔE00]."""
    over_black: Match | None = None
    """Of what hardly shows on paper, the nearest recipe over black at full strength; None if there
    is nothing to mix from."""
    hue: str = ""
    """Plain word for its hue; blank for white, grey, black and brown."""
    other_hues: float = math.inf
    """Largest difference over the strengths from mixes of tubes of other hues alone [ΔE00];
    infinite without such tubes."""

    @property
    def hardly_shows(self) -> bool:
        """Whether bare paper does as well at every strength: it is bought for what it hides."""
        return self.from_paper <= HARDLY_DIFFERENT

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


@dataclass(frozen=True, eq=False)
class Family:
    """Tubes that are nearly one another, and how near mixes of all others come to them."""

    members: tuple[MixedTube, ...]
    """The one that others come nearest to first."""

    @property
    def least(self) -> float:
        """What nothing else comes nearer than, to any of them, at some strength [ΔE00]."""
        return min(member.largest for member in self.members)

    @property
    def most(self) -> float:
        """The same of the member that others stay farthest from [ΔE00]."""
        return max(member.largest for member in self.members)

    @property
    def hardly_shows(self) -> bool:
        """Whether none of them shows on paper; what others mix says nothing then."""
        return all(member.hardly_shows for member in self.members)

    @property
    def single(self) -> bool:
        """Whether nothing else comes near any of them; over black where they hardly show."""
        if not self.hardly_shows:
            return self.least > NEAR
        return all(m.over_black is None or m.over_black.difference > NEAR for m in self.members)


def families_of(mixed: Sequence[MixedTube]) -> tuple[Family, ...]:
    """Return tubes by family, those farthest from any mix of all others first."""
    kin: dict[frozenset[str], list[MixedTube]] = {}
    for item in mixed:
        key = frozenset([item.tube.id, *(tube.id for tube in item.family)])
        kin.setdefault(key, []).append(item)
    found = [
        Family(tuple(sorted(items, key=lambda item: (item.largest, item.mean, item.tube.id))))
        for items in kin.values()
    ]
    return tuple(sorted(found, key=lambda one: (-one.least, -one.most, one.members[0].tube.id)))


class MixedTubes(tuple[MixedTube, ...]):
    """The tubes by family, the family farthest from any mix of all others first."""

    __slots__ = ()

    @property
    def families(self) -> tuple[Family, ...]:
        """The families in this order, and in each the tube that others come nearest to first."""
        return families_of(self)

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
        `family`, `family_largest`
            Names of the other tubes of its family, parted by semicolons; and what nothing else
            comes nearer than, to any of the family [ΔE00].
        `single`
            Whether nothing but its family comes near it.
        `over_black`
            Of a tube that hardly shows on paper, the difference of the nearest mix over black at
            full strength [ΔE00]; missing for others.
        `hue`, `other_hues_largest`
            Its hue in a plain word, and the difference from the nearest mixes of other hues over
            the washes [ΔE00]; missing for white, grey, black and brown.
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
