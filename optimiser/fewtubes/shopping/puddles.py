"""What is mixed for a plan: puddles, in the order in which they are mixed.

A puddle is one mix, tubes in parts, that is thinned with more or less water for several colours.
"""

from dataclasses import dataclass
from enum import StrEnum

__all__ = [
    "OWN_COLOURS",
    "Addition",
    "FewestPuddles",
    "Puddle",
    "PuddleCount",
    "Puddles",
    "Puddling",
]

OWN_COLOURS = "colours of your own"
"""What the painter's own colours are together: one subject, painted in one go."""


class Puddling(StrEnum):
    """For what puddles are shared."""

    EACH_FLOWER = "each flower"
    """The fewest puddles for each flower; one sitting usually is one flower."""
    ONE_SITTING = "one sitting"
    """The fewest puddles for all flowers together."""
    EACH_COLOUR = "each colour"
    """Every colour has the recipe that is best for it alone; puddles are shared by chance only."""


@dataclass(frozen=True)
class Addition:
    """How a puddle is made from an earlier one by adding one tube."""

    puddle: int
    """Number of the earlier puddle."""
    puddle_parts: int
    """Parts of that puddle, before water."""
    tube: str
    """Id of the tube that is added."""
    tube_parts: int
    """Parts of it."""


@dataclass(frozen=True)
class Puddle:
    """One mix, and what it is thinned for."""

    subject: str
    """The flower that it is mixed for, or `OWN_COLOURS`; blank if it serves the whole sitting."""
    own: bool
    """Whether that is the painter's own colours."""
    number: int
    """In the order of mixing, from 1 on for each subject."""
    tubes: tuple[str, ...]
    """Ids."""
    parts: tuple[int, ...]
    """Brushfuls of each, as in a recipe."""
    lightness: float
    """CIELAB L* at full strength [0–100]."""
    colours: tuple[int, ...]
    """Places among the samples of the plan, strongest wash first."""
    addition: Addition | None
    """How it is made from an earlier puddle; None if from none."""


@dataclass(frozen=True)
class FewestPuddles:
    """How few puddles reach every covered colour of a subject within tolerance."""

    subject: str
    """A flower, `OWN_COLOURS`, or blank for all in one sitting."""
    own: bool
    """Whether it is the painter's own colours."""
    number: int
    """The fewest found."""
    bound: int
    """Fewer than this are proven not to do."""

    @property
    def proven(self) -> bool:
        """Whether no fewer would do."""
        return self.number == self.bound


@dataclass(frozen=True)
class PuddleCount:
    """How few puddles a palette takes for all that it covers."""

    each_flower: int
    """The fewest found for each flower, summed."""
    each_flower_bound: int
    """Fewer than this are proven not to do."""
    one_sitting: int
    """The fewest found for all together."""
    one_sitting_bound: int
    """Fewer than this are proven not to do."""

    @property
    def proven(self) -> bool:
        """Whether no fewer would do, each flower by itself or all together."""
        return (self.each_flower, self.one_sitting) == (
            self.each_flower_bound,
            self.one_sitting_bound,
        )


@dataclass(frozen=True)
class Puddles:
    """All that is mixed for a plan."""

    puddling: Puddling
    """For what puddles are shared."""
    mixed: tuple[Puddle, ...]
    """Subject by subject, each in the order of mixing."""
    fewest: tuple[FewestPuddles, ...]
    """For each subject, in the order of the flowers; own colours last."""
    sitting: FewestPuddles
    """For all subjects in one sitting."""

    def of(self, sample: int) -> Puddle | None:
        """Return the puddle that a sample, by place in the plan, is painted with, or None."""
        return next((puddle for puddle in self.mixed if sample in puddle.colours), None)

    @property
    def count(self) -> PuddleCount:
        """How few they could be, each flower by itself and all together."""
        return PuddleCount(
            each_flower=sum(one.number for one in self.fewest),
            each_flower_bound=sum(one.bound for one in self.fewest),
            one_sitting=self.sitting.number,
            one_sitting_bound=self.sitting.bound,
        )

    @property
    def mixes(self) -> int:
        """How many different mixes these are."""
        return len({(puddle.tubes, puddle.parts) for puddle in self.mixed})
