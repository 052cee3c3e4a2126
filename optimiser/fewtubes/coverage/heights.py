"""At which height of a flower a petal grows, as far as its name tells."""

import re

__all__ = ["told_height"]

UPPER_WORDS = frozenset({"upper", "uppermost", "top", "standard", "standards", "banner", "hood"})
LOWER_WORDS = frozenset({"lower", "lowest", "bottom", "fall", "falls"})
"""Words in a swatch's name, as gardeners use them: an iris has standards and falls, a pea a banner,
a monkshood a hood (common practice, no source)."""


def told_height(name: str) -> int:
    """Return 1 for a petal at the top, −1 for one at the foot, 0 where the name tells none or both.

    Parameters
    ----------
    name
        Of a swatch.
    """
    words = set(re.findall(r"\w+", name.casefold()))
    return bool(words & UPPER_WORDS) - bool(words & LOWER_WORDS)
