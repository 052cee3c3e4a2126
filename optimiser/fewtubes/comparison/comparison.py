"""Palettes side by side, as values that do not change: what `compare` finds."""

from dataclasses import dataclass

from fewtubes.catalogue.records import Lightfastness
from fewtubes.comparison.by_size import BestOfSize, BySize
from fewtubes.comparison.extent import Extent
from fewtubes.comparison.floors import FloorFront
from fewtubes.comparison.in_common import Exchange
from fewtubes.comparison.near_best import NearBest
from fewtubes.mixing.opacity import Transparency
from fewtubes.selection.instance import Palette
from fewtubes.shopping.question import Question

__all__ = ["Alternatives", "Comparison", "Size"]


@dataclass(frozen=True, eq=False)
class Size:
    """The best palette of at most so many tubes.

    Parameters
    ----------
    best
        What was found, with all ties.
    palette
        The tie with the smallest mean match, as `shop` chooses.
    gained, dropped
        Samples covered that the size before does not cover, and the other way round.
    lightfastness, transparency
        The worst among the tubes bought, and those owned that a mix for a colour covered holds;
        None if there is none.
    """

    best: BestOfSize
    palette: Palette
    gained: tuple[int, ...]
    dropped: tuple[int, ...]
    lightfastness: Lightfastness | None
    transparency: Transparency | None


@dataclass(frozen=True, eq=False)
class Alternatives:
    """Near-best palettes, what they share, and what can be exchanged.

    Parameters
    ----------
    own
        The palette of the size, which the others are held against.
    near
        The palettes.
    shared
        Tubes in every palette listed.
    groups
        Sets of tubes of which every palette listed holds exactly one.
    swaps
        Palettes listed that differ from the size's own palette in one tube alone.
    """

    own: Palette
    near: NearBest
    shared: frozenset[int]
    groups: tuple[frozenset[int], ...]
    swaps: tuple[Exchange, ...]


@dataclass(frozen=True, eq=False)
class Comparison:
    """All that is compared for one scenario.

    Parameters
    ----------
    sizes
        The first is what is owned and must be had, the last the largest that gains anything.
    by_size
        The same as the search gave them.
    all_gained
        Whether it is proven that no number of tubes covers more within the budget than the last.
    alternatives
        None if no tube that may be bought gains anything.
    floors
        The scenario's own wishes first.
    seconds
        Time the proofs took [s].
    """

    question: Question
    extent: Extent
    sizes: tuple[Size, ...]
    by_size: BySize
    all_gained: bool
    alternatives: Alternatives | None
    floors: tuple[FloorFront, ...]
    seconds: float

    @property
    def total(self) -> int:
        """Weight of everything to be painted."""
        return sum(self.question.instance.weights)

    def share(self, value: int) -> float:
        """Return a covered weight as coverage [0–1]; 0 if there is nothing to paint."""
        return value / self.total if self.total else 0.0
