"""What every part of the illustrated report draws on."""

from collections.abc import Sequence
from dataclasses import dataclass, field
from functools import cached_property
from itertools import groupby

from markupsafe import Markup

from fewtubes.catalogue.records import Tube
from fewtubes.comparison.sold_out import SoldOut
from fewtubes.mixing.mixture import Optics
from fewtubes.picture.brush import numbered
from fewtubes.picture.hue_plane import LETTERS, Group, hue_plane
from fewtubes.picture.shapes import Picture
from fewtubes.picture.sheet import Sheet
from fewtubes.picture.split_flower import split_flower
from fewtubes.picture.strongest import strongest_by_hue
from fewtubes.picture.tube_dabs import tube_dabs
from fewtubes.report.illustrated.markup import drawn
from fewtubes.shopping.plan import Plan
from fewtubes.shopping.plan_parts import PlannedSample
from fewtubes.shopping.puddles import Puddle
from fewtubes.words.printable import printable

__all__ = ["LONGEST_IN_PICTURE", "Basis", "FlowerPart"]

LONGEST_IN_PICTURE = 60
"""Characters of a name inside a picture or its description."""


@dataclass(frozen=True, eq=False)
class FlowerPart:
    """One flower or own colour of the plan."""

    name: str
    letter: str
    """Its letter in the plane of hues; empty beyond the alphabet."""
    samples: tuple[PlannedSample, ...]


@dataclass(frozen=True, eq=False)
class Basis:
    """A plan with the paper and the light that its colours were computed for."""

    plan: Plan
    optics: Optics
    sold_out: tuple[SoldOut, ...] = ()
    """What stands in for each tube to buy, if that was looked for."""
    _split: dict[FlowerPart, Picture] = field(default_factory=dict, init=False, repr=False)
    """Flowers drawn before."""

    @cached_property
    def sheet(self) -> Sheet:
        """The paper and the inks."""
        return Sheet.of(self.optics)

    @cached_property
    def tubes(self) -> dict[str, Tube]:
        """The palette by id."""
        return {planned.tube.id: planned.tube for planned in self.plan.tubes}

    @cached_property
    def names(self) -> dict[str, str]:
        """Names of the palette's tubes by id, fit to print."""
        return {id_: printable(tube.name) for id_, tube in self.tubes.items()}

    @cached_property
    def flowers(self) -> tuple[FlowerPart, ...]:
        """The flowers in the plan's order."""
        grouped = groupby(self.plan.samples, key=lambda planned: planned.sample.flower)
        return tuple(
            FlowerPart(name, LETTERS[turn : turn + 1], tuple(samples))
            for turn, (name, samples) in enumerate(grouped)
        )

    def dabs(self, tubes: Sequence[Tube]) -> Markup:
        """Return a dab of each tube; what they are called stands beside."""
        return drawn(tube_dabs(list(tubes), self.optics, self.sheet), spoken=False)

    def stays(self, planned: PlannedSample) -> float | None:
        """Return in which share of trials a recipe stays within tolerance, None if not tried."""
        steadiness = self.plan.steadiness
        if steadiness is None or not planned.covered:
            return None
        return steadiness.stays[self.plan.samples.index(planned)]

    def puddle(self, planned: PlannedSample) -> Puddle | None:
        """Return the puddle that a colour is painted with, None if it has none."""
        return self._puddles.get(planned)

    @cached_property
    def _puddles(self) -> dict[PlannedSample, Puddle]:
        mixed = self.plan.mixed.mixed
        return {self.plan.samples[t]: puddle for puddle in mixed for t in puddle.colours}

    def split_flower(self, part: FlowerPart) -> Picture:
        """Return the picture of one flower; it is drawn once."""
        if part not in self._split:
            name, items = printable(part.name, LONGEST_IN_PICTURE), numbered(part.samples)
            drawn = split_flower(items, self.tubes, self.optics, self.sheet, name=name)
            self._split[part] = drawn
        return self._split[part]

    @cached_property
    def hue_plane(self) -> Picture:
        """The picture of hue and chroma."""
        space = self.plan.scenario.wishes.space
        strongest = strongest_by_hue(list(self.tubes.values()), self.optics, space)
        groups = [Group(part.letter, part.samples) for part in self.flowers]
        return hue_plane(groups, strongest, self.sheet)
