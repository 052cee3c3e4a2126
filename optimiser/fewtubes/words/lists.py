"""Lists in a sentence and bare ones."""

from collections.abc import Sequence

__all__ = ["in_a_row", "joined"]


def joined(words: list[str], last: str = "and") -> str:
    """Return the words as a list in a sentence, e.g. ``a, b and c``.

    Where a word holds a comma itself, semicolons part the words.
    """
    if len(words) < 2:
        return "".join(words)
    if any("," in word for word in words):
        return f"{'; '.join(words[:-1])}; {last} {words[-1]}"
    return f"{', '.join(words[:-1])} {last} {words[-1]}"


def in_a_row(words: Sequence[str]) -> str:
    """Return the words as a bare list, e.g. ``a, b, c``; parted by semicolons as in `joined`."""
    return ("; " if any("," in word for word in words) else ", ").join(words)
