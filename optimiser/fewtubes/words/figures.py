"""Numbers as a painter reads them: strengths, matches, steadiness, money, shares.

The words for strengths, matches and steadiness are our own; no standard has any.
"""

import math
from collections.abc import Mapping, Sequence
from decimal import Decimal

from fewtubes.catalogue.records import Lightfastness
from fewtubes.mixing.opacity import CUT_OFFS
from fewtubes.mixing.recipes import STRENGTHS, Recipe
from fewtubes.words.decimals import asked_figure, rounded

__all__ = [
    "BARE_PAPER_WORDS",
    "LIGHTFASTNESS_WORDS",
    "MATCH_LIMITS",
    "PARTS_WORDS",
    "RESERVE_WORDS",
    "amount",
    "counted",
    "difference",
    "hiding",
    "in_a_row",
    "joined",
    "limit_words",
    "match_figure",
    "match_words",
    "money",
    "percent",
    "percents_apart",
    "recipe_words",
    "steadiness_words",
    "strength_words",
    "unsteady_figure",
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

MATCH_LIMITS = tuple(limit for limit, _ in MATCH_WORDS)
"""Matches at which the wording changes [ΔE00]: a figure beside it keeps to its side of each."""

STEADINESS_WORDS = (
    (0.0, "forgiving"),
    (2.0, "measure with care"),
    (math.inf, "touchy"),
)
"""How far beyond the tolerance an unsteady hand may lead [ΔE00]; our own wording and cut-offs."""

MOST_APART = 12
"""Decimals of a per cent that may be needed to tell two shares apart; doubles hold no more."""

LIGHTFASTNESS_WORDS: Mapping[Lightfastness, str] = {
    Lightfastness.I: "excellent",
    Lightfastness.II: "very good",
    Lightfastness.III: "fair",
    Lightfastness.IV: "poor",
    Lightfastness.V: "very poor",
}
"""The wording of ASTM D4303 for its categories, from memory."""


BARE_PAPER_WORDS = "bare paper"
"""The recipe without tubes."""

RESERVE_WORDS = (
    "Where it says bare paper, nothing is painted: paint around it (reserving the white)."
)
"""What watercolourists do and call it (common practice, no source)."""


def strength_words(strength: float) -> str:
    """Return a wash strength in words and as a share, e.g. ``half-strength wash (50 %)``."""
    steps = [abs(math.log(strength / known)) for known in STRENGTHS]
    two_digits = float(f"{100 * strength:.2g}")
    return f"{STRENGTH_WORDS[steps.index(min(steps))]} ({two_digits:g} %)"


def match_words(match: float) -> str:
    """Return a match [ΔE00] in words, e.g. ``hardly different``; `difference` prints it so."""
    return next(words for limit, words in MATCH_WORDS if match <= limit)


def steadiness_words(match_if_unsteady: float, tolerance: float) -> str:
    """Return how forgiving a recipe is, from its match when the hand is off [ΔE00]."""
    limits = zip(_steadiness_limits(tolerance), STEADINESS_WORDS, strict=True)
    return next(words for limit, (_, words) in limits if match_if_unsteady <= limit)


def _steadiness_limits(tolerance: float) -> tuple[float, ...]:
    return tuple(tolerance + beyond for beyond, _ in STEADINESS_WORDS)


def difference(match: float, *limits: float) -> str:
    """Return a match with its unit, e.g. ``ΔE00 6.1``.

    Parameters
    ----------
    match
        [ΔE00]
    limits
        What it was held against besides the limits of `match_words`, such as a tolerance; the
        figure lies on the same side of each as the match.
    """
    return f"ΔE00 {match_figure(match, *limits)}" if math.isfinite(match) else "ΔE00 unknown"


def match_figure(match: float, *limits: float) -> str:
    """Return a finite match without its unit; see `difference`."""
    return rounded(match, *MATCH_LIMITS, *limits)


def unsteady_figure(match_if_unsteady: float, tolerance: float) -> str:
    """Return the match when the hand is off, without unit, in keeping with `steadiness_words`."""
    return rounded(match_if_unsteady, *_steadiness_limits(tolerance))


def limit_words(limit: float) -> str:
    """Return a limit for matches with its unit, such as a tolerance, exactly as it was given."""
    return f"ΔE00 {asked_figure(limit)}"


def amount(price: int) -> str:
    """Return hundredths of a currency as a decimal number, exactly, e.g. ``12.50``."""
    return str((Decimal(price) / 100).quantize(Decimal("0.01")))


def money(price: int, currency: str) -> str:
    """Return hundredths of a currency after its ISO 4217 code, e.g. ``EUR 12.50``."""
    return f"{currency} {amount(price)}"


def percent(share: float, decimals: int = 1) -> str:
    """Return a share [0–1] in per cent; 0 and 100 stand for none and all only."""
    shown, least = 100 * share, 10.0**-decimals
    if 0 < shown < least / 2:
        return f"under {least:.{decimals}f} %"
    if 100 - least / 2 <= shown < 100:
        return f"over {100 - least:.{decimals}f} %"
    text = f"{shown:.{decimals}f}"
    return f"{text.rstrip('0').rstrip('.') if decimals else text} %"


def percents_apart(one: float, other: float) -> tuple[str, str]:
    """Return two shares [0–1] in per cent, told apart unless they are equal."""
    for decimals in range(1, MOST_APART):
        texts = percent(one, decimals), percent(other, decimals)
        if one == other or texts[0] != texts[1]:
            break
    return texts


def hiding(contrast_ratio: float) -> str:
    """Return a contrast ratio [0–1] in per cent, in keeping with its class of transparency."""
    limits = (-100 * start for start, _ in CUT_OFFS)  # a class begins at its limit: turned round
    shown = rounded(-100 * contrast_ratio, *limits).removeprefix("-").removesuffix(".0")
    return f"{shown} %"


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

    The recipe without tubes is ``bare paper``.

    Parameters
    ----------
    recipe
        The recipe.
    names
        Name of each tube by id.
    """
    if recipe.is_bare_paper:
        return BARE_PAPER_WORDS
    mixed = " : ".join(
        f"{counted(parts, 'part')} {names[tube]}"
        for tube, parts in zip(recipe.tubes, recipe.parts, strict=True)
    )
    if len(recipe.tubes) == 1:
        mixed = f"{names[recipe.tubes[0]]} alone"
    return f"{mixed}; {strength_words(recipe.strength)}"
