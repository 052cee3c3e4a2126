"""What is known of a paint before its swatches are looked at: the curves that pigments have.

Each profile of the demo catalogue stands for a kind of paint. A new one is expected near one of
them: log K differs from the profile's by a smooth curve drawn at random, a Gaussian process whose
sizes were chosen on invented paints of other shapes (`tests/benchmarks/bench_fit.py`). Log S falls
along a straight line over log λ, as scattering by small grains does.

Source: C. E. Rasmussen, C. K. I. Williams, Gaussian Processes for Machine Learning (2006), ch. 2,
for curves drawn at random; the sizes are our own.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache

import numpy as np

from fewtubes.catalogue.records import Pigment
from fewtubes.colour.bands import WAVELENGTH_NM, FloatArray

__all__ = ["Expected", "ScatteringPrior", "curves", "expected_from", "log_fall"]

LEAST_K = 2e-3
"""Absorption [1/load] that is taken for nothing; its logarithm would have no bottom."""

BROAD, BROAD_NM = 0.5, 90.0
"""Variance of ln K over broad bumps, and how broad they are [nm]."""

FINE, FINE_NM = 0.15, 40.0
"""The same of narrower bumps."""

LEVEL = 0.3
"""Variance of ln K all along: a paint may be stronger or weaker than the profile."""

ROUGH = 1e-4
"""Variance of each band by itself; keeps the curves from being tied wholly."""

LEAST_VARIANCE = 5e-4
"""Curves of less variance than this change no colour that anybody sees."""

MIDDLE_NM = 550.0
"""Wavelength at which a paint's scattering is told [nm]."""


@dataclass(frozen=True)
class ScatteringPrior:
    """S = exp(level) · (λ/550 nm)^(−fall), with a normal `level` and `fall`."""

    level: float = float(np.log(0.03))
    """Mean of ln S at 550 nm; transparent organics 0.01 to earths 0.1."""
    level_deviation: float = 1.2
    fall: float = 0.8
    """0 for coarse grains, up to 4 for the finest (Rayleigh); paints lie low between."""
    fall_deviation: float = 0.6


@dataclass(frozen=True, eq=False)
class Expected:
    """One kind of paint that the swatches may be of."""

    log_absorption: FloatArray
    """Mean of ln K, shape (bands,)."""
    scattering: ScatteringPrior


KNOWN_LEVEL_DEVIATION = 0.6
"""Of ln S where the label tells the pigments: one maker's scatters half or twice another's."""


def expected_from(pigments: Sequence[Pigment], *, known: bool) -> Expected:
    """Return what is expected of a paint of these pigments in equal shares.

    Parameters
    ----------
    pigments
        One or more profiles.
    known
        Whether the label tells them, so that their scattering says something, too.
    """
    log_K = np.log(np.maximum(np.mean([pigment.K for pigment in pigments], axis=0), LEAST_K))
    if not known:
        return Expected(log_K, ScatteringPrior())
    level = float(np.log(np.mean([pigment.S.mean() for pigment in pigments]) + LEAST_K))
    return Expected(log_K, ScatteringPrior(level=level, level_deviation=KNOWN_LEVEL_DEVIATION))


@cache
def curves() -> FloatArray:
    """Return independent curves of ln K, shape (bands, curves); their squares sum to the variance.

    The principal components of the Gaussian process, largest first.
    """
    apart = WAVELENGTH_NM[:, None] - WAVELENGTH_NM
    covariance = (
        BROAD * np.exp(-((apart / BROAD_NM) ** 2) / 2)
        + FINE * np.exp(-((apart / FINE_NM) ** 2) / 2)
        + LEVEL
        + ROUGH * np.eye(len(apart))
    )
    variance, directions = np.linalg.eigh(covariance)
    kept = np.flatnonzero(variance > LEAST_VARIANCE)[::-1]
    found: FloatArray = directions[:, kept] * np.sqrt(variance[kept])
    found.setflags(write=False)
    return found


def log_fall() -> FloatArray:
    """Return ln(λ/550 nm), shape (bands,)."""
    return np.asarray(np.log(WAVELENGTH_NM / MIDDLE_NM))
