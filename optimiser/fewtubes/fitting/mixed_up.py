"""Swatches that do not belong to the tube they stand beside."""

from collections.abc import Sequence
from itertools import combinations

import numpy as np

from fewtubes.catalogue.collector import FaultCollector
from fewtubes.catalogue.limits import shown
from fewtubes.colour.bands import FloatArray
from fewtubes.colour.difference import delta_e_2000
from fewtubes.fitting.left_out import Predicted
from fewtubes.fitting.sheet import PaintedSwatch, PaintedTube

__all__ = ["FOREIGN", "Foretold", "check_not_mixed_up"]

FOREIGN = 10.0
"""ΔE00 from what the tube's other swatches say at which a swatch is taken for another's, however
strong it turned out."""

FITS_BETTER = 0.5
"""Share of that difference that may be left if two such swatches change places."""

Foretold = tuple[PaintedTube, FloatArray, Sequence[Predicted | None]]
"""A tube, CIELAB of its swatches, shape (swatches, 3), and what the others say of each."""


def check_not_mixed_up(tubes: Sequence[Foretold], collector: FaultCollector) -> None:
    """Note swatches of two tubes that would do better in each other's place."""
    odd = [
        (tube, swatch, lab, said)
        for tube, labs, foretold in tubes
        for swatch, lab, said in zip(tube.swatches, labs, foretold, strict=True)
        if said is not None and said.however_strong > FOREIGN
    ]
    for (one, here, lab, said), (other, there, other_lab, other_said) in combinations(odd, 2):
        if one is other or not _same_place(here, there):
            continue
        swapped = float(
            delta_e_2000(np.array([lab, other_lab]), np.array([other_said.lab, said.lab])).max()
        )
        if swapped < FITS_BETTER * min(said.difference, other_said.difference):
            collector.note(
                here.where,
                f"this swatch of {shown(one.name)} and that of {shown(other.name)}"
                f" ({there.where}) seem to have changed places; put each beside its own tube.",
            )


def _same_place(one: PaintedSwatch, other: PaintedSwatch) -> bool:
    return one.strength == other.strength and one.over_black == other.over_black
