"""The optics of a catalogue's paper and light, with the light's weights from the cache.

Computing the weights needs colour-science, whose import takes seconds.
"""

from importlib.metadata import version

import numpy as np

from fewtubes.catalogue.records import Catalogue
from fewtubes.colour.light import tristimulus_weights
from fewtubes.coverage.cache import Cache
from fewtubes.mixing.mixture import Optics

__all__ = ["optics_for"]


def optics_for(catalogue: Catalogue, paper: str, light: str, cache: Cache) -> Optics:
    """Return the optics of a paper and a light, given by id."""
    shine = catalogue.lights[light]
    basis = {
        "wavelength_nm": shine.wavelength_nm,
        "power": shine.power,
        "computed_by": np.array(version("colour-science")),
    }
    stored = cache.load("weights", basis)
    if stored is None:
        stored = {"weights": tristimulus_weights(shine.wavelength_nm, shine.power)}
        cache.store("weights", basis, stored)
    return Optics.with_weights(catalogue.papers[paper], stored["weights"])
