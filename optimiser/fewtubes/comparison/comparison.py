"""Palettes side by side, as values that do not change: what `compare` finds."""

from dataclasses import dataclass
from typing import TYPE_CHECKING

from fewtubes.catalogue.records import Lightfastness
from fewtubes.comparison.by_size import BestOfSize, BySize
from fewtubes.comparison.extent import Extent
from fewtubes.comparison.floors import FloorFront
from fewtubes.comparison.in_common import Exchange
from fewtubes.comparison.near_best import NearBest
from fewtubes.mixing.opacity import Transparency
from fewtubes.selection.instance import Palette
from fewtubes.shopping.puddles import PuddleCount
from fewtubes.shopping.question import Question

if TYPE_CHECKING:
    import pandas as pd

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
    puddles
        How few puddles it takes; None if that was not asked, or there was no time.
    """

    best: BestOfSize
    palette: Palette
    gained: tuple[int, ...]
    dropped: tuple[int, ...]
    lightfastness: Lightfastness | None
    transparency: Transparency | None
    puddles: PuddleCount | None = None


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
    puddles
        How few puddles each palette of `near` takes; None as for sizes.
    """

    own: Palette
    near: NearBest
    shared: frozenset[int]
    groups: tuple[frozenset[int], ...]
    swaps: tuple[Exchange, ...]
    puddles: tuple[PuddleCount | None, ...] = ()

    @property
    def fewest_puddles(self) -> tuple[Palette, ...]:
        """The palettes that cover as much as the first and take the fewest puddles, as they rank.

        For each flower by itself; of equally few those that take the fewest in one sitting. Only
        proven numbers are compared; empty if any of those that cover as much has none, if they are
        less than two, or if all take as many.
        """
        first = self.near.palettes[0]
        alike = [
            (palette, count)
            for palette, count in zip(self.near.palettes, self.puddles, strict=False)
            if palette.value == first.value
        ]
        counts = [
            (count.each_flower, count.one_sitting)
            for _, count in alike
            if count is not None and count.proven
        ]
        if len(counts) < len(alike) or len(set(counts)) < 2:
            return ()
        return tuple(p for (p, _), count in zip(alike, counts, strict=True) if count == min(counts))


@dataclass(frozen=True, eq=False)
class Comparison:
    """All that is compared for one scenario.

    Parameters
    ----------
    question
        What was asked, with all that was mixed for it.
    extent
        How much was compared, and how long that was allowed to take.
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

    def front(self) -> "pd.DataFrame":
        """Return coverage against cost (the Pareto front), with the columns of ``front.csv``.

        Returns
        -------
        A row for each step, cheapest first, of the scenario's own wishes and then of each floor:

        `floor`, `step`
            What is asked of all tubes (missing for the own wishes), and the number of the step.
        `price`, `currency`, `coverage`
            Price in the currency (ISO 4217 code), share of all that is to be painted [0–1].
        `tubes`, `tube_names`, `tube_ids`
            How many are bought, their names parted by semicolons, and their ids by blanks.
        `lightfastness`, `transparency`
            The worst among the tubes bought; missing if none is.
        `within_budget`, `proven`
            Whether the budget buys it; whether it is proven that none covers more for as little
            and none as much for less.
        `nothing_between_this_and_the_next`
            Whether it is proven that nothing cheaper than the next step covers more; for the last
            one, that nothing does at any price.
        """
        from fewtubes.comparison.compare_tables import front

        return front(self).frame()

    def by_number_of_tubes(self) -> "pd.DataFrame":
        """Return the best palette of at most so many tubes, with the columns of ``sizes.csv``.

        Returns
        -------
        A row for each of `sizes`, smallest first:

        `most_tubes`
            Tubes bought at most.
        `price`, `currency`, `coverage`
            Price in the currency (ISO 4217 code), share of all that is to be painted [0–1].
        `coverage_at_most`, `proven`
            What no palette of that size exceeds [0–1]; whether this one is proven best.
        `tubes`, `tube_names`, `tube_ids`
            How many are bought, their names parted by semicolons, and their ids by blanks.
        `newly_reached`, `no_longer_reached`
            Numbers of colours that the size before does not cover, and that only it covers.
        `lightfastness`, `transparency`
            The worst among the tubes in use; missing if none is.
        `puddles`, `puddles_in_one_sitting`, `puddles_proven`
            The fewest for each flower, summed, and for all together; whether no fewer would do.
            Missing if they were not counted.
        `equal_palettes`, `equal_palettes_complete`
            Palettes known that rank equal, this one included; whether these are all.
        """
        from fewtubes.comparison.compare_tables import by_number_of_tubes

        return by_number_of_tubes(self).frame()

    def near_best(self) -> "pd.DataFrame":
        """Return palettes so near the best that taste decides; the columns of ``near-best.csv``.

        Returns
        -------
        A row for each one listed, best first; no row if there are no `alternatives`:

        `palette`
            Its number in the list, from 1.
        `price`, `currency`, `coverage`
            Price in the currency (ISO 4217 code), share of all that is to be painted [0–1].
        `tubes`, `tube_names`, `tube_ids`
            How many are bought, their names parted by semicolons, and their ids by blanks.
        `puddles`, `puddles_in_one_sitting`, `puddles_proven`
            As in `by_number_of_tubes`.
        """
        from fewtubes.comparison.compare_tables import near_best

        return near_best(self).frame()
