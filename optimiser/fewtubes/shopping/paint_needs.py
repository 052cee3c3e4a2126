"""How much of each tube bought the pictures planned take, from the very puddles that are mixed.

What is needed of a tube hangs on the whole palette: a further tube takes colours from others. Each
palette that the search asks for is mixed once, as a plan of it would tell, and remembered; the plan
itself is then drawn up from the same puddles, so that what is shown and what is bought agree.
"""

import math
from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from functools import cached_property
from time import monotonic

import numpy as np

from fewtubes.coverage.reach import NO_TUBE, SetArray
from fewtubes.coverage.samples import lab_table
from fewtubes.mixing.colour_lookup import IndexArray
from fewtubes.mixing.deadline import Deadline
from fewtubes.mixing.matching import Match
from fewtubes.mixing.reached_sets import ReachedSets
from fewtubes.selection.instance import Palette
from fewtubes.selection.least_paint import LeastPaint
from fewtubes.selection.terms import Need, Terms
from fewtubes.shopping.choose import Taken, matches_of
from fewtubes.shopping.least_paint import least_paint_of
from fewtubes.shopping.needs import THOUSANDTHS
from fewtubes.shopping.paint_plan import paint_of_one_picture
from fewtubes.shopping.puddles import Puddling
from fewtubes.shopping.puddling import Mixed, mixed_for
from fewtubes.shopping.question import Question
from fewtubes.shopping.refusals import Refusal
from fewtubes.shopping.terms import NeedsOf

__all__ = ["PaintNeeds", "thousandths_taken"]

SECONDS = 30.0
"""Time for the proof that a palette's puddles are the fewest [s]. It mostly takes hundredths and is
stopped by its branches before: what is needed must not turn on how busy the machine is."""

WORTH_WHILE = 300
"""Palettes mixed from which it is worth while to find out what paint costs at least: in half the
time of that, mostly."""

SLACK = 1e-6
"""Thousandths of a millilitre that rounding of doubles may feign; no picture turns on them."""


def thousandths_taken(ml: float) -> int:
    """Return paint [ml] in whole thousandths of a millilitre, rounded up."""
    return max(0, math.ceil(ml * THOUSANDTHS - SLACK))


@dataclass(frozen=True, eq=False)
class PaintNeeds:
    """Puddles and paint of palettes, each found once."""

    question: Question
    _mixed: dict[tuple[int, ...], Mixed] = field(default_factory=dict)
    _taken: dict[tuple[int, ...], Mapping[str, float]] = field(default_factory=dict)
    _least: list[LeastPaint] = field(default_factory=list)
    """What paint costs at least, once it is known."""

    @cached_property
    def sets(self) -> ReachedSets:
        """What sets of tubes reach, each mixed once for all palettes."""
        question = self.question
        return ReachedSets.of(
            question.tubes,
            lab_table(question.samples),
            optics=question.optics,
            space=question.space,
            tolerance=question.scenario.tolerance,
        )

    @cached_property
    def _rows(self) -> tuple[SetArray, IndexArray]:
        """All minimal sets, shape (sets, 3), and the sample of each, shape (sets,)."""
        sets = self.question.sets
        sample = np.repeat(np.arange(len(sets)), [len(rows) for rows in sets])
        return np.concatenate(sets), sample.astype(np.intp)

    def covered(self, bought: tuple[int, ...]) -> tuple[int, ...]:
        """Return the samples covered by tubes bought and those owned, ascending."""
        rows, sample = self._rows
        held = np.zeros(len(self.question.tubes) + 1, dtype=np.bool_)
        held[NO_TUBE] = True  # the last place
        held[[*bought, *self.question.owned]] = True
        return tuple(np.unique(sample[held[rows].all(axis=1)]).tolist())

    def mixed(self, bought: tuple[int, ...]) -> Mixed:
        """Return what is mixed with tubes bought, ascending numbers, and those owned.

        With how few puddles would do in one sitting, which no need depends on.
        """
        found = self._mixed_of(bought)
        if self.question.puddling is Puddling.ONE_SITTING:
            return found
        whole = self._mix(bought, sitting=True).puddles
        return Mixed(found.matches, replace(found.puddles, sitting=whole.sitting))

    def _mixed_of(self, bought: tuple[int, ...]) -> Mixed:
        """Return what is mixed, found once."""
        if bought not in self._mixed:
            self._mixed[bought] = self._mix(bought, sitting=False)
        return self._mixed[bought]

    def _mix(self, bought: tuple[int, ...], *, sitting: bool) -> Mixed:
        question = self.question
        palette = Palette(bought, self.covered(bought), value=0, cost=0, worst_fade=0, fade_sum=0)
        nearest: tuple[Match | None, ...] = (None,) * len(question.samples)
        if question.puddling is Puddling.EACH_COLOUR:
            nearest = matches_of(question, palette)
        return mixed_for(
            question,
            Taken(palette, nearest),
            seconds=SECONDS,
            puddling=question.puddling,
            sitting=sitting,
        )

    def taken(self, bought: tuple[int, ...]) -> Mapping[str, float]:
        """Return the paint that one picture takes [ml] by tube, owned ones included."""
        if bought not in self._taken:
            mixed = self._mixed_of(bought)
            self._taken[bought] = paint_of_one_picture(self.question, mixed.puddles, mixed.matches)
        return self._taken[bought]

    def least(self, terms: Terms, until: float) -> LeastPaint | None:
        """Return what paint costs at least under the terms of the question, found once.

        None as long as few palettes were asked about, and where there is too little time.

        Parameters
        ----------
        terms
            What is on sale.
        until
            Until when it must be known (`time.monotonic`).
        """
        if not self._least and len(self._mixed) >= WORTH_WHILE:
            found = least_paint_of(self.question, self.sets, terms, Deadline(until - monotonic()))
            if found is not None:
                self._least.append(found)
        return self._least[0] if self._least else None

    def needs_without(self, owned: frozenset[int]) -> NeedsOf | None:
        """Return what is needed of tubes bought where some owned ones, by number, are not used."""
        ids = {self.question.tubes[number].id: Refusal.NEVER for number in owned}
        return replace(self.question, refused={**self.question.refused, **ids}).needs_of

    def needs(self, bought: tuple[int, ...], pictures: int) -> tuple[Need, ...]:
        """Return what is needed of each tube bought, in their order, for so many pictures.

        At least `Question.needs`, which holds whatever else is bought.
        """
        question, taken = self.question, self.taken(bought)
        found = []
        for number in bought:
            least = question.needs[number]
            ml = taken.get(question.tubes[number].id, 0.0) * pictures
            found.append(Need(max(least.amount, thousandths_taken(ml)), least.containers))
        return tuple(found)
