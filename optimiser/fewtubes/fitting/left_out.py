"""Each swatch predicted from the others alone: what a fit is worth, and which swatch is another's.

Leave-one-out cross-validation (M. Stone, J. R. Stat. Soc. B 36, 111, 1974).
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from fewtubes.colour.bands import FloatArray
from fewtubes.colour.difference import delta_e_2000
from fewtubes.fitting.estimate import Estimate, estimated
from fewtubes.fitting.grounds import Grounds
from fewtubes.fitting.seen import as_seen, lab_of
from fewtubes.fitting.sheet import PaintedSwatch
from fewtubes.fitting.swatch_model import Paint
from fewtubes.mixing.film import film_reflectance
from fewtubes.mixing.mixture import reflectance_lab
from fewtubes.mixing.surface import with_surface

__all__ = ["Predicted", "off", "painted_lab", "predicted"]

LEAST_LEFT = 2
"""Swatches of two strengths that must be left to say anything."""

KINDS_KEPT = 4
"""Likeliest kinds that are fitted again; the others hardly count. They are the likeliest with the
swatch that is left out, which flatters the difference by about a twentieth."""

SLIPS = np.exp(np.linspace(-1.0, 1.0, 9))
"""Shares of the strength that was meant which a bad slip puts there, a third to thrice."""


@dataclass(frozen=True, eq=False)
class Predicted:
    """What the other swatches say of one."""

    lab: FloatArray
    """CIELAB at the strength that was meant, shape (3,)."""
    difference: float
    """From what was seen [ΔE00]."""
    however_strong: float
    """The same at whatever strength it is least, as far as a hand slips [ΔE00]."""


def predicted(
    swatches: Sequence[PaintedSwatch], estimate: Estimate, grounds: Grounds, *, hand: float
) -> tuple[Predicted | None, ...]:
    """Return for each swatch what the others say of it; None where they are too few.

    Parameters
    ----------
    swatches
        Of one tube.
    estimate
        From all of them.
    grounds
        What they lie on.
    hand
        Standard deviation of ln(true ÷ meant strength), > 0.
    """
    near = estimate.likeliest_kinds(KINDS_KEPT)
    kinds = [solution.model.expected for solution in near.solutions]
    found: list[Predicted | None] = []
    for place, swatch in enumerate(swatches):
        others = [other for number, other in enumerate(swatches) if number != place]
        strengths = {other.strength for other in others if not other.over_black}
        if len(strengths) < LEAST_LEFT:
            found.append(None)
            continue
        paint = estimated(others, kinds, grounds, hand=hand, near=near).paint
        lab = painted_lab(paint, swatch, grounds, strength=swatch.strength)
        slips = [
            off(painted_lab(paint, swatch, grounds, strength=strength), swatch, grounds)
            for strength in swatch.strength * SLIPS
        ]
        found.append(Predicted(lab, off(lab, swatch, grounds), min(slips)))
    return tuple(found)


def painted_lab(
    paint: Paint, swatch: PaintedSwatch, grounds: Grounds, *, strength: float
) -> FloatArray:
    """Return CIELAB of a paint at a strength where a swatch lies, shape (3,)."""
    ground = grounds.under([swatch])[0]
    inner = film_reflectance(strength * paint.K, strength * paint.S, ground)
    return reflectance_lab(grounds.shown(with_surface(np.asarray(inner))), grounds.optics)


def off(lab: FloatArray, swatch: PaintedSwatch, grounds: Grounds) -> float:
    """Return how far a computed colour, shape (3,), is from a swatch as it was seen [ΔE00]."""
    shown = as_seen(lab[None], [swatch])[0]
    return float(delta_e_2000(shown, lab_of(swatch.colour, grounds.optics)))
