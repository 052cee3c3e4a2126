"""The flowers of a catalogue, searched by words and printed in the terminal."""

from rich.console import Console

from fewtubes.catalogue.records import Flower
from fewtubes.comparison.searching import Searched
from fewtubes.report.sentences.searched import nearest_words, read_as_words
from fewtubes.report.terminal.chips import chips, shows_chips
from fewtubes.report.terminal.head import print_in_full
from fewtubes.report.terminal.layout import plain, put, table
from fewtubes.words.counting import counted
from fewtubes.words.lists import in_a_row
from fewtubes.words.printable import printable

__all__ = ["print_flowers"]

FEW = 8
"""Flowers that are told with all their swatches, colours and importances; more take a line each."""


def print_flowers(
    found: Searched[Flower],
    console: Console,
    *,
    of: int,
    names_alone: bool = False,
    full: bool = False,
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
    full
        Whether to tell all of them at length, however many they are.
    """
    if names_alone:
        for flower in found.things:
            put(console, plain(printable(flower.name)))
        return
    at_length = full or len(found.things) <= FEW
    for flower in found.things:
        if at_length:
            _print_flower(flower, console)
        else:
            _print_line(flower, console)
    if not at_length:
        print_in_full(console, "the colour and importance of each swatch")
    read_as = read_as_words(found)
    nearest = nearest_words(found, lambda flower: flower.name)
    said = f"{len(found.things)} of {counted(of, 'flower')}.{nearest} {read_as}"
    put(console, plain(said.rstrip()))


def _print_line(flower: Flower, console: Console) -> None:
    swatches = flower.swatches
    line = chips(console, [swatch.lab for swatch in swatches])
    line.append_text(plain(f"{' ' if line else ''}{printable(flower.name)}", "bold"))
    names = in_a_row([printable(swatch.name) for swatch in swatches])
    put(console, line.append_text(plain(f": {names}")))


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
