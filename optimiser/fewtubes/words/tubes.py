"""What stands on a tube, in words."""

from collections.abc import Iterable

from fewtubes.catalogue.records import Tube
from fewtubes.words.lists import in_a_row

__all__ = ["FITTED", "NOT_FOR_SALE", "codes_words", "packs_words"]

FITTED = "fitted from swatches"
"""Of a tube whose colours follow from swatches of it, not from an invented profile."""

NOT_FOR_SALE = "not for sale"
"""Of a tube without a pack in the catalogue; it is of use only when owned."""


def codes_words(tube: Tube) -> str:
    """Return the Colour Index names of the pigments of a tube, each once, e.g. ``PR122, PB29``."""
    return in_a_row(list(dict.fromkeys(tube.codes))) or "pigments not known"


def packs_words(packs: Iterable[tuple[int, float]]) -> str:
    """Return how many packs of how much [ml], e.g. ``2 × 5 ml, 1 × 10 ml``."""
    return in_a_row([f"{count} × {ml:g} ml" for count, ml in packs])
