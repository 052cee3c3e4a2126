"""Text from files and command lines, made safe to print.

Names come from tables that anyone may have written. A terminal would obey control characters in
them, a JSON file cannot hold half a surrogate pair, and no layout survives a name without end.
"""

from fewtubes.catalogue.sizes import LONGEST_NAME
from fewtubes.quoting import escaped

__all__ = ["printable"]


def printable(text: str, longest: int = LONGEST_NAME) -> str:
    """Return the text on one line, unprintable signs escaped, cut with an ellipsis if too long.

    Parameters
    ----------
    text
        Any text.
    longest
        Characters kept.
    """
    kept = text if len(text) <= longest else f"{text[: longest - 1]}…"
    if kept.isprintable():
        return kept
    return escaped("".join(" " if _breaks(sign) else sign for sign in kept))


def _breaks(sign: str) -> bool:
    """Return whether a sign is a blank that does not print on one line, as a tab is."""
    return sign.isspace() and not sign.isprintable()
