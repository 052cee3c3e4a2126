"""The flowers of a catalogue, searched by words and printed in the terminal."""

from collections.abc import Sequence

from rich.console import Console

from fewtubes.catalogue.records import Flower
from fewtubes.report.terminal.chips import chips, shows_chips
from fewtubes.report.terminal.layout import plain, put, table
from fewtubes.words.counting import counted
from fewtubes.words.lists import in_a_row
from fewtubes.words.printable import printable

__all__ = ["print_flowers"]


def print_flowers(
    flowers: Sequence[Flower], console: Console, *, of: int, names_alone: bool = False
) -> None:
    """Print flowers with their swatches.

    Parameters
    ----------
    flowers
        The flowers.
    console
        Where to print.
    of
        Number of flowers in the catalogue.
    names_alone
        Whether only names are wanted, one a line and nothing else, for another program to read.
    """
    if names_alone:
        for flower in flowers:
            put(console, plain(printable(flower.name)))
        return
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
