"""Text from outside as it is printed: unprintable signs escaped, in messages quotation marks."""

__all__ = ["escaped", "is_invisible", "quoted"]

IGNORABLE = (
    (0x00AD, 0x00AD),
    (0x034F, 0x034F),
    (0x061C, 0x061C),
    (0x115F, 0x1160),
    (0x17B4, 0x17B5),
    (0x180B, 0x180F),
    (0x200B, 0x200F),
    (0x202A, 0x202E),
    (0x2060, 0x206F),
    (0x3164, 0x3164),
    (0xFE00, 0xFE0F),
    (0xFEFF, 0xFEFF),
    (0xFFA0, 0xFFA0),
    (0xFFF0, 0xFFF8),
    (0x1BCA0, 0x1BCA3),
    (0x1D173, 0x1D17A),
    (0xE0000, 0xE0FFF),
)
"""Default_Ignorable_Code_Point of the Unicode Character Database 17.0, first and last of each run.

From memory; older lists that were at hand agree. Some of them count as letters, the Hangul fillers
for example, so that Python holds them to be printable.
"""

BLANK = (0x2800, 0x13441, 0x13442, 0x16FE4, 0x1D159)
"""Not ignorable, but drawn as nothing: Braille without dots, blanks of three scripts, no head."""

INVISIBLE = frozenset(
    chr(number) for first, last in IGNORABLE for number in range(first, last + 1)
) | frozenset(map(chr, BLANK))


def is_invisible(sign: str) -> bool:
    """Return whether a sign shows nothing although it is no space."""
    return sign in INVISIBLE


def quoted(text: str) -> str:
    """Return a text in quotation marks that do not occur in it, hidden signs escaped.

    Single marks, double ones around an apostrophe; where both occur, single ones within are
    escaped.
    """
    safe = escaped(text, invisible=True)
    if "'" not in safe:
        return f"'{safe}'"
    if '"' not in safe:
        return f'"{safe}"'
    return "'" + safe.replace("'", r"\'") + "'"


def escaped(text: str, *, invisible: bool = False) -> str:
    r"""Return a text with its unprintable signs as numbers, e.g. ``\x1b``.

    A terminal would obey some of them, and half a surrogate pair cannot be encoded.

    Parameters
    ----------
    text
        Any text.
    invisible
        Whether signs that print as nothing are escaped too (see `is_invisible`).
    """
    if text.isprintable() and (text.isascii() or not invisible):
        return text
    return "".join(
        sign
        if sign.isprintable() and not (invisible and sign in INVISIBLE)
        else f"\\x{ord(sign):02x}"
        for sign in text
    )
