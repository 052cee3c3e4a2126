"""A paint film over paper.

K is absorption and S scattering of the film as it lies, i.e. the coefficients per unit load times
the load; the load is 1 for a full-strength stroke and smaller for a thinner wash.

Sources: P. Kubelka, New Contributions to the Optics of Intensely Light-Scattering Materials,
Part I, JOSA 38(5), 1948, 448–457 (the hyperbolic solution); P. Kubelka and F. Munk, 1931 (the
infinitely thick film).
"""

import numpy as np

from fewtubes.colour.bands import FloatArray

__all__ = ["film_reflectance", "thick_film_reflectance"]

TINY = 1e-12
"""Below this the product bS is taken as this, which is the limit to double precision."""


def film_reflectance(K: FloatArray, S: FloatArray, ground: FloatArray | float) -> FloatArray:
    """Return the reflectance [0–1] of a film over a ground, without the surface.

    Parameters
    ----------
    K, S
        Absorption and scattering of the film, ≥ 0, shapes (…, bands).
    ground
        Reflectance of the ground [0–1], broadcast against K and S.

    Returns
    -------
    Reflectance, shape (…, bands).

    Notes
    -----
    Kubelka's R = (1 − Rg(a − b coth bS)) / (a − Rg + b coth bS) with a = 1 + K/S, b = √(a² − 1)
    is multiplied through by S, so that with n = bS = √(K(K + 2S)) and c = n coth n ≥ K
    R = (S(1 − Rg) + Rg(c − K)) / (S(1 − Rg) + c + K)
    holds for S = 0, K = 0 and both 0 as well: S → 0 gives Rg exp(−2K), no film gives Rg. No term
    is negative, so that huge coefficients lose no digits either.
    """
    n = np.maximum(np.sqrt(K) * np.sqrt(K + 2 * S), TINY)
    c = n / np.tanh(n)
    scattered = S * (1 - ground)
    return np.asarray((scattered + ground * np.maximum(c - K, 0.0)) / (scattered + c + K))


def thick_film_reflectance(K: FloatArray, S: FloatArray) -> FloatArray:
    """Return the reflectance [0–1] of a film that hides any ground, 1 + K/S − √((K/S)² + 2K/S).

    Written as S / (K + S + √(K(K + 2S))), which loses no digits; shapes (…, bands), K + S > 0.
    """
    return np.asarray(S / (K + S + np.sqrt(K) * np.sqrt(K + 2 * S)))
