"""The colours that a scenario wants painted, each with its share of the whole."""

import numpy as np

from fewtubes.catalogue.records import Catalogue, Flower
from fewtubes.coverage.samples import Portion, portion_of_colour, portions_of_flower
from fewtubes.mixing.mixture import Optics, reflectance_lab
from fewtubes.scenario.own_flowers import OwnFlower, OwnSwatch
from fewtubes.scenario.records import Scenario
from fewtubes.scenario.wanted import OwnColour

__all__ = ["portions_of"]


def portions_of(catalogue: Catalogue, scenario: Scenario, optics: Optics) -> list[Portion]:
    """Return the colours of the flowers, then the painter's own."""
    portions: list[Portion] = []
    for wish in scenario.flowers:
        if isinstance(wish, OwnFlower):
            flower = _seen(wish, optics)
        else:
            flower = catalogue.flowers[wish.name]
        portions += portions_of_flower(flower, wish.importance)
    for colour in scenario.own_colours:
        lab = _lab(colour, optics)
        portions.append(portion_of_colour(colour.name, lab, colour.importance))
    return portions


def _seen(flower: OwnFlower, optics: Optics) -> Flower:
    """Return a flower of the painter's own as one of a catalogue, seen under the light."""
    return Flower(flower.name, tuple(one.seen(_lab(one, optics)) for one in flower.swatches))


def _lab(colour: OwnColour | OwnSwatch, optics: Optics) -> tuple[float, float, float]:
    """Return CIELAB of a colour of the painter's own; what was measured is put under the light."""
    if colour.lab is not None:
        return colour.lab
    L, a, b = reflectance_lab(np.asarray(colour.reflectance), optics).tolist()
    return (L, a, b)
