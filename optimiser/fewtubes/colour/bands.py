"""The wavelength bands on which every spectrum of the project is given."""

import numpy as np
import numpy.typing as npt

__all__ = ["BAND_COUNT", "WAVELENGTH_NM", "FloatArray"]

FloatArray = npt.NDArray[np.float64]

WAVELENGTH_NM: FloatArray = np.arange(380.0, 731.0, 10.0)
"""Band centres [nm], shape (bands,): 380, 390 … 730."""
WAVELENGTH_NM.setflags(write=False)

BAND_COUNT = len(WAVELENGTH_NM)
