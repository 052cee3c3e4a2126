"""Tristimulus values of a reflectance under a light, for the CIE 1931 2° observer.

Sources: ASTM E308 (summation with weights, the ends of a short spectrum folded in), ASTM E2022
(10 nm weights from 1 nm tables by Lagrange interpolation), ISO/CIE 11664-1 (observer).
"""

import numpy as np

from fewtubes.colour.bands import WAVELENGTH_NM, FloatArray

__all__ = ["tristimulus_weights", "white_point"]

OBSERVER = "CIE 1931 2 Degree Standard Observer"


def tristimulus_weights(light_wavelength_nm: FloatArray, light_power: FloatArray) -> FloatArray:
    """Return the weights W, shape (bands, 3), so that XYZ = reflectance @ W.

    Parameters
    ----------
    light_wavelength_nm, light_power
        Relative spectral power of the light, shapes (n,), at even steps from 380 nm or below to
        730 nm or above; any scale.

    Notes
    -----
    Y of the perfect diffuser is 100. The weights are computed by colour-science, imported here
    because its import takes seconds.
    """
    import colour
    from colour.colorimetry import tristimulus_weighting_factors_ASTME2022

    observer = colour.MSDS_CMFS[OBSERVER]
    light = colour.SpectralDistribution(dict(zip(light_wavelength_nm, light_power, strict=True)))
    shape_10nm = colour.SpectralShape(360, 780, 10)
    step_1nm = colour.SpectralShape(360, 780, 1)
    light = light.copy().align(step_1nm)
    weights = tristimulus_weighting_factors_ASTME2022(
        observer.copy().align(step_1nm), light, shape_10nm
    )
    return _fold_ends(np.asarray(weights), np.asarray(shape_10nm.wavelengths))


def _fold_ends(weights: FloatArray, wavelength_nm: FloatArray) -> FloatArray:
    """Add the weights beyond the first and last band to those bands (ASTM E308, 7.3.2.2)."""
    inside = (wavelength_nm >= WAVELENGTH_NM[0]) & (wavelength_nm <= WAVELENGTH_NM[-1])
    folded: FloatArray = weights[inside].copy()
    folded[0] += weights[wavelength_nm < WAVELENGTH_NM[0]].sum(axis=0)
    folded[-1] += weights[wavelength_nm > WAVELENGTH_NM[-1]].sum(axis=0)
    return folded


def white_point(weights: FloatArray) -> FloatArray:
    """Return XYZ of the perfect diffuser under the light, shape (3,)."""
    return np.asarray(weights.sum(axis=0))
