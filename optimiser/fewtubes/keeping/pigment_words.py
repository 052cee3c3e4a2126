"""The pigments of a tube as they are written, ``PR122 + PB29`` or ``PR122 60 + PB29 40``."""

import re
from fractions import Fraction

from fewtubes.catalogue.limits import shown

__all__ = ["named_pigments"]

APART = re.compile(r"\s*[+,;/&]\s*")

PART = re.compile(r"(\S+?)(?:\s+(\d{1,9}(?:\.\d{1,9})?)\s*%?)?", re.ASCII)
"""A pigment and how much of it: ``PB29``, ``PB29 40 %``."""


def named_pigments(text: str) -> tuple[tuple[tuple[str, Fraction], ...], str | None]:
    """Return the pigments with their parts, equal ones if none are given, and what is wrong.

    Examples
    --------
    >>> named_pigments("PR122 60 % + PB29 40 %")
    ((('PR122', Fraction(60, 1)), ('PB29', Fraction(40, 1))), None)
    >>> named_pigments("PR122 60 + PB29")[1]
    "is 'PR122 60 + PB29'; name each pigment, as in PR122 + PB29, or with parts, PR122 60 + PB29 40"
    """
    found: list[tuple[str, Fraction]] = []
    given: set[bool] = set()
    for word in APART.split(text.strip()):
        part = PART.fullmatch(word)
        if part is None:
            given.update((True, False))
            continue
        given.add(part[2] is not None)
        found.append((part[1], Fraction(part[2] or 1)))
    if len(given) > 1:
        how = "name each pigment, as in PR122 + PB29, or with parts, PR122 60 + PB29 40"
        return (), f"is {shown(text)}; {how}"
    names = [name.casefold() for name, _ in found]
    if len(set(names)) < len(names):
        return (), f"is {shown(text)}; name each pigment once, its parts together"
    if not all(parts for _, parts in found):
        return (), f"is {shown(text)}; every part must be more than nothing"
    return tuple(found), None
