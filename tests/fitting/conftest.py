"""What fits are tried on: the demo's usual paper in daylight."""

import numpy as np
import pytest

from fewtubes.catalogue.reading import read_catalogue
from fewtubes.catalogue.records import Pigment
from fewtubes.coverage.cache import Cache
from fewtubes.coverage.optics import usual_optics
from fewtubes.fitting.grounds import Grounds


@pytest.fixture(scope="session")
def grounds(shared_cache: Cache) -> Grounds:
    optics = usual_optics(read_catalogue(), shared_cache)
    return Grounds(optics, np.full_like(optics.ground, 0.01))


@pytest.fixture(scope="session")
def profiles() -> tuple[Pigment, ...]:
    return tuple(read_catalogue().pigments.values())
