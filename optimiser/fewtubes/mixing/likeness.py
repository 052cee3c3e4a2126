"""How much alike two tubes look, from masstone to thin wash, if the stronger one is thinned.

Paints of one pigment at two strengths, or of two pigments that look the same, give the same washes
once the stronger one is taken a little thinner. Their likeness is the largest difference left over
all wash strengths at the thinning that serves best.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from fewtubes.catalogue.records import Tube
from fewtubes.colour.bands import BAND_COUNT, FloatArray
from fewtubes.colour.difference import delta_e_2000
from fewtubes.masks import BoolArray
from fewtubes.mixing.copies import same_paint
from fewtubes.mixing.mixture import Optics, mixture_lab
from fewtubes.mixing.recipes import STRENGTHS

__all__ = [
    "HARDLY_DIFFERENT",
    "NEAR",
    "TWINS",
    "Likeness",
    "likeness",
    "thinnings",
    "twins",
    "unlikeness",
    "wash_labs",
]

TWINS = 1.0
"""Largest difference up to which two tubes count as the same paint [ΔE00]; our own cut-off.

About 1 is where a trained eye sees a difference side by side (common practice, no source).
"""

HARDLY_DIFFERENT = 2.0
"""Largest difference up to which two tubes count as near duplicates [ΔE00]; our own cut-off."""

NEAR = 4.0
"""Largest difference up to which another paint comes near [ΔE00]; our own cut-off.

Beyond it the words for matches say "clearly different".
"""

THINNINGS = 2.0 ** (-np.arange(0, 65) / 32)
"""Shares of its strength that the stronger tube is taken at, down to a quarter, in steps of 2 %.

