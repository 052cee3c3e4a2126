"""How bright a surface can be."""

import numpy as np
import pytest

from fewtubes.card.judging import MOST_OF_A_CHANNEL
from fewtubes.catalogue.reading import read_catalogue
from fewtubes.colour.display import RGB_TO_XYZ
from fewtubes.coverage.cache import Cache
from fewtubes.coverage.optics import usual_optics


def test_no_surface_has_more_of_a_channel_than_is_told(shared_cache: Cache) -> None:
    """It gives back all light where the channel's sensitivity is positive, and none elsewhere."""
    optics = usual_optics(read_catalogue(), shared_cache)
    sensitivity = (optics.weights / optics.white * RGB_TO_XYZ.sum(axis=1)) @ np.linalg.inv(
        RGB_TO_XYZ
    ).T
    assert sensitivity.sum(axis=0) == pytest.approx([1, 1, 1], abs=1e-3)
    assert np.maximum(sensitivity, 0).sum(axis=0) == pytest.approx(MOST_OF_A_CHANNEL, abs=0.01)
