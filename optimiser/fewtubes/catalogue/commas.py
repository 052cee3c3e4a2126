"""Numbers written as much of the world writes them: with a decimal comma, or grouped thousands."""

import re

from fewtubes.catalogue.limits import parsed_number

__all__ = ["comma_hint", "decimal_sign", "with_point"]

GROUPED = re.compile(r"[+-]?\d{1,3}(?:([.,' ])\d{3}(?:\1\d{3})*)(?!\1)[.,]\d+", re.ASCII)
"""Thousands set apart by one sign, decimals by another: 1.234,50 and 1,234.50, 1'234.50, 1 234,5.

The other sign shows which is which; of 1.234 alone nobody can tell, so it is left as it is.
"""

LONGEST = 40
"""Signs of a number that is written out anew; a longer one is no slip of the pen."""


def with_point(text: str) -> str | None:
    """Return a number as it has to be written, None if the text needs another remedy.

    A text that is a plain number already comes back as it is.
    """
    text = text.strip()
    if len(text) > LONGEST:
        return None
    if GROUPED.fullmatch(text):
        whole, sign, decimals = max(text.rpartition("."), text.rpartition(","), key=_length_before)
        return re.sub(r"[.,' ]", "", whole) + sign.replace(",", ".") + decimals
    pointed = text.replace(",", ".")
    return pointed if parsed_number(pointed) is not None else None


def decimal_sign(text: str) -> str | None:
    """Return the sign before a number's decimals; None of what has none, or is no number.

    The point of 1.234 is taken for one, as `with_point` takes it.
    """
    text = text.strip()
    if with_point(text) is None:
        return None
    return max((sign for sign in ",." if sign in text), key=text.rfind, default=None)


def comma_hint(text: str) -> str:
    """Return how a number with a decimal comma is to be written, as the end of a sentence."""
    pointed = with_point(text)
    if pointed is None or text.rfind(",") <= text.rfind("."):
        return ""
    return f"; decimals take a point: write {pointed}"


def _length_before(parts: tuple[str, str, str]) -> int:
    return len(parts[0])
