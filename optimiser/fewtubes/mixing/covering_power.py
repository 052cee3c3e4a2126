"""How far paint from a tube goes: the area of a full-strength stroke that a millilitre covers.

A catalogue may tell it, tube by tube; where it does not, it is guessed from how much the paint
absorbs, as strong tinters are let down further before their stroke is as deep as anybody wants it.
"""

from math import sqrt

from fewtubes.catalogue.records import Tube
from fewtubes.defaults import CM2_PER_ML

__all__ = ["covering_power"]

MIDDLING = 2.4
"""Largest K of a tube of middling strength [1/load]: the median of the demo catalogue's, 2.38."""

FURTHEST = 2.0
"""The strongest tinters are taken to go at most so many times as far as a middling paint, and the
weakest at least so small a part of it as its inverse."""


def covering_power(tube: Tube) -> float:
    """Return the area that a millilitre from a tube covers in a full-strength stroke [cm²/ml].

    Parameters
    ----------
    tube
        What its catalogue tells goes before the guess.

    Notes
    -----
    c = c₀ √(K ÷ K₀), from c₀ ÷ 2 to 2 c₀, with K the tube's largest absorption over all bands (its
    strength included), K₀ that of a middling paint and c₀ = `CM2_PER_ML`. To tell tinting strength
    by absorption where it is largest is the idea of ISO 787-24 (from memory); the root, and that no
    paint goes more than twice as far as a middling one, are our own choice, since K is that of a
    stroke let down already. Common practice, no source: a tube of a phthalocyanine blue lasts for
    years, one of a green earth does not.

    Examples
    --------
    >>> from fewtubes import read_catalogue
    >>> tubes = read_catalogue().tubes
    >>> covering_power(tubes["middle-blue"]) > covering_power(tubes["green-earth"])
    True
    """
    if tube.cm2_per_ml is not None:
        return tube.cm2_per_ml
    relative = sqrt(float(tube.K.max()) / MIDDLING)
    return CM2_PER_ML * min(max(relative, 1 / FURTHEST), FURTHEST)
