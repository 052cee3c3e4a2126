"""Which flowers of a catalogue a painter asks to see."""

from fewtubes.catalogue.records import Catalogue, Flower, Role
from fewtubes.colour.plain_names import colour_name
from fewtubes.comparison.searching import Searched, searched

__all__ = ["flowers_with", "searched_flowers", "searched_words"]


GREEN_PARTS = frozenset({Role.LEAF, Role.LEAF_SHADE, Role.STEM})
"""Parts whose colour is not asked for when a flower's is, unless it has no others."""


def flowers_with(catalogue: Catalogue, text: str = "") -> tuple[Flower, ...]:
    """Return the flowers in whose name, swatches, roles or plain colours every word is found."""
    return searched_flowers(catalogue, text).things


def searched_flowers(catalogue: Catalogue, text: str) -> Searched[Flower]:
    """Return the same with what comes nearest where there is none; see `searching`."""
    return searched(text, tuple(catalogue.flowers.values()), searched_words)


def searched_words(flower: Flower) -> str:
    """Return all words that a flower is found by, in small letters."""
    swatches = [f"{swatch.name} {swatch.role}" for swatch in flower.swatches]
    petals = [swatch for swatch in flower.swatches if swatch.role not in GREEN_PARTS]
    colours = [colour_name(swatch.lab) for swatch in petals or flower.swatches]
    return "\n".join([flower.name, *swatches, *dict.fromkeys(colours)]).casefold()
