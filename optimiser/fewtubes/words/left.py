"""How full a tube is, in the words a painter uses and as a share."""

from collections.abc import Mapping
from types import MappingProxyType

from fewtubes.words.shares import percent

__all__ = ["LEFT", "NEARLY_EMPTY", "left_word", "left_words"]

NEARLY_EMPTY = 0.1
"""Share of a tube up to which it counts as nearly empty; our own choice, no source."""

LEFT: Mapping[str, float] = MappingProxyType(
    {"full": 1.0, "half": 0.5, "quarter": 0.25, "nearly empty": NEARLY_EMPTY, "empty": 0.0}
)
"""What is left [0–1], by the word for it in a file; a tube is judged by eye and by hand."""

FULLNESS = {1.0: "full", 0.5: "half full", 0.25: "a quarter full", NEARLY_EMPTY: "nearly empty"}


def left_words(left: float) -> str:
    """Return how full a tube is, e.g. ``half full`` or ``60 % full``; `left` is a share [0–1]."""
    if left == 0:
        return "empty"
    if left < NEARLY_EMPTY:
        return f"nearly empty, {percent(left)} left"
    return FULLNESS.get(left, f"{percent(left)} full")


def left_word(left: float) -> str | None:
    """Return the word that a file has for a share [0–1], None if it has none."""
    return next((word for word, share in LEFT.items() if share == left), None)
