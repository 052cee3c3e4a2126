"""What is said of fitted tubes, the same in every report."""

from fewtubes.fitting.fitted import Advice, MixSpread
from fewtubes.fitting.sheet import PaintedTube
from fewtubes.words.lightfastness import LIGHT_TEST
from fewtubes.words.printable import printable
from fewtubes.words.washes import strength_words

__all__ = [
    "ESTIMATE",
    "UNSEEN",
    "advice_words",
    "figure_or_dash",
    "named_tube",
    "spread_words",
    "stroke_words",
]

ESTIMATE = (
    "A fit is an estimate from a few painted swatches: the true paint may mix differently, so try a"
    " mix before you rely on it. What is harmful in a tube no swatch shows; the maker's label, the"
    " safety data sheet, local rules and qualified advice decide."
)

UNSEEN = f"How long a colour lasts is not seen in a swatch. {LIGHT_TEST}"
"""What a fit cannot tell."""

STROKES = {
    1.0: "full stroke",
    0.5: "wash at half strength",
    0.25: "wash at a quarter",
    0.125: "wash at an eighth",
}
"""What a painter paints on a card, by strength."""


def stroke_words(strength: float) -> str:
    """Return what a painter paints at a strength, e.g. ``wash at a quarter``."""
    return STROKES.get(strength, strength_words(strength))


def named_tube(tube: PaintedTube) -> str:
    """Return the name of a tube with its pigments."""
    codes = " + ".join(tube.codes)
    return f"{printable(tube.name)} ({codes})" if codes else printable(tube.name)


def figure_or_dash(difference: float | None) -> str:
    """Return a difference [ΔE00] to one decimal, or a dash where there is none."""
    return "–" if difference is None else f"{difference:.1f}"


def spread_words(spread: MixSpread) -> str:
    """Return how sure mixes with a tube are."""
    return (
        f"Nine in ten of its mixes are within ΔE00 {spread.most:.1f} of what is computed, as far as"
        " the swatches tell."
    )


def advice_words(advice: Advice | None, spread: MixSpread) -> str:
    """Return what would help most, and by how much."""
    if advice is None:
        return "For its mixes on bare paper no one further swatch would tell much more."
    if advice.over_black:
        what = "paint a full stroke over a waterproof black line"
    else:
        what = f"paint one more {stroke_words(advice.strength)}"
    return (
        f"What would help most: {what}; nine in ten of its mixes would then be within about ΔE00"
        f" {advice.spread.most:.1f} instead of {spread.most:.1f}."
    )
