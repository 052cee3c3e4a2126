"""How far mixtures with a fitted tube may be from what is computed, and which swatch would help.

Typical mixtures are its own washes, and mixes with the paints it will lie beside, which are no
surer where they were fitted as well. For the swatch that would help, the colours are taken as
straight lines of the unknowns near the estimate, and the swatch is sought after which their
variance is least (Bayesian A-optimal design; K. Chaloner, I. Verdinelli, Stat. Sci. 10, 273, 1995).
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from fewtubes.colour.bands import FloatArray
from fewtubes.colour.difference import delta_e_2000
from fewtubes.fitting.estimate import Solution, widened_root
from fewtubes.fitting.fitted import Advice, MixSpread
from fewtubes.fitting.grounds import Grounds
from fewtubes.fitting.left_out import painted_lab
from fewtubes.fitting.sheet import PaintedSwatch, SeenLab
from fewtubes.fitting.swatch_model import Paint
from fewtubes.mixing.mixture import film_lab

__all__ = ["Mixtures", "advice_for", "spread_of"]

SHARES = (0.75, 0.5, 0.25)
"""Of the tube in a mix with another paint."""

STRENGTHS = (1.0, 0.5, 0.25, 0.125)
"""Washes of the typical mixtures, and those that a further swatch may have."""

WORTH = 0.9
"""Share of the spread that must be left at most for a further swatch to be worth painting."""

LEAST_GAIN = 0.3
"""ΔE00 that nine in ten mixtures must at least gain by it were their other paints sure; less is not
worth a wash."""

LEAST_TOLD = 0.1
"""ΔE00 that they must gain as it is, so that the figures told differ."""

STEP = 1e-3
"""Of differences, in standard deviations of the unknowns."""


@dataclass(frozen=True, eq=False)
class Mixtures:
    """Typical mixtures of a tube."""

    shares: FloatArray
    """Load of the tube, shape (mixtures, 1)."""
    rest: Paint
    """What the other paints add, shape (mixtures, bands) or (draws, mixtures, bands)."""
    grounds: Grounds

    @classmethod
    def with_partners(cls, partners: Sequence[Paint], grounds: Grounds) -> "Mixtures":
        """Return the washes of a tube alone, and its mixes with each of the partners.

        Their K and S are of shape (bands,), or (draws, bands) of one number of draws.
        """
        nothing = np.zeros_like(partners[0].K) if partners else np.zeros_like(grounds.optics.ground)
        mixed = [(strength, nothing, nothing) for strength in STRENGTHS]
        for partner in partners:
            for share in SHARES:
                for strength in STRENGTHS:
                    other = strength * (1 - share)
                    mixed.append((strength * share, other * partner.K, other * partner.S))
        shares, K, S = zip(*mixed, strict=True)
        return cls(np.array(shares)[:, None], Paint(np.stack(K, -2), np.stack(S, -2)), grounds)

    def labs(self, paint: Paint) -> FloatArray:
        """Return CIELAB with a tube of this paint, (…, bands), shape (…, mixtures, 3)."""
        K = self.rest.K + self.shares * paint.K[..., None, :]
        S = self.rest.S + self.shares * paint.S[..., None, :]
        return film_lab(K, S, self.grounds.optics)


def spread_of(
    paint: Paint, draws: Paint, mixtures: Mixtures, as_likely: Mixtures | None = None
) -> MixSpread:
    """Return how far mixtures with paints that fit as well are from those with the estimate.

    Parameters
    ----------
    paint
        The estimate, shape (bands,).
    draws
        Paints that fit as well, shape (draws, bands).
    mixtures
        Those that are looked at.
    as_likely
        The same with partners that are as likely, of which there are as many draws; without them
        only the tube itself is in doubt.
    """
    off = delta_e_2000((as_likely or mixtures).labs(draws), mixtures.labs(paint))
    middle, most = np.quantile(off, (0.5, 0.9))
    return MixSpread(float(middle), float(most))


def advice_for(
    solution: Solution,
    spread: MixSpread,
    mixtures: Mixtures,
    *,
    noise: float,
    own: MixSpread | None = None,
) -> Advice | None:
    """Return the further swatch that would make the mixtures surest, or None if none would.

    Parameters
    ----------
    solution
        The likeliest one.
    spread
        As it is.
    mixtures
        Those that are looked at.
    noise
        Standard deviation of L*, a* and b* that a further swatch would have.
    own
        What of the spread is the tube's own; the partners' share no swatch of it makes smaller.
        None where all of it is.
    """
    slopes = _slopes(solution, mixtures)
    now = _variance(slopes, solution.root())
    tried = [
        (float(np.sqrt(_variance(slopes, root) / now)), swatch)
        for swatch in _further(solution, noise)
        for root in [_root_with(solution, swatch)]
    ]
    left, swatch = min(tried, key=lambda item: item[0])
    own = own or spread
    there = MixSpread(
        _lessened(spread.middle, own.middle, left), _lessened(spread.most, own.most, left)
    )
    gain = (1 - left) * own.most
    if left > WORTH or gain < LEAST_GAIN or spread.most - there.most < LEAST_TOLD:
        return None
    return Advice(swatch.strength, swatch.over_black, there)


def _lessened(whole: float, own: float, left: float) -> float:
    """Return a spread of which the own part shrinks to a share; parts add up in their squares."""
    return float(np.sqrt(max(whole**2 - min(own, whole) ** 2 * (1 - left**2), 0.0)))


def _slopes(solution: Solution, mixtures: Mixtures) -> FloatArray:
    """Return how the mixtures' colours follow the unknowns, shape (mixtures · 3, unknowns)."""
    steps = STEP * np.eye(solution.model.size)
    ahead, behind = (
        mixtures.labs(solution.model.paint(solution.unknowns + sign * steps)) for sign in (1, -1)
    )
    return np.asarray((ahead - behind).reshape(len(steps), -1).T / (2 * STEP))


def _variance(slopes: FloatArray, root: FloatArray) -> float:
    """Return the summed variance of the colours; unknowns that they do not know may be more."""
    padded = np.zeros((len(root), len(slopes)))
    padded[: slopes.shape[1]] = slopes.T
    return float((np.linalg.solve(root.T, padded) ** 2).sum())


def _further(solution: Solution, noise: float) -> list[PaintedSwatch]:
    """Return the swatches that might be painted next, as they are expected to look."""
    model = solution.model
    paint = model.paint(solution.unknowns)
    plain = PaintedSwatch("", 1.0, False, SeenLab((0.0, 0.0, 0.0)), noise)
    wanted = [replace(plain, strength=strength) for strength in STRENGTHS]
    if not any(swatch.over_black for swatch in model.swatches):
        wanted.append(replace(plain, over_black=True))
    found = []
    for swatch in wanted:
        L, a, b = painted_lab(paint, swatch, model.grounds, strength=swatch.strength).tolist()
        found.append(replace(swatch, colour=SeenLab((L, a, b))))
    return found


def _root_with(solution: Solution, swatch: PaintedSwatch) -> FloatArray:
    """Return the root of the curvature with a further swatch; its own stray is the last unknown."""
    model = replace(solution.model, swatches=(*solution.model.swatches, swatch))
    return widened_root(model, np.append(solution.unknowns, 0.0), solution.widening)
