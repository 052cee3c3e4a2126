"""Whether a name can be read, and whether two names look the same.

Sources: Unicode Standard Annex 15 (normalisation forms) and 44 (general categories).
"""

import unicodedata

from fewtubes.quoting import is_invisible

__all__ = ["alike_key", "composed", "looks_blank"]


def composed(text: str) -> str:
    """Return the text in Normalization Form C, so that ``é`` is one letter however it was typed."""
    return unicodedata.normalize("NFC", text)


def looks_blank(text: str) -> bool:
    """Return whether nothing in the text can be seen: only spaces, marks, controls, fillers."""
    return all(unicodedata.category(sign)[0] in "ZCM" or is_invisible(sign) for sign in text)


def alike_key(name: str) -> str:
    """Return what names have in common that a reader would take for one another.

    Capitals, the width and the way of writing letters and accents, invisible signs and the number
    of spaces make no difference.
    """
    if name.isascii():  # nothing to compose or to drop; most names, and there are many
        return " ".join(name.lower().split())
    bare = "".join(sign for sign in unicodedata.normalize("NFKC", name) if not is_invisible(sign))
    return " ".join(unicodedata.normalize("NFKC", bare.casefold()).split())
