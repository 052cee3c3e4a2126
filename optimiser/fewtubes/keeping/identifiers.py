"""Ids made from names: plain lower-case letters and digits, words joined by hyphens."""

import re
import unicodedata
from collections.abc import Collection

__all__ = ["identifier_for"]

LONGEST = 60
"""Characters made from a name; an id is typed, and a longer one is none."""

PLAIN_LETTERS = {"ß": "ss", "æ": "ae", "œ": "oe", "ø": "o", "ł": "l", "đ": "d", "þ": "th", "ı": "i"}
"""Letters that Unicode does not take apart into a plain one and a mark."""


def identifier_for(name: str, taken: Collection[str], otherwise: str = "tube") -> str:
    """Return an id made from a name that is none of those taken.

    Parameters
    ----------
    name
        Any text; accents are dropped.
    taken
        Ids that are in use.
    otherwise
        What is taken for a name without a plain letter or digit.

    Examples
    --------
    >>> identifier_for("Rosé foncé (n° 2)", taken=[])
    'rose-fonce-n-2'
    >>> identifier_for("Leaf green", taken=["leaf-green", "leaf-green-2"])
    'leaf-green-3'
    """
    plain = "".join(PLAIN_LETTERS.get(sign, sign) for sign in name.casefold())
    apart = unicodedata.normalize("NFKD", re.sub(r"['’`]", "", plain))
    bare = "".join(sign for sign in apart if not unicodedata.combining(sign))
    words = re.sub(r"[^a-z0-9]+", "-", bare.lower())
    made = words.strip("-")[:LONGEST].rstrip("-") or otherwise
    number, free = 1, made
    while free in taken:
        number += 1
        free = f"{made}-{number}"
    return free
