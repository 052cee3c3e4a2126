"""Text from files and command lines, made safe to print.

Names come from tables that anyone may have written. A terminal would obey control characters in
them, a JSON file cannot hold half a surrogate pair, and no layout survives a name without end.
"""

from fewtubes.catalogue.sizes import LONGEST_NAME

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
    return "".join(sign if sign.isprintable() else _escaped(sign) for sign in kept)


def _escaped(sign: str) -> str:
    """Return a blank for a line break or tab, else the sign's number in hexadecimal."""
    return " " if sign.isspace() else f"\\x{ord(sign):02x}"
