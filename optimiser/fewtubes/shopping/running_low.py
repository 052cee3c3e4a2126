"""Whether what is left of an owned tube may soon be too little."""

from fewtubes.catalogue.records import Tube
from fewtubes.words.left import NEARLY_EMPTY

__all__ = ["runs_low", "short_of"]


def runs_low(tube: Tube, left: float, *, millilitres: float, planned: float = 0.0) -> bool:
    """Return whether a tube is nearly empty, or may hold less paint than is wished for or planned.

    How large the tube at home was is not known: it is taken for the smallest pack that is sold,
    and a full one is taken to be enough for what is wished; what pictures planned take may be more.

    Parameters
    ----------
    tube
        With its packs, in any currency.
    left
        What is left of it, a share [0–1].
    millilitres
        Paint wished for of every tube bought [ml]; 0 if none is.
    planned
        Paint that the pictures planned take of it [ml]; 0 if none are.
    """
    short = left < 1 and short_of(tube, left, millilitres)
    return left <= NEARLY_EMPTY or short or short_of(tube, left, planned)


def short_of(tube: Tube, left: float, ml: float) -> bool:
    """Return whether what is left of a tube [0–1] of the smallest pack is less than `ml` [ml]."""
    smallest = min((offer.ml for offer in tube.offers), default=0.0)
    return 0 < left * smallest < ml
