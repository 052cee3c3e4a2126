"""What a painter should know about the fit of one tube, in sentences."""

from collections.abc import Sequence

import numpy as np

from fewtubes.fitting.fitted import FittedSwatch
from fewtubes.fitting.mixed_up import FOREIGN
from fewtubes.fitting.sheet import PaintedTube
from fewtubes.words.matches import match_figure

__all__ = ["notes_on"]

BADLY_MET = 5.0
"""ΔE00 between a swatch and the fitted paint from which they are not the same paint."""

STRAYED = 3.0
"""Standard deviations of the hand from which a strength is told to be another than written."""


def notes_on(
    tube: PaintedTube, swatches: Sequence[FittedSwatch], *, hand: float, labelled: bool
) -> tuple[str, ...]:
    """Return what to know of a fit, a sentence each.

    Parameters
    ----------
    tube
        As it was painted.
    swatches
        Beside what the fit gives.
    hand
        Standard deviation of ln(true ÷ meant strength).
    labelled
        Whether its label tells pigments of which it is known how much they hide.
    """
    return (
        *_guessed_hiding(tube, labelled=labelled),
        *(_badly_met(swatch) for swatch in swatches if swatch.difference > BADLY_MET),
        *(_foreign(swatch) for swatch in swatches if (swatch.left_out or 0.0) > FOREIGN),
        *(_strayed(swatch) for swatch in swatches if _slip(swatch) > STRAYED * hand),
    )


def _guessed_hiding(tube: PaintedTube, *, labelled: bool) -> list[str]:
    if any(swatch.over_black for swatch in tube.swatches):
        return []
    known = "from its pigments" if labelled else "from what paints are like"
    return [
        f"No swatch lies over a black line, so how much it hides is judged {known}; a full stroke"
        " over a waterproof black line would tell."
    ]


def _badly_met(swatch: FittedSwatch) -> str:
    return (
        f"The swatch {_named(swatch)} is off by ΔE00 {match_figure(swatch.difference)} from the"
        " paint that goes best with all of them; look whether it bloomed or shines, whether its"
        " colour was read rightly, or whether it is a metallic or fluorescent paint, which cannot"
        " be fitted."
    )


def _foreign(swatch: FittedSwatch) -> str:
    return (
        f"The tube's other swatches foretell another colour for the swatch {_named(swatch)}"
        f" (ΔE00 {match_figure(swatch.left_out or 0.0)} off); look whether it is this tube's and"
        " was let down as written, or paint it again."
    )


def _strayed(swatch: FittedSwatch) -> str:
    return (
        f"The swatch {_named(swatch)} seems to hold {swatch.strength:.2g} of a full stroke, and is"
        " counted as that."
    )


def _slip(swatch: FittedSwatch) -> float:
    return float(abs(np.log(swatch.strength / swatch.painted.strength)))


def _named(swatch: FittedSwatch) -> str:
    over = " over black" if swatch.painted.over_black else ""
    return f"of strength {swatch.painted.strength:g}{over}"
