"""Which flowers of a catalogue a painter asks to see."""

from fewtubes.catalogue.records import Catalogue, Flower, Role
from fewtubes.colour.plain_names import colour_name

__all__ = ["flowers_with", "searched_words"]


GREEN_PARTS = frozenset({Role.LEAF, Role.LEAF_SHADE, Role.STEM})
"""Parts whose colour is not asked for when a flower's is, unless it has no others."""


def flowers_with(catalogue: Catalogue, text: str = "") -> tuple[Flower, ...]:
    """Return the flowers in whose name, swatches, roles or plain colours every word stands."""
    words = text.casefold().split()
    return tuple(
        flower
        for flower in catalogue.flowers.values()
        if all(word in searched_words(flower) for word in words)
    )


def searched_words(flower: Flower) -> str:
    """Return all words that a flower is found by, in small letters."""
    swatches = [f"{swatch.name} {swatch.role}" for swatch in flower.swatches]
    petals = [swatch for swatch in flower.swatches if swatch.role not in GREEN_PARTS]
    colours = [colour_name(swatch.lab) for swatch in petals or flower.swatches]
    return "\n".join([flower.name, *swatches, *dict.fromkeys(colours)]).casefold()
