"""Palettes under Monte Carlo draws: which recipe stays within tolerance in which draw."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np

from fewtubes.catalogue.records import Tube
from fewtubes.colour.bands import FloatArray
from fewtubes.colour.difference import delta_e_2000
from fewtubes.coverage.samples import lab_table
from fewtubes.masks import BoolArray
from fewtubes.mixing.matching import Match
from fewtubes.mixing.variation import Draws, Hand, Paint, Where, varied_labs
from fewtubes.selection.instance import Palette
from fewtubes.shopping.question import Question
from fewtubes.shopping.steadiness import MonteCarlo, Spread

__all__ = ["Trial", "paired", "spread_of"]

ROUNDING = 1e-9
"""Keeps the last digits of a sum from deciding whether a match is within tolerance [ΔE00]."""

RANGE = (0.05, 0.95)
"""Quantiles told of the coverage."""


@dataclass(frozen=True, eq=False)
class Trial:
    """One set of draws for some tubes.

    Parameters
    ----------
    question
        Samples, optics, tolerance.
    trials
        Seed, number and sizes.
    set_number
        Which of the independent sets of draws.
    numbers
        Numbers of all tubes that will be asked about, ascending.
    """

    question: Question
    trials: MonteCarlo
    set_number: int
    numbers: tuple[int, ...]

    @classmethod
    def of(
        cls,
        question: Question,
        trials: MonteCarlo,
        set_number: int,
        palettes: Iterable[Palette],
    ) -> "Trial":
        """Return the trial for some palettes and the owned tubes."""
        numbers = question.owned.union(*(palette.bought for palette in palettes))
        return cls(question, trials, set_number, tuple(sorted(numbers)))

    def stays(self, palette: Palette, matches: Sequence[Match | None]) -> BoolArray:
        """Return in which draws each recipe is within tolerance, shape (draws, samples).

        A sample without a recipe never is; one whose recipe is a near miss may be, by luck.
        """
        held = self.question.owned.union(palette.bought)
        places = [place for place, number in enumerate(self.numbers) if number in held]
        where = Where(
            {self._tubes[place].id: k for k, place in enumerate(places)}, self.question.optics
        )
        mixed = [t for t, match in enumerate(matches) if match is not None]
        recipes = [match.recipe for match in matches if match is not None]
        paint, hand = self._paint, self._hand
        labs = varied_labs(
            recipes,
            Paint(paint.K[:, places], paint.S[:, places]),
            Hand(hand.parts[:, mixed][..., places], hand.wash[:, mixed]),
            where,
        )
        tolerance = self.question.scenario.tolerance + ROUNDING
        stays = np.zeros((self.trials.draws, len(matches)), dtype=np.bool_)
        stays[:, mixed] = delta_e_2000(labs, self._targets[mixed]) <= tolerance
        return stays

    def coverage(self, stays: BoolArray) -> FloatArray:
        """Return the covered share of importance in each draw [0–1], shape (draws,)."""
        weights = np.array(self.question.instance.weights, dtype=np.float64)
        return np.asarray(stays @ weights / weights.sum())

    @cached_property
    def _tubes(self) -> tuple[Tube, ...]:
        return tuple(self.question.tubes[number] for number in self.numbers)

    @cached_property
    def _targets(self) -> FloatArray:
        """CIELAB of the samples, shape (samples, 3)."""
        return lab_table(self.question.samples)

    @cached_property
    def _paint(self) -> Paint:
        return self._draws.paint(self._tubes)

    @cached_property
    def _hand(self) -> Hand:
        return self._draws.hand(self._tubes, len(self.question.samples))

    @property
    def _draws(self) -> Draws:
        trials = self.trials
        return Draws(trials.seed, self.set_number, trials.draws, trials.variation)


def spread_of(coverage: FloatArray) -> Spread:
    """Return mean, standard error and range of the coverage in each draw, shape (draws,)."""
    low, high = np.quantile(coverage, RANGE).tolist()
    mean, error = paired(coverage)
    return Spread(mean, error, low, high)


def paired(differences: FloatArray) -> tuple[float, float]:
    """Return the mean of differences draw by draw, shape (draws,), and its standard error.

    With the same draws on both sides the luck they share cancels before the error is taken.
    """
    spread = float(np.std(differences, ddof=1))
    return float(np.mean(differences)), spread / float(np.sqrt(len(differences)))