Half such a step is off by less than 0.2 in ΔE00 with the tubes of the demo catalogue.
"""


WIDEST_LIGHTNESS = 1.75
"""ΔE00 is at least |ΔL*| ÷ S_L, and S_L at most 1 + 0.015 × 50² ÷ √(20 + 50²) = 1.747."""


@dataclass(frozen=True)
class Likeness:
    """How much alike two tubes look.

    Parameters
    ----------
    difference
        Largest difference over the wash strengths [ΔE00].
    thinning
        Strength of the stronger tube that matches the weaker one at full strength [0–1].
    first_is_stronger
        Whether the stronger tube is the first one named; False for equal strength.
    """

    difference: float
    thinning: float
    first_is_stronger: bool


def wash_labs(
    tubes: Sequence[Tube], optics: Optics, strengths: Sequence[float] = STRENGTHS
) -> FloatArray:
    """Return CIELAB of every tube alone at each strength, shape (tubes, strengths, 3)."""
    loads = np.array(strengths)[:, None]
    labs = [mixture_lab(loads, tube.K[None], tube.S[None], optics) for tube in tubes]
    return np.array(labs).reshape(len(tubes), len(loads), 3)


def likeness(first: Tube, second: Tube, optics: Optics) -> Likeness:
    """Return how much alike two tubes look; either may be the stronger one."""
    plain = wash_labs([first, second], optics)
    thinned = _thinned([first, second], optics)
    by_first = _largest(plain[1], thinned[0])
    by_second = _largest(plain[0], thinned[1])
    first_is_stronger = bool(by_first.min() < by_second.min())
    largest = by_first if first_is_stronger else by_second
    best = int(largest.argmin())
    return Likeness(float(largest[best]), float(THINNINGS[best]), first_is_stronger)


def twins(tubes: Mapping[str, Tube], optics: Optics) -> BoolArray:
    """Return whether every two tubes count as the same paint, shape (tubes, tubes)."""
    either_way = thinnings(tubes, optics) > 0
    return np.asarray(either_way | either_way.T)


def thinnings(tubes: Mapping[str, Tube], optics: Optics) -> FloatArray:
    """Return how far each tube is let down with water to be another that counts as the same paint.

    Returns
    -------
    Shape (tubes, tubes): the share of its strength [0–1] at which the tube of the row looks most
    like that of the column; 1 where neither is the stronger, and on the diagonal. 0 where they are
    not the same paint, or where it is the tube of the column that is the stronger.

    Notes
    -----
    Only tubes of which one at full strength may look like the other at some thinning are compared
    over all strengths, and of tubes that hold the very same paint only the first.
    """
    sold, copies = _paints(tubes)
    largest, thinning = _near(sold, optics, TWINS)
    stronger = (largest <= TWINS) & ((largest < largest.T) | (thinning == 1))
    found = np.where(stronger | np.eye(len(sold), dtype=np.bool_), thinning, 0)
    return np.asarray(found[np.ix_(copies, copies)])


def unlikeness(tubes: Mapping[str, Tube], optics: Optics, *, limit: float) -> FloatArray:
    """Return how unlike every two tubes are, as `likeness` has it [ΔE00], shape (tubes, tubes).

    Infinite where that is beyond the limit.
    """
    sold, copies = _paints(tubes)
    largest, _ = _near(sold, optics, limit)
    np.fill_diagonal(largest, 0)
    return np.asarray(np.minimum(largest, largest.T)[np.ix_(copies, copies)])


def _paints(tubes: Mapping[str, Tube]) -> tuple[list[Tube], npt.NDArray[np.intp]]:
    """Return a tube of every paint, and for each tube the number of its paint, (tubes,)."""
    every = list(tubes.values())
    K, S = (
        np.array([getattr(tube, name) for tube in every]).reshape(-1, BAND_COUNT)
        for name in ("K", "S")
    )
    paints, copies = np.unique(same_paint(K, S), return_inverse=True)
    return [every[number] for number in paints], copies.ravel()


def _near(tubes: Sequence[Tube], optics: Optics, limit: float) -> tuple[FloatArray, FloatArray]:
    """Return how unlike the thinned tube of a row is to that of a column, and the thinning.

    As `likeness` finds them where the difference [ΔE00] is at most the limit, else infinite and 1;
    shapes (tubes, tubes). Only those thinnings are tried at which full strength is that near.
    """
    full = wash_labs(tubes, optics, THINNINGS.tolist())
    plain = wash_labs(tubes, optics)
    largest, thinning = np.full((len(tubes),) * 2, np.inf), np.ones((len(tubes),) * 2)
    for weak in range(len(tubes)):
        near = np.abs(full[..., 0] - plain[weak, 0, 0]) <= WIDEST_LIGHTNESS * limit
        near[weak] = False
        strong, step = np.nonzero(near)
        alike = delta_e_2000(full[strong, step], plain[weak, 0]) <= limit
        for one in np.unique(strong[alike]).tolist():
            steps = THINNINGS[step[alike & (strong == one)]]
            loads = np.multiply.outer(steps, STRENGTHS)
            labs = wash_labs([tubes[one]], optics, loads.ravel().tolist())
            unlike = _largest(plain[weak], labs.reshape(*loads.shape, 3))
            best = int(unlike.argmin())
            if unlike[best] <= limit:
                largest[one, weak], thinning[one, weak] = unlike[best], steps[best]
    return largest, thinning


def _thinned(tubes: Sequence[Tube], optics: Optics) -> FloatArray:
    """Return the washes at every thinning, shape (tubes, thinnings, strengths, 3)."""
    loads = np.multiply.outer(THINNINGS, STRENGTHS)
    labs = wash_labs(tubes, optics, loads.ravel().tolist())
    return labs.reshape(len(tubes), *loads.shape, 3)


def _largest(weak: FloatArray, strong: FloatArray) -> FloatArray:
    """Return the largest difference over the strengths at each thinning, shape (thinnings,).

    Parameters
    ----------
    weak
        Washes of the weaker tube, shape (strengths, 3).
    strong
        Those of the stronger one, shape (thinnings, strengths, 3).
    """
    return np.asarray(delta_e_2000(strong, weak).max(axis=1))
