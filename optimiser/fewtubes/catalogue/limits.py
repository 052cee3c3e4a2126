"""The values a table or scenario may hold, and the sentences that say so.

The limits are wide on purpose: they catch slips of the pen and of the decimal point, not taste.
"""

import math
import re
import unicodedata
from collections.abc import Callable, Collection
from dataclasses import dataclass
from decimal import Decimal
from numbers import Real

from fewtubes.catalogue.names import looks_blank
from fewtubes.catalogue.sizes import LONGEST_NAME
from fewtubes.errors import suggestion
from fewtubes.quoting import is_invisible, quoted

__all__ = [
    "CM2_PER_ML",
    "COEFFICIENT",
    "IMPORTANCE",
    "LIGHTNESS",
    "LONGEST_INTEGER_BITS",
    "MILLILITRES",
    "NUMBER",
    "OPPONENT",
    "POWER",
    "PRICE",
    "REFLECTANCE",
    "SECONDS",
    "SEEDS",
    "SHARE",
    "STRENGTH",
    "NumberRange",
    "listed",
    "parsed_number",
    "shown",
    "text_fault",
    "word_fault",
]

LONGEST_SHOWN = 40
"""Characters of a faulty value that a message repeats."""

NUMBER = re.compile(r"[+-]?(\d+(\.\d*)?|\.\d+)([eE][+-]?\d+)?", re.ASCII)
"""A plain decimal number; leaves out the inf, nan, 1_000 and foreign digits that `float` takes."""

PLAIN_WORD = re.compile(r"[\w-]+")
"""What a list may hold without quotation marks and still be clear."""

LONGEST_INTEGER_BITS = 256
"""Longer integers are not written out in a message; Python itself refuses the longest."""

MOST_LISTED = 12
"""Words of a list that a message repeats."""

UNFIT_CATEGORIES = frozenset({"Cc", "Cf", "Cs", "Zl", "Zp"})
"""Unicode categories of characters that do not print: controls, formats, line separators."""


@dataclass(frozen=True)
class NumberRange:
    """The numbers allowed from `low` to `high`; `low` itself is left out if `above` is true."""

    low: float
    high: float
    above: bool = False

    def admits(self, value: float) -> bool:
        """Return whether the value is finite and inside the range."""
        return math.isfinite(value) and self.low <= value <= self.high and not self._at_low(value)

    def fault(
        self,
        value: object,
        *,
        shown_as: str | None = None,
        whole: bool = False,
        named: bool = False,
    ) -> str | None:
        """Return what is wrong with a value, as the end of a sentence, or None if nothing is.

        Parameters
        ----------
        value
            What was given; anything but a number is a fault.
        shown_as
            How the sentence repeats it; by default as `shown` does, a number without quotation
            marks.
        whole
            Whether it must be a whole number.
        named
            Whether the sentence says in any case that it must be a number.
        """
        number = _as_float(value)
        if number is not None and self.admits(number) and not (whole and number % 1):
            return None
        kind = "a whole number " if whole else "a number "
        telling = named or number is None or (whole and bool(number % 1))
        return f"is {shown_as or _repeated(value)}; it must be {kind if telling else ''}{self}"

    def _at_low(self, value: float) -> bool:
        return self.above and value == self.low

    def __str__(self) -> str:
        low, high = _plain(self.low), _plain(self.high)
        return f"above {low} and at most {high}" if self.above else f"from {low} to {high}"


PRICE = NumberRange(0, 10_000, above=True)
"""Price of a pack [currency]; the dearest tubes cost a few hundred at most."""

MILLILITRES = NumberRange(0.1, 10_000)
"""Content of a pack [ml]; tubes hold 5–200 ml, the limits leave room for dots and jars."""

CM2_PER_ML = NumberRange(1, 10_000)
"""Area that a millilitre covers in a full-strength stroke [cm²]: a layer of 1 cm to 0.001 mm."""

COEFFICIENT = NumberRange(0, 1000)
"""K or S per unit load; at 1000 a film is opaque many times over."""

STRENGTH = NumberRange(0, 100, above=True)
"""Pigment load of a tube relative to the profiles."""

SHARE = NumberRange(0, 1, above=True)
"""Share of a pigment in a tube."""

