"""The colours of many mixtures at all wash strengths, fast, in single precision.

The strengths fall by √2 from step to step, so the film's exp(−2n) at one strength is the square of
that two steps weaker: one square root and two exponentials serve all strengths. It is kept as its
complement, which loses no digits where a film is thin. Single precision is off by less than
`PRECISION` in ΔE00 (a test holds it to that); who needs more asks `fewtubes.mixing.mixture` again.
"""

from collections.abc import Iterator

import numpy as np
import numpy.typing as npt

from fewtubes.mixing.mixture import Optics
from fewtubes.mixing.surface import INNER_REFLECTION, OUTER_REFLECTION

__all__ = ["PRECISION", "SingleArray", "wash_series"]

SingleArray = npt.NDArray[np.float32]

PRECISION = 0.005
"""Largest error of a difference computed from these colours [ΔE00]."""

LEAST_ABSORPTION = np.float32(1e-6)
"""Absorption below this changes no colour visibly but would divide 0 by 0."""


def wash_series(
    K: SingleArray, S: SingleArray, optics: Optics, strengths: tuple[float, ...]
) -> Iterator[tuple[int, SingleArray]]:
    """Yield the step number and CIELAB, shape (mixtures, 3), of each strength, weakest first.

    Parameters
    ----------
    K, S
        Absorption and scattering of the mixtures at full strength, shape (mixtures, bands).
    optics
        Paper and light.
    strengths
        Wash strengths, descending by √2 from step to step.
    """
    outer_weights, offset = _weights_of_inner_reflectance(optics)
    K = np.maximum(K, LEAST_ABSORPTION)
    n = np.sqrt(K * (K + S + S))
    A, B, C, D = _coefficients(K, S, n, optics.ground.astype(np.float32))
    taken = [-np.expm1(-2 * np.float32(strength) * n) for strength in strengths[-1:-3:-1]]
    upper, lower = np.empty_like(n), np.empty_like(n)
    for turn, step in enumerate(reversed(range(len(strengths)))):
        q = taken[turn % 2]
        np.multiply(q, A, out=upper)
        upper += B
        np.multiply(q, C, out=lower)
        lower += D
        upper /= lower
        yield step, _lab(upper @ outer_weights + offset)
        np.subtract(2, q, out=lower)
        q *= lower  # 1 − p²


def _coefficients(
    K: SingleArray, S: SingleArray, n: SingleArray, ground: SingleArray
) -> tuple[SingleArray, SingleArray, SingleArray, SingleArray]:
    """Return A, B, C, D, shape (mixtures, bands), for which R ÷ (1 − k2 R) = (qA + B) ÷ (qC + D).

    q = 1 − exp(−2n) is all that depends on the strength: with coth n = (2 − q) ÷ q the film's
    R = (S − Rg(m − n coth n)) ÷ (m − Rg S + n coth n), m = K + S, is a ratio of lines in q.
    """
    k2 = np.float32(INNER_REFLECTION)
    m = K + S
    A = S - ground * (m + n)
    B = 2 * ground * n
    C = m - ground * S - n - k2 * A
    D = 2 * n - k2 * B
    return A, B, C, D


def _weights_of_inner_reflectance(optics: Optics) -> tuple[SingleArray, SingleArray]:
    """Return weights, (bands, 3), and offset, (3,), from R ÷ (1 − k2 R) to XYZ ÷ white."""
    relative = optics.weights / optics.white
    inside = (1 - OUTER_REFLECTION) * (1 - INNER_REFLECTION) * relative
    return inside.astype(np.float32), (OUTER_REFLECTION * relative.sum(axis=0)).astype(np.float32)


def _lab(ratio: SingleArray) -> SingleArray:
    """Return CIELAB of XYZ ÷ white, both shape (mixtures, 3); every ratio is above 0.04.

    The straight part of CIELAB begins at 0.0089, below the light the surface itself reflects.
    """
    f = np.cbrt(ratio)
    lab = np.empty_like(f)
    lab[:, 0] = 116 * f[:, 1] - 16
    lab[:, 1] = 500 * (f[:, 0] - f[:, 1])
    lab[:, 2] = 200 * (f[:, 1] - f[:, 2])
    return lab
