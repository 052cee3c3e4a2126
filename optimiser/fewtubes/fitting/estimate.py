"""The paint of one tube from its swatches: least squares for every kind it may be of, weighed.

For each kind the most likely unknowns are found by the method of Levenberg and Marquardt, and the
kinds are weighed by how well each explains the swatches without being bent far (Laplace's
approximation to the evidence). Paints that fit as well are drawn from the same approximation, the
wider the worse the swatches agree with one another (Birge's ratio): colours and strokes are then
taken for less sure, while what is expected of paints stays as it is.

Sources: J. J. Moré, The Levenberg-Marquardt algorithm, Lecture Notes in Mathematics 630, 105
(1978); D. J. C. MacKay, Bayesian interpolation, Neural Computation 4, 415 (1992), eq. 2.5 and
after, for the evidence; R. T. Birge, Phys. Rev. 40, 207 (1932), for the ratio.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from fewtubes.colour.bands import FloatArray
from fewtubes.fitting.grounds import Grounds
from fewtubes.fitting.prior import Expected
from fewtubes.fitting.sheet import PaintedSwatch
from fewtubes.fitting.swatch_model import LOG_RANGE, Paint, SwatchModel

if TYPE_CHECKING:
    from numpy.random import Generator

__all__ = ["Estimate", "Solution", "estimated", "widened_root"]

EVIDENCE_SHARE = 0.1
"""Share of the logarithm of the evidence that counts in the middle of all likely paints [0–1].

No kind is the paint itself, and then the full evidence is far too sure of the best of them (P.
Grünwald, T. van Ommen, Bayesian Anal. 12, 1069, 2017). The size was found on invented paints: on
others of another seed it leaves mixtures an eighteenth nearer than the full evidence does.
"""

MOST_STEPS = 200
"""Steps of a least-squares search; two dozen do as a rule."""


@dataclass(frozen=True, eq=False)
class Solution:
    """The most likely unknowns of one kind."""

    model: SwatchModel
    unknowns: FloatArray
    """Shape (unknowns,)."""
    evidence: float
    """Logarithm, up to what is the same for all kinds."""
    widening: float
    """How many times less sure colours and strokes are than was said, as they disagree, ≥ 1."""

    def root(self) -> FloatArray:
        """Return R, upper triangular, with RᵀR the curvature there, shape (unknowns, unknowns)."""
        return widened_root(self.model, self.unknowns, self.widening)


@dataclass(frozen=True, eq=False)
class Estimate:
    """What is known of a paint once its swatches were looked at."""

    solutions: tuple[Solution, ...]

    @property
    def weights(self) -> FloatArray:
        """How much each kind counts in the middle of all likely paints, sum 1, (solutions,)."""
        return self._shared(EVIDENCE_SHARE)

    @property
    def odds(self) -> FloatArray:
        """How likely each kind is, sum 1, shape (solutions,)."""
        return self._shared(1.0)

    def _shared(self, power: float) -> FloatArray:
        evidence = power * np.array([solution.evidence for solution in self.solutions])
        likely = np.exp(evidence - evidence.max())
        return np.asarray(likely / likely.sum())

    @property
    def paint(self) -> Paint:
        """The middle of all likely paints: means of ln K and of ln S, shapes (bands,)."""
        return self._middle(self.weights)

    def _middle(self, weights: FloatArray) -> Paint:
        paints = [solution.model.paint(solution.unknowns) for solution in self.solutions]
        means = (
            np.exp(weights @ np.log([getattr(paint, part) for paint in paints]))
            for part in ("K", "S")
        )
        return Paint(*means)

    @property
    def strengths(self) -> FloatArray:
        """The true strengths of the swatches, shape (swatches,)."""
        found = [solution.model.strengths(solution.unknowns) for solution in self.solutions]
        return np.asarray(np.exp(self.weights @ np.log(found)))

    def likeliest_kinds(self, most: int) -> "Estimate":
        """Return what is known if only the `most` likeliest kinds count, the likeliest first."""
        places = np.argsort(-self.odds, kind="stable")[:most]
        return Estimate(tuple(self.solutions[place] for place in places))

    def draws(self, count: int, random: "Generator") -> Paint:
        """Return paints of which each is as likely as another, shape (count, bands).

        They scatter as the kinds do by their odds, about the middle of all likely paints.
        """
        kinds = random.choice(len(self.solutions), size=count, p=self.odds)
        roots = {kind: self.solutions[kind].root() for kind in set(kinds.tolist())}
        K, S = [], []
        for kind in kinds.tolist():
            solution = self.solutions[kind]
            stray = np.linalg.solve(roots[kind], random.standard_normal(solution.model.size))
            paint = solution.model.paint(solution.unknowns + stray)
            K.append(paint.K)
            S.append(paint.S)
        middle, of_odds = self.paint, self._middle(self.odds)
        return Paint(
            _held(np.array(K) * middle.K / of_odds.K), _held(np.array(S) * middle.S / of_odds.S)
        )


def estimated(
    swatches: Sequence[PaintedSwatch],
    kinds: Sequence[Expected],
    grounds: Grounds,
    *,
    hand: float,
    near: "Estimate | None" = None,
) -> Estimate:
    """Return what swatches tell of a paint.

    Parameters
    ----------
    swatches
        Of one tube.
    kinds
        What it may be, at least one, each as likely as another.
    grounds
        What the swatches lie on.
    hand
        Standard deviation of ln(true ÷ meant strength), > 0.
    near
        An estimate of the same kinds from nearly the same swatches, to begin with.
    """
    starts = [None] * len(kinds) if near is None else list(near.solutions)
    solutions = tuple(
        _solved(SwatchModel(tuple(swatches), kind, grounds, hand), start)
        for kind, start in zip(kinds, starts, strict=True)
    )
    return Estimate(solutions)


def _solved(model: SwatchModel, near: Solution | None) -> Solution:
    """Return the most likely unknowns of one kind."""
    from scipy.optimize import least_squares

    start = np.zeros(model.size)
    if near is not None:
        shared = near.model.size - len(near.model.swatches)
        start[:shared] = near.unknowns[:shared]
    found = least_squares(
        model.residuals, start, jac=model.jacobian, method="lm", max_nfev=MOST_STEPS
    )
    root = np.linalg.qr(np.asarray(found.jac)).R
    evidence = -float(found.cost) - float(np.log(np.abs(np.diag(root))).sum())
    surprise = 2 * float(found.cost) / (len(found.fun) - model.size)
    return Solution(model, np.asarray(found.x), evidence, max(1.0, surprise**0.5))


def _held(coefficients: FloatArray) -> FloatArray:
    """Return K or S [1/load] within what a paint may have (`LOG_RANGE`)."""
    return np.clip(coefficients, np.exp(-LOG_RANGE), np.exp(LOG_RANGE))


def widened_root(model: SwatchModel, unknowns: FloatArray, widening: float) -> FloatArray:
    """Return R, upper triangular, with RᵀR the curvature at these unknowns.

    Parameters
    ----------
    model
        Of the swatches.
    unknowns
        Shape (unknowns,).
    widening
        How many times less sure colours and strokes are than was said, ≥ 1. The curve and the
        scattering that are expected of any paint are no observations that could disagree.
    """
    slopes = model.jacobian(unknowns)
    expected = len(slopes) - model.size
    sure = np.full(len(slopes), 1 / widening)
    sure[expected : len(slopes) - len(model.swatches)] = 1.0
    return np.asarray(np.linalg.qr(sure[:, None] * slopes).R)
