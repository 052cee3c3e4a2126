"""One sample of a flower painted in two halves: the colour wanted beside the mix."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np

from fewtubes.catalogue.records import Tube
from fewtubes.colour.bands import FloatArray
from fewtubes.mixing.mixture import Optics
from fewtubes.picture.outlines import by_hand, seed_of
from fewtubes.picture.pair import rim_colour
from fewtubes.picture.shapes import Area, Line, Shape, Words, points_of
from fewtubes.picture.sheet import MISSED, Sheet, screen_colour
from fewtubes.shopping.plan_parts import PlannedSample

__all__ = ["Brush", "Numbered", "numbered", "off"]

LABEL_SIZE = 15.0
LETTER_WIDTH, LETTER_HEIGHT = 0.64, 0.72
"""Of a figure ÷ its size, in the widest type used."""

CLEARANCE = 6.0
"""Between a tip and its number [picture units]."""


@dataclass(frozen=True)
class Numbered:
    """A sample with its number among those of its flower, from 1, and its sign."""

    number: int
    planned: PlannedSample

    @property
    def label(self) -> str:
        """The number, with the signs of a colour out of reach and of one beyond the screen."""
        missed = "" if self.planned.covered else f" {MISSED}"
        marks = (
            screen_colour(self.planned.sample.lab).mark or screen_colour(self.planned.mix_lab).mark
        )
        return f"{self.number}{missed}{marks}"


@dataclass(frozen=True)
class Brush:
    """What is needed to paint one sample."""

    tubes: dict[str, Tube]
    optics: Optics
    sheet: Sheet

    def halves(
        self,
        item: Numbered,
        left: FloatArray,
        right: FloatArray,
        *,
        waver: float = 1.2,
        inner: int = 0,
    ) -> Iterator[Shape]:
        """Yield both halves between two edges that share their ends.

        Where nothing is painted the half has no wet edge, only a dashed outline.

        Parameters
        ----------
        item
            The sample.
        left, right
            Edges of the half as wanted and of the mix, shapes (n, 2).
        waver
            How far the edges stray [picture units].
        inner
            Places at the beginning of an edge that do not lie on the outside.
        """
        planned = item.planned
        seed = seed_of(planned.sample.flower, planned.sample.name)
        wanted = by_hand(left, amount=waver, seed=seed, closed=False)
        mixed = by_hand(right, amount=waver, seed=seed + 1, closed=False)
        whole = np.concatenate([wanted, mixed[::-1]])  # beneath both, so that no seam shows
        yield Area(points_of(whole), screen_colour(planned.mix_lab).hex)
        yield Area(points_of(wanted), screen_colour(planned.sample.lab).hex)
        if planned.recipe is not None and not planned.is_bare_paper:
            colour = rim_colour(planned, self.tubes, self.optics)
            yield Line(points_of(mixed[inner:]), colour, 1.8)
        else:
            yield Line(points_of(mixed[inner:]), self.sheet.soft_ink, 1.0, dashed=True)

    def label(self, item: Numbered, tip: tuple[float, float], direction: float) -> Words:
        """Return the number of a sample beyond a tip, clear of what ends there.

        Parameters
        ----------
        item
            The sample.
        tip
            Where what it names ends.
        direction
            In which to step away from there, clockwise from upwards [radians].
        """
        half_width = LETTER_WIDTH * LABEL_SIZE * len(item.label) / 2
        half_height = LETTER_HEIGHT * LABEL_SIZE / 2
        away = half_width * abs(np.sin(direction)) + half_height * abs(np.cos(direction))
        x, y = off(tip, direction, CLEARANCE + float(away))
        return Words(x, y + half_height, item.label, self.sheet.ink, LABEL_SIZE, "middle")


def numbered(samples: Sequence[PlannedSample]) -> tuple[Numbered, ...]:
    """Return the samples of one flower with their numbers, in the plan's order."""
    return tuple(Numbered(number, planned) for number, planned in enumerate(samples, start=1))


def off(place: tuple[float, float], direction: float, distance: float) -> tuple[float, float]:
    """Return the place at a distance; directions go clockwise from upwards [radians]."""
    x, y = place
    return (x + distance * float(np.sin(direction)), y - distance * float(np.cos(direction)))
