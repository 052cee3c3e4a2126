"""The bands every spectrum is given on."""

import numpy as np
import pytest

from fewtubes.colour.bands import BAND_COUNT, WAVELENGTH_NM


def test_bands_are_those_of_the_design() -> None:
    # Chosen: 380–730 nm every 10 nm, 36 bands, as many spectrophotometers give (no source).
    assert BAND_COUNT == 36
    assert (WAVELENGTH_NM[0], WAVELENGTH_NM[-1]) == (380, 730)
    assert (np.diff(WAVELENGTH_NM) == 10).all()


def test_bands_cannot_be_changed_by_mistake() -> None:
    with pytest.raises(ValueError, match="read-only"):
        WAVELENGTH_NM[0] = 0
