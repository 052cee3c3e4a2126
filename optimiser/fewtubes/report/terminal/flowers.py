"""The flowers of a catalogue, searched by words and printed in the terminal."""

from collections.abc import Sequence

from rich.console import Console

from fewtubes.catalogue.records import Catalogue, Flower, Role
from fewtubes.colour.plain_names import colour_name
from fewtubes.report.terminal.chips import chips, shows_chips
from fewtubes.report.terminal.layout import plain, put, table
from fewtubes.words.counting import counted
from fewtubes.words.lists import in_a_row
from fewtubes.words.printable import printable

__all__ = ["flowers_with", "print_flowers", "searched_words"]

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


def print_flowers(flowers: Sequence[Flower], console: Console, *, of: int) -> None:
    """Print flowers with their swatches.

    Parameters
    ----------
    flowers
        The flowers.
    console
        Where to print.
    of
        Number of flowers in the catalogue.
    """
    for flower in flowers:
        _print_flower(flower, console)
    put(console, plain(f"{len(flowers)} of {counted(of, 'flower')}."))


def _print_flower(flower: Flower, console: Console) -> None:
    put(console, plain(printable(flower.name), "bold"))
    blocks = ("",) if shows_chips(console) else ()
    made = table(*blocks, "swatch", "part", "L*, a*, b*", "importance", right=("importance",))
    for swatch in flower.swatches:
        cells = (
            plain(printable(swatch.name)),
            plain(swatch.role),
            plain(in_a_row([f"{value:g}" for value in swatch.lab])),
            plain(f"{float(swatch.importance):g}"),
        )
        made.add_row(*([chips(console, [swatch.lab])] if blocks else []), *cells)
    put(console, made)
    console.print()


def searched_words(flower: Flower) -> str:
    """Return all words that a flower is found by, in small letters."""
    swatches = [f"{swatch.name} {swatch.role}" for swatch in flower.swatches]
    petals = [swatch for swatch in flower.swatches if swatch.role not in GREEN_PARTS]
    colours = [colour_name(swatch.lab) for swatch in petals or flower.swatches]
    return "\n".join([flower.name, *swatches, *dict.fromkeys(colours)]).casefold()
