"""How much of each tube bought the pictures planned take, from the very puddles that are mixed.

What is needed of a tube hangs on the whole palette: a further tube takes colours from others. Each
palette that the search asks for is mixed once, as a plan of it would tell, and remembered; the plan
itself is then drawn up from the same puddles, so that what is shown and what is bought agree.
"""

import math
from collections.abc import Mapping
from dataclasses import dataclass, field

from fewtubes.mixing.matching import Match
from fewtubes.selection.instance import Palette
from fewtubes.selection.terms import Need
from fewtubes.shopping.choose import Taken, matches_of
from fewtubes.shopping.needs import THOUSANDTHS
from fewtubes.shopping.paint_plan import paint_of_one_picture
from fewtubes.shopping.puddles import Puddling
from fewtubes.shopping.puddling import Mixed, mixed_for
from fewtubes.shopping.question import Question

__all__ = ["PaintNeeds", "thousandths_taken"]

SECONDS = 5.0
"""Time for the proof that a palette's puddles are the fewest [s]; it mostly takes hundredths."""

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

    def mixed(self, bought: tuple[int, ...]) -> Mixed:
        """Return what is mixed with tubes bought, ascending numbers, and those owned."""
        if bought not in self._mixed:
            question = self.question
            palette = Palette(
                bought, question.instance.covered(bought), value=0, cost=0, worst_fade=0, fade_sum=0
            )
            nearest: tuple[Match | None, ...] = (None,) * len(question.samples)
            if question.puddling is Puddling.EACH_COLOUR:
                nearest = matches_of(question, palette)
            taken = Taken(palette, nearest)
            self._mixed[bought] = mixed_for(
                question, taken, seconds=SECONDS, puddling=question.puddling
            )
        return self._mixed[bought]

    def taken(self, bought: tuple[int, ...]) -> Mapping[str, float]:
        """Return the paint that one picture takes [ml] by tube, owned ones included."""
        if bought not in self._taken:
            mixed = self.mixed(bought)
            self._taken[bought] = paint_of_one_picture(self.question, mixed.puddles, mixed.matches)
        return self._taken[bought]

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
