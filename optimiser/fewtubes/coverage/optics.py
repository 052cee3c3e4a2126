"""The optics of a catalogue's paper and light, with the light's weights from the cache.

Computing the weights needs colour-science, whose import takes seconds.
"""

from collections.abc import Mapping
from importlib.metadata import version

import numpy as np

from fewtubes import defaults
from fewtubes.catalogue.collector import FaultCollector
from fewtubes.catalogue.records import Catalogue
from fewtubes.colour.bands import BAND_COUNT, FloatArray
from fewtubes.colour.light import tristimulus_weights, white_point
from fewtubes.coverage.cache import Cache
from fewtubes.mixing.bare_paper import paper_lab
from fewtubes.mixing.mixture import Optics
from fewtubes.mixing.room import room_for_libraries
from fewtubes.scenario.called import looked_up

__all__ = ["optics_for", "usual_optics", "usual_paper_lab"]

FULL_Y = 100.0
"""Y of the perfect diffuser (ASTM E308)."""

NEAR_FULL = 0.1
"""By how much the sum of the weights may be off; interpolation and rounding take some of it."""


def optics_for(catalogue: Catalogue, paper: str, light: str, cache: Cache) -> Optics:
    """Return the optics of a paper and a light, given by id."""
    shine = catalogue.lights[light]
    basis = {
        "wavelength_nm": shine.wavelength_nm,
        "power": shine.power,
        "computed_by": np.array(version("colour-science")),
    }
    weights = _sensible(cache.load("weights", basis))
    if weights is None:
        room_for_libraries()
        weights = tristimulus_weights(shine.wavelength_nm, shine.power)
        cache.store("weights", basis, {"weights": weights})
    return Optics.with_weights(catalogue.papers[paper], weights)


def usual_optics(
    catalogue: Catalogue, cache: Cache, *, paper: str | None = None, light: str | None = None
) -> Optics:
    """Return how paint looks; without an id on the usual paper and in the usual light.

    The first of the catalogue stand for usual ones that it does not hold.

    Raises
    ------
    InputError
        If the catalogue holds no such paper or light.
    """
    collector = FaultCollector()
    ground = _known("paper", paper, catalogue.papers, defaults.PAPER, collector)
    seen_under = _known("light", light, catalogue.lights, defaults.LIGHT, collector)
    collector.raise_if_any()
    return optics_for(catalogue, ground, seen_under, cache)


def usual_paper_lab(
    catalogue: Catalogue, cache: Cache, *, paper: str | None = None
) -> tuple[float, float, float]:
    """Return CIELAB of a bare paper in daylight (D65); without an id of the usual one.

    Raises
    ------
    InputError
        If the catalogue holds no such paper.
    """
    daylight = defaults.LIGHT if defaults.LIGHT in catalogue.lights else None
    L, a, b = paper_lab(usual_optics(catalogue, cache, paper=paper, light=daylight)).tolist()
    return (L, a, b)


def _known(
    kind: str, id_: str | None, known: Mapping[str, object], usual: str, collector: FaultCollector
) -> str:
    """Return an id, noting it if it is not known; the usual one, or the first, without one."""
    if id_ is None:
        return usual if usual in known else next(iter(known))
    (found,) = looked_up([id_], known, kind, where=kind, collector=collector)
    return found


def _sensible(stored: dict[str, FloatArray] | None) -> FloatArray | None:
    """Return weights that can be those of a light, shape (bands, 3), or None.

    Y of the perfect diffuser is 100 for them (see `tristimulus_weights`), and no sum is below 0.
    """
    if stored is None or set(stored) != {"weights"}:
        return None
    weights = stored["weights"]
    if weights.dtype != np.float64 or weights.shape != (BAND_COUNT, 3):
        return None
    if not np.isfinite(weights).all():
        return None
    white = white_point(weights)
    return weights if abs(white[1] - FULL_Y) < NEAR_FULL and (white > 0).all() else None