LIGHTNESS = NumberRange(0, 100)
"""L* of CIELAB, by definition."""

OPPONENT = NumberRange(-150, 150)
"""a* and b* of CIELAB; the colours of real surfaces stay well inside."""

IMPORTANCE = NumberRange(0, 1000, above=True)
"""Importance of a flower, swatch or colour, relative to the others."""

REFLECTANCE = NumberRange(0, 1)
"""Share of the light sent back; more than 1 would need fluorescence, which is not modelled."""

SECONDS = NumberRange(0, 86_400)
"""Patience [s]; a day at most."""

SEEDS = NumberRange(0, 1_000_000_000)
"""Of random draws: enough to choose from, and few enough digits to copy."""

POWER = NumberRange(0, 1_000_000)
"""Relative spectral power of a light, any scale."""


def _as_float(value: object) -> float | None:
    """Return a number as a float, one beyond its range as infinite; None if it is no number."""
    if isinstance(value, bool) or not isinstance(value, Real | Decimal):
        return None
    try:
        return float(value)
    except OverflowError:
        return -math.inf if isinstance(value, int) and value < 0 else math.inf


def _repeated(value: object) -> str:
    """Return a value as a sentence repeats it: a number plainly, all else in quotation marks."""
    if isinstance(value, float):
        return repr(float(value)).removesuffix(".0")
    if isinstance(value, int) and value.bit_length() > LONGEST_INTEGER_BITS:
        return "a number of very many digits"
    number = isinstance(value, Real | Decimal) and not isinstance(value, bool)
    return _cut(str(value)) if number else shown(value)


def parsed_number(text: str) -> float | None:
    """Return the number that a cell holds, or None if it is not a plain decimal number."""
    return float(text) if NUMBER.fullmatch(text) else None


def shown(value: object) -> str:
    """Return a value as a message repeats it: quoted, hidden signs escaped, cut if long."""
    return quoted(_cut(value if isinstance(value, str) else str(value)))


def _cut(text: str) -> str:
    return text if len(text) <= LONGEST_SHOWN else f"{text[:LONGEST_SHOWN]}…"


def listed(words: Collection[str], most: int = MOST_LISTED) -> str:
    """Return the words as a list to choose from, the first `most` if there are more.

    If one of them is more than a plain word, ``rose, red`` for example, all stand in quotation
    marks, so that it is clear where each begins and ends; semicolons part what holds a comma.
    """
    first = [word for word, _ in zip(words, range(most), strict=False)]
    if not all(PLAIN_WORD.fullmatch(word) for word in first):
        first = [shown(word) for word in first]
    rest = len(words) - len(first)
    joint = "; " if any(", " in word for word in first) else ", "
    return joint.join(first) + (f" and {rest:,} more" if rest else "")


def text_fault(text: str, longest: int = LONGEST_NAME) -> str | None:
    """Return what is wrong with a text, as the end of a sentence, or None if nothing is."""
    if not text:
        return "is blank; fill it in"
    if len(text) > longest:
        return f"has {len(text):,} characters; at most {longest:,} are allowed, so shorten it"
    if text.isascii() and text.isprintable() and text.strip():
        return None
    for place, sign in enumerate(text, start=1):
        if unicodedata.category(sign) in UNFIT_CATEGORIES:
            return f"holds the unprintable character U+{ord(sign):04X} at place {place}; remove it"
        if is_invisible(sign) and unicodedata.category(sign) != "Mn":  # those vary the one before
            return f"holds the invisible character U+{ord(sign):04X} at place {place}; remove it"
    return "shows nothing that can be read; fill it in" if looks_blank(text) else None


def word_fault(
    word: str,
    allowed: Collection[str],
    suggest: Callable[[str, Collection[str]], str] = suggestion,
) -> str | None:
    """Return what is wrong with a word from a fixed list, up to the end of a sentence, or None.

    Parameters
    ----------
    word, allowed
        The word and the list.
    suggest
        Offers names in place of an unknown one, as `fewtubes.errors.suggestion` does.
    """
    if word in allowed:
        return None
    return f"is {shown(word)}; allowed: {listed(allowed)}.{suggest(word, allowed)}"


def _plain(value: float) -> str:
    return f"{value:,.15g}"
