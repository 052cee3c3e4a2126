"""The flowers of a catalogue, searched by words and printed in the terminal."""

from rich.console import Console

from fewtubes.catalogue.records import Flower
from fewtubes.comparison.searching import Searched
from fewtubes.report.sentences.searched import nearest_words, read_as_words
from fewtubes.report.terminal.chips import chips, shows_chips
from fewtubes.report.terminal.layout import plain, put, table
from fewtubes.words.counting import counted
from fewtubes.words.lists import in_a_row
from fewtubes.words.printable import printable

__all__ = ["print_flowers"]


def print_flowers(
    found: Searched[Flower], console: Console, *, of: int, names_alone: bool = False
) -> None:
    """Print flowers with their swatches.

    Parameters
    ----------
    found
        The flowers, or those that come nearest to what was asked.
    console
        Where to print.
    of
        Number of flowers in the catalogue.
    names_alone
        Whether only names are wanted, one a line and nothing else, for another program to read.
    """
    if names_alone:
        for flower in found.things:
            put(console, plain(printable(flower.name)))
        return
    for flower in found.things:
        _print_flower(flower, console)
    read_as = read_as_words(found)
    nearest = nearest_words(found, lambda flower: flower.name)
    said = f"{len(found.things)} of {counted(of, 'flower')}.{nearest} {read_as}"
    put(console, plain(said.rstrip()))


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
