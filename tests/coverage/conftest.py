"""Shared by the tests of coverage: the demo catalogue, its usual optics, and a few of its tubes."""

import pytest

from fewtubes.catalogue.reading import read_catalogue
from fewtubes.catalogue.records import Catalogue
from fewtubes.mixing.mixture import Optics


@pytest.fixture(scope="session")
def catalogue() -> Catalogue:
    """Return the demo catalogue."""
    return read_catalogue()


@pytest.fixture(scope="session")
def optics(catalogue: Catalogue) -> Optics:
    """Return white cotton paper under D65."""
    return Optics.of(catalogue.papers["cotton-white"], catalogue.lights["D65"])
