"""Numbers as a painter reads them: strengths, matches, steadiness, money, shares.

The words for strengths, matches and steadiness are our own; no standard has any.
"""

import math
from collections.abc import Mapping, Sequence
from decimal import Decimal

from fewtubes.catalogue.records import Lightfastness
from fewtubes.mixing.recipes import STRENGTHS, Recipe

__all__ = [
    "LIGHTFASTNESS_WORDS",
    "PARTS_WORDS",
    "amount",
    "counted",
    "difference",
    "in_a_row",
    "joined",
    "match_words",
    "money",
    "percent",
    "recipe_words",
    "steadiness_words",
    "strength_words",
]

PARTS_WORDS = (
    "Parts are brushfuls, each paint let down beforehand to the full strength that its painted-out"
    " stroke shows; a strong tinter takes far less from the tube for that than a weak one."
)
"""What a part is: as much as makes one full-strength stroke, not a volume from the tube."""

STRENGTH_WORDS = (
    "full strength",
    "strong wash",
    "half-strength wash",
    "third-strength wash",
    "quarter-strength wash",
    "sixth-strength wash",
    "light wash",
    "lighter wash",
    "thin wash",
    "pale wash",
    "paler wash",
    "very pale wash",
)
"""One for each of `STRENGTHS`, full strength first; our own wording."""

MATCH_WORDS = (
    (1.0, "no difference to the eye"),
    (2.0, "hardly different"),
    (4.0, "near"),
    (7.0, "clearly different"),
    (12.0, "far off"),
    (math.inf, "another colour"),
)
"""Match up to which each wording holds [ΔE00]; our own wording and cut-offs.

About 1 is where a trained eye sees a difference side by side (common practice, no source).
"""

STEADINESS_WORDS = (
    (0.0, "forgiving"),
    (2.0, "measure with care"),
    (math.inf, "touchy"),
)
"""How far beyond the tolerance an unsteady hand may lead [ΔE00]; our own wording and cut-offs."""

LIGHTFASTNESS_WORDS: Mapping[Lightfastness, str] = {
    Lightfastness.I: "excellent",
    Lightfastness.II: "very good",
    Lightfastness.III: "fair",
    Lightfastness.IV: "poor",
    Lightfastness.V: "very poor",
}
"""The wording of ASTM D4303 for its categories, from memory."""


def strength_words(strength: float) -> str:
    """Return a wash strength in words and as a share, e.g. ``half-strength wash (50 %)``."""
    steps = [abs(math.log(strength / known)) for known in STRENGTHS]
    two_digits = float(f"{100 * strength:.2g}")
    return f"{STRENGTH_WORDS[steps.index(min(steps))]} ({two_digits:g} %)"


def match_words(match: float) -> str:
    """Return a match [ΔE00] in words, e.g. ``hardly different``; by the figure that is printed."""
    match = round(match, 1) if math.isfinite(match) else match
    return next(words for limit, words in MATCH_WORDS if match <= limit)


def steadiness_words(match_if_unsteady: float, tolerance: float) -> str:
    """Return how forgiving a recipe is, from its match when the hand is off [ΔE00]."""
    beyond = match_if_unsteady - tolerance
    return next(words for limit, words in STEADINESS_WORDS if beyond <= limit)


def difference(match: float) -> str:
    """Return a match with its unit, e.g. ``ΔE00 6.1``."""
    return f"ΔE00 {match:.1f}" if math.isfinite(match) else "ΔE00 unknown"


def amount(price: int) -> str:
    """Return hundredths of a currency as a decimal number, exactly, e.g. ``12.50``."""
    return str((Decimal(price) / 100).quantize(Decimal("0.01")))


def money(price: int, currency: str) -> str:
    """Return hundredths of a currency after its ISO 4217 code, e.g. ``EUR 12.50``."""
    return f"{currency} {amount(price)}"


def percent(share: float) -> str:
    """Return a share [0–1] in per cent with one decimal; 0 and 100 stand for none and all only."""
    shown = 100 * share
    if 0 < shown < 0.05:
        return "under 0.1 %"
    if 99.95 <= shown < 100:
        return "over 99.9 %"
    return f"{shown:.1f}".removesuffix(".0") + " %"


def counted(number: int, thing: str) -> str:
    """Return a number with its thing in the singular or plural, e.g. ``1 tube``, ``1,200 mixes``.

    Parameters
    ----------
    number
        How many.
    thing
        The singular; a plural other than with s follows a stroke, e.g. ``"mix/mixes"``.
    """
    singular, _, plural = thing.partition("/")
    return f"{number:,} {singular if number == 1 else plural or singular + 's'}"


def joined(words: list[str], last: str = "and") -> str:
    """Return the words as a list in a sentence, e.g. ``a, b and c``.

    Where a word holds a comma itself, semicolons part the words.
    """
    if len(words) < 2:
        return "".join(words)
    if any("," in word for word in words):
        return f"{'; '.join(words[:-1])}; {last} {words[-1]}"
    return f"{', '.join(words[:-1])} {last} {words[-1]}"


def in_a_row(words: Sequence[str]) -> str:
    """Return the words as a bare list, e.g. ``a, b, c``; parted by semicolons as in `joined`."""
    return ("; " if any("," in word for word in words) else ", ").join(words)


def recipe_words(recipe: Recipe, names: Mapping[str, str]) -> str:
    """Return a recipe in words, e.g. ``2 parts magenta : 1 part gold; pale wash (4.4 %)``.

    Parameters
    ----------
    recipe
        The recipe.
    names
        Name of each tube by id.
    """
    mixed = " : ".join(
        f"{counted(parts, 'part')} {names[tube]}"
        for tube, parts in zip(recipe.tubes, recipe.parts, strict=True)
    )
    if len(recipe.tubes) == 1:
        mixed = f"{names[recipe.tubes[0]]} alone"
    return f"{mixed}; {strength_words(recipe.strength)}"
