"""The tubes of a catalogue in the terminal."""

from collections.abc import Sequence

from rich.console import Console
from rich.text import Text

from fewtubes.catalogue.records import Hazard, Trait, Tube
from fewtubes.comparison.tube_listing import WASH_SHOWN, ListedTube, strongest
from fewtubes.report.terminal.chips import chips, shows_chips
from fewtubes.report.terminal.head import print_in_full
from fewtubes.report.terminal.layout import paragraph, plain, put
from fewtubes.scenario.home_box import BoxAtHome
from fewtubes.words.counting import counted
from fewtubes.words.hazards import care_words, hazard_words
from fewtubes.words.hiding import hiding
from fewtubes.words.left import left_words
from fewtubes.words.lightfastness import LIGHTFASTNESS_WORDS
from fewtubes.words.lists import in_a_row
from fewtubes.words.money import money
from fewtubes.words.printable import printable
from fewtubes.words.shares import percent
from fewtubes.words.tubes import FITTED, NOT_FOR_SALE, codes_words
from fewtubes.words.washes import strength_words

__all__ = ["print_tubes"]

FEW = 8
"""Tubes that are told with all their packs and traits; more take a line each."""

STAINING_WORDS = {
    Trait.NO: "lifts off",
    Trait.SLIGHT: "stains slightly",
    Trait.YES: "stains",
    None: "staining not known",
}
GRANULATING_WORDS = {
    Trait.NO: "even",
    Trait.SLIGHT: "granulates slightly",
    Trait.YES: "granulates",
    None: "granulating not known",
}


def print_tubes(
    listed: Sequence[ListedTube],
    console: Console,
    *,
    of: int,
    box: BoxAtHome | None = None,
    said: str = "",
    full: bool = False,
) -> None:
    """Print tubes with pigments, packs, and traits.

    Parameters
    ----------
    listed
        The tubes.
    console
        Where to print.
    of
        Number of tubes in the catalogue.
    box
        Says how full a tube at home is.
    said
        What else is to be said at the end.
    full
        Whether to tell all of them at length, however many they are.
    """
    if listed and shows_chips(console):
        put(console, plain(f"Blocks: full strength, {strength_words(WASH_SHOWN)}."))
    at_length = full or len(listed) <= FEW
    for item in listed:
        left = None if box is None else box.left(item.tube.id)
        if at_length:
            _print_tube(item, console, left)
        else:
            _print_line(item, console, left)
    if not at_length:
        print_in_full(console, "ids, every pack, what stains or granulates, all that is noted")
    put(console, plain(f"{len(listed)} of {counted(of, 'tube')}. {said}".rstrip()))


def _print_line(item: ListedTube, console: Console, left: float | None) -> None:
    """Print a tube on a line: what it holds, how long it lasts, its hazards and least price."""
    tube = item.tube
    line = chips(console, [item.full_lab, item.wash_lab])
    line.append_text(plain(f"{' ' if line else ''}{printable(tube.name)}", "bold"))
    cheapest = min(tube.offers, key=lambda offer: offer.price, default=None)
    care = _short_care(tube)
    told = [
        codes_words(tube),
        f"lasts {tube.lightfastness.name}",
        item.transparency.word,
        *([care] if care else []),
        NOT_FOR_SALE if cheapest is None else f"from {money(cheapest.price, cheapest.currency)}",
        *([] if left is None else [f"at home {left_words(left)}"]),
    ]
    put(console, line.append_text(plain(f": {'; '.join(told)}")))


def _short_care(tube: Tube) -> str:
    """Return the hazards of a tube; where they have no word of their own, all that is noted."""
    if not tube.hazards or Hazard.OTHER in tube.hazards:
        return care_words(tube)
    return f"holds {hazard_words(tube)}"


def _print_tube(item: ListedTube, console: Console, left: float | None) -> None:
    tube = item.tube
    blocks = chips(console, [item.full_lab, item.wash_lab])
    name = plain(printable(tube.name), "bold").append_text(plain(f"  {printable(tube.id)}"))
    blocks = chips(console, [item.full_lab, item.wash_lab])
    put(console, Text(" ").join([blocks, name]) if blocks else name)
    paragraph(console, "; ".join(_trade_offs(item)) + ".")
    if left is not None:
        paragraph(console, f"At home: {left_words(left)}.")
    packs = [f"{pack.ml:g} ml {money(pack.price, pack.currency)}" for pack in tube.offers]
    paragraph(console, "; ".join(packs) or NOT_FOR_SALE)


def _trade_offs(item: ListedTube) -> list[str]:
    """Return the traits of a tube in words."""
    tube = item.tube
    care = care_words(tube)
    return [
        _pigments(tube),
        *([FITTED] if tube.fitted else []),
        f"lightfastness {tube.lightfastness.name}, {LIGHTFASTNESS_WORDS[tube.lightfastness]}",
        f"{item.transparency.word} (hides {hiding(item.contrast_ratio)})",
        STAINING_WORDS[strongest(tuple(pigment.staining for pigment, _ in tube.pigments))],
        GRANULATING_WORDS[strongest(tuple(pigment.granulating for pigment, _ in tube.pigments))],
        f"take care: {care}" if care else "no hazard named",
    ]


def _pigments(tube: Tube) -> str:
    """Return the pigments with their shares, largest first, e.g. ``PV19 60 %, PW6 40 %``."""
    ranked = sorted(tube.pigments, key=lambda item: -item[1])
    if len(ranked) == 1:
        return codes_words(tube)
    return in_a_row(
        [f"{pigment.code or 'pigment not known'} {percent(share)}" for pigment, share in ranked]
    )
