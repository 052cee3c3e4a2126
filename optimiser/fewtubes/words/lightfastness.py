"""Grades of lightfastness in words."""

from collections.abc import Iterable, Mapping, Sequence

from fewtubes.catalogue.records import LASTS, Lightfastness, Tube
from fewtubes.words.lists import joined
from fewtubes.words.printable import printable

__all__ = ["LIGHTFASTNESS_WORDS", "LIGHT_TEST", "fade_sentence", "graded_words", "which_fade"]

LIGHT_TEST = (
    "To test it, paint a swatch, cover half of it, and leave it in a window for some months; then"
    " compare the halves."
)
"""Common practice, no source."""

LIGHTFASTNESS_WORDS: Mapping[Lightfastness, str] = {
    Lightfastness.I: "excellent",
    Lightfastness.II: "very good",
    Lightfastness.III: "fair",
    Lightfastness.IV: "poor",
    Lightfastness.V: "very poor",
}
"""The wording of ASTM D4303 for its categories, from memory."""


def graded_words(grade: Lightfastness) -> str:
    """Return a category with its wording, e.g. ``III, fair``."""
    return f"{grade.name}, {LIGHTFASTNESS_WORDS[grade]}"


def fade_sentence(tubes: Iterable[Tube], *, given: bool = False) -> str:
    """Return which of some tubes to buy fade, and how to do without; "" if all of them last.

    Parameters
    ----------
    tubes
        The tubes to buy.
    given
        Whether these were named by who asks, so that nothing else would be bought.
    """
    fading = [tube for tube in tubes if tube.lightfastness.fades]
    if not fading:
        return ""
    them = "it" if len(fading) == 1 else "them"
    without = f" To do without {them}, ask for lightfastness {LASTS.name} or better."
    return f"{which_fade(fading)}{'' if given else without}"


def which_fade(tubes: Sequence[Tube]) -> str:
    """Return that these tubes, one or more, fade, in a sentence."""
    names = joined([f"{printable(it.name)} ({graded_words(it.lightfastness)})" for it in tubes])
    return f"In light {'this one fades' if len(tubes) == 1 else 'these fade'}: {names}."
