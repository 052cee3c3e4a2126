"""Numbers that are not parted from their unit at the end of a line, in one place for all.

Only what is laid out in lines goes through here, not what is written into tables and JSON.
"""

import re

__all__ = ["FIXED_BLANK", "unparted"]

FIXED_BLANK = "\u00a0"
"""A blank at which no line is broken (Unicode Standard Annex 14, class GL)."""

UNITS = ("%", "ml", "cm²", "cm", "mm", "nm", "points", "point", "MiB")
"""Units that stand behind a number, after a blank."""

TOGETHER = re.compile(
    r"(?<=\d) (?=(?:" + "|".join(UNITS) + r")(?!\w))"  # 95.2 %, 5 ml
    r"|(?<=\b[A-Z]{3}) (?=\d)"  # EUR 12.00
    r"|(?<=ΔE00) (?=\d)"
    r"|(?<=\d) (?=× \d)|(?<=\d ×) (?=\d)"  # 12 × 5
)
"""Blanks between a number and what it is a number of."""


def unparted(text: str, blank: str = FIXED_BLANK) -> str:
    """Return a text with a fixed blank between each number and its unit.

    Parameters
    ----------
    text
        Any text, fit to print.
    blank
        One sign at which whatever lays the text out breaks no line.
    """
    return TOGETHER.sub(blank, text)
