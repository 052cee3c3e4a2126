"""The values a table or scenario may hold, and the sentences that say so.

The limits are wide on purpose: they catch slips of the pen and of the decimal point, not taste.
"""

import math
import re
import unicodedata
from collections.abc import Collection
from dataclasses import dataclass

from fewtubes.errors import suggestion

__all__ = [
    "COEFFICIENT",
    "IMPORTANCE",
    "LIGHTNESS",
    "LONGEST_NAME",
    "MILLILITRES",
    "NUMBER",
    "OPPONENT",
    "POWER",
    "PRICE",
    "REFLECTANCE",
    "SHARE",
    "STRENGTH",
    "NumberRange",
    "listed",
    "parsed_number",
    "shown",
    "text_fault",
    "word_fault",
]

LONGEST_NAME = 200
"""Characters in a name; longer ones break every report."""

LONGEST_SHOWN = 40
"""Characters of a faulty value that a message repeats."""

NUMBER = re.compile(r"[+-]?(\d+(\.\d*)?|\.\d+)([eE][+-]?\d+)?", re.ASCII)
"""A plain decimal number; leaves out the inf, nan, 1_000 and foreign digits that `float` takes."""

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

    def _at_low(self, value: float) -> bool:
        return self.above and value == self.low

    def __str__(self) -> str:
        low, high = _plain(self.low), _plain(self.high)
        return f"above {low} and at most {high}" if self.above else f"from {low} to {high}"


PRICE = NumberRange(0, 10_000, above=True)
"""Price of a pack [currency]; the dearest tubes cost a few hundred at most."""

MILLILITRES = NumberRange(0, 10_000, above=True)
"""Content of a pack [ml]; tubes hold 5–200 ml, the limit leaves room for jars."""

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

POWER = NumberRange(0, 1_000_000)
"""Relative spectral power of a light, any scale."""


def parsed_number(text: str) -> float | None:
    """Return the number that a cell holds, or None if it is not a plain decimal number."""
    return float(text) if NUMBER.fullmatch(text) else None


def shown(value: object) -> str:
    """Return a value as a message repeats it: quoted, unprintable signs escaped, cut if long."""
    text = value if isinstance(value, str) else str(value)
    text = text if len(text) <= LONGEST_SHOWN else f"{text[:LONGEST_SHOWN]}…"
    safe = "".join(sign if sign.isprintable() else f"\\x{ord(sign):02x}" for sign in text)
    return f"'{safe}'"


def listed(words: Collection[str]) -> str:
    """Return the words as a list to choose from, the first dozen if there are many."""
    first = [word for word, _ in zip(words, range(12), strict=False)]
    rest = len(words) - len(first)
    return ", ".join(first) + (f" and {rest} more" if rest else "")


def text_fault(text: str, longest: int = LONGEST_NAME) -> str | None:
    """Return what is wrong with a text, as the end of a sentence, or None if nothing is."""
    if not text:
        return "is blank; fill it in"
    if len(text) > longest:
        return f"has {len(text):,} characters; at most {longest:,} are allowed, so shorten it"
    if text.isprintable():
        return None
    for place, sign in enumerate(text, start=1):
        if unicodedata.category(sign) in UNFIT_CATEGORIES:
            return f"holds the unprintable character U+{ord(sign):04X} at place {place}; remove it"
    return None


def word_fault(word: str, allowed: Collection[str]) -> str | None:
    """Return what is wrong with a word from a fixed list, up to the end of a sentence, or None."""
    if word in allowed:
        return None
    near = suggestion(word, list(allowed)) if len(word) <= LONGEST_NAME else ""
    return f"is {shown(word)}; allowed: {listed(allowed)}.{near}"


def _plain(value: float) -> str:
    return f"{value:,.15g}"
