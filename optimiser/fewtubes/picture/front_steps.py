"""The Pareto front of coverage and cost as a picture: a step is the most its money can cover."""

import itertools
import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from fewtubes.picture.outlines import blob
from fewtubes.picture.shapes import Area, Line, Picture, Shape, Words, points_of
from fewtubes.picture.sheet import Sheet
from fewtubes.words.money import scale_mark
from fewtubes.words.proof.claims import SIGN

__all__ = ["Step", "cost_marks", "front_steps"]

WIDTH, HEIGHT = 480.0, 320.0
LEFT, RIGHT, TOP, BOTTOM = 58.0, 24.0, 34.0, 56.0
"""Room for the scales around the drawing."""

LABEL_SIZE = 15.0
DAB = 4.0
RING = 9.0
MOST_MARKS = 7
"""Costs written along the foot."""


@dataclass(frozen=True)
class Step:
    """One step of the front."""

    cost: int
    """In hundredths of the currency."""
    coverage: float
    """Share of what is to be painted [0–1]."""
    proven: bool


def front_steps(
    steps: Sequence[Step],
    sheet: Sheet,
    *,
    budget: int,
    chosen: Step,
    currency: str,
    description: str,
) -> Picture:
    """Return the picture: to the right dearer, upwards more covered.

    Parameters
    ----------
    steps
        The front, cheapest first, at least one.
    budget
        The scenario's [hundredths of the currency], drawn as a dashed line where it fits in.
    chosen
        The plan's own cost and coverage, ringed.
    currency
        ISO 4217 code.
    description
        What is read out in place of the picture.
    """
    dearest = max(steps[-1].cost, chosen.cost, 1) * 1.08
    drawing = _Drawing(sheet, dearest)
    return Picture(
        width=WIDTH,
        height=HEIGHT,
        ground=sheet.ground,
        title="Coverage against cost",
        description=description,
        shapes=(
            *drawing.scales(currency),
            *drawing.budget(budget),
            *drawing.line(steps),
            *drawing.plan(chosen),
        ),
    )


def cost_marks(dearest: float) -> list[int]:
    """Return round costs from 0 up to the dearest, a handful [hundredths of the currency]."""
    tens = 10 ** max(0, math.floor(math.log10(max(dearest, 1))) - 1)
    step = next(
        tens * times for times in (1, 2, 5, 10, 20, 50) if dearest < MOST_MARKS * tens * times
    )
    return list(range(0, math.floor(dearest) + 1, step))


@dataclass(frozen=True)
class _Drawing:
    """The sheet with the cost that its right edge stands for."""

    sheet: Sheet
    dearest: float

    def place(self, cost: float, coverage: float) -> tuple[float, float]:
        """Return where a cost and a coverage lie."""
        x = LEFT + (WIDTH - LEFT - RIGHT) * cost / self.dearest
        return x, HEIGHT - BOTTOM - (HEIGHT - TOP - BOTTOM) * coverage

    def scales(self, currency: str) -> Iterator[Shape]:
        """Yield quarters of coverage and round costs."""
        soft = self.sheet.soft_ink
        for quarter in range(5):
            left, right = self.place(0, quarter / 4), self.place(self.dearest, quarter / 4)
            yield Line((left, right), soft, 0.5, dashed=quarter > 0)
            yield Words(LEFT - 8, left[1] + 5, f"{25 * quarter} %", soft, LABEL_SIZE, "end")
        for cost in cost_marks(self.dearest):
            x, y = self.place(cost, 0)
            yield Words(x, y + 22, scale_mark(cost), soft, LABEL_SIZE, "middle")
        x, y = self.place(self.dearest, 0)
        yield Words(x, y + 42, currency, soft, LABEL_SIZE, "end")

    def budget(self, budget: int) -> Iterator[Shape]:
        """Yield the budget, if it lies within the drawing."""
        if budget <= self.dearest:
            foot, head = self.place(budget, 0), self.place(budget, 1)
            yield Line((foot, head), self.sheet.ink, 1.2, dashed=True)
            yield Words(head[0], head[1] - 10, "budget", self.sheet.ink, LABEL_SIZE, "middle")

    def line(self, steps: Sequence[Step]) -> Iterator[Shape]:
        """Yield the stairs, and a dab on each step."""
        corners = [self.place(steps[0].cost, steps[0].coverage)]
        for before, step in itertools.pairwise(steps):
            corners += [
                self.place(step.cost, before.coverage),
                self.place(step.cost, step.coverage),
            ]
        corners.append(self.place(self.dearest, steps[-1].coverage))
        yield Line(tuple(corners), self.sheet.ink, 1.4)
        for step in steps:
            x, y = self.place(step.cost, step.coverage)
            yield Area(points_of(blob(x, y, DAB)), self.sheet.ink)
            if not step.proven:
                yield Words(
                    x + 7, y - 6, SIGN.worded(proven=False), self.sheet.ink, LABEL_SIZE, bold=True
                )

    def plan(self, chosen: Step) -> Iterator[Shape]:
        """Yield a ring around the plan."""
        ring = points_of(blob(*self.place(chosen.cost, chosen.coverage), RING))
        yield Line((*ring, ring[0]), self.sheet.ink, 2.0)
