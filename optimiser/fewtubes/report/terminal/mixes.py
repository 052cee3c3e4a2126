"""The best mixes for one colour in the terminal."""

from collections.abc import Sequence

from rich.console import Console

from fewtubes.catalogue.records import LASTS, Tube
from fewtubes.comparison.mixes import Mixes, RatedMatch, fades
from fewtubes.mixing.recipes import MOST_IN_MIX
from fewtubes.report.sentences.mixes import lead_words
from fewtubes.report.terminal.care import print_care
from fewtubes.report.terminal.chips import chips, shows_chips
from fewtubes.report.terminal.layout import grid, plain, put
from fewtubes.words.counting import counted
from fewtubes.words.lightfastness import LIGHTFASTNESS_WORDS
from fewtubes.words.lists import joined
from fewtubes.words.matches import difference, limit_words, match_words
from fewtubes.words.printable import printable
from fewtubes.words.recipes import in_mix_words, recipe_words
from fewtubes.words.unsteady import steadiness_words, unsteady_figure

__all__ = ["print_mixes"]


FEW_NEAREST = 2
"""Mixes shown where none is within the tolerance."""


def print_mixes(mixes: Mixes, console: Console) -> None:
    """Print the mixes within tolerance, or the nearest few, best first, each with its match."""
    shown = _shown(mixes)
    L, a, b = mixes.lab
    put(console, plain(f"{printable(mixes.wanted)}  (L* {L:.1f}, a* {a:.1f}, b* {b:.1f})", "bold"))
    if shows_chips(console):
        put(console, plain("First block: the colour wanted. Second block: the mix."))
    blocks = shows_chips(console)
    made = grid(columns=3 if blocks else 2)
    for place, rated in enumerate(shown, start=1):
        colours = [chips(console, [mixes.lab, rated.match.lab])] if blocks else []
        made.add_row(*colours, plain(f"{place}."), plain(_words(rated, mixes)))
    put(console, made)
    put(console, plain(" ".join(filter(None, [lead_words(mixes), _verdict(mixes)]))))
    held = dict.fromkeys(id_ for rated in shown for id_ in rated.match.recipe.tubes)
    fading = _fading([mixes.tubes[id_] for id_ in held])
    if fading:
        put(console, plain(fading))
    print_care([mixes.tubes[id_] for id_ in held], console)


def _shown(mixes: Mixes) -> tuple[RatedMatch, ...]:
    """Return the mixes within tolerance; where there is none, the nearest few."""
    within = tuple(rated for rated in mixes.rated if rated.match.difference <= mixes.tolerance)
    return within or mixes.rated[:FEW_NEAREST]


def _fading(tubes: Sequence[Tube]) -> str:
    """Return which of the tubes shown fade, and how to do without; "" if all of them last."""
    fading = [tube for tube in tubes if tube.lightfastness > LASTS]
    if not fading:
        return ""
    names = [
        f"{printable(tube.name)} (lightfastness {tube.lightfastness.name},"
        f" {LIGHTFASTNESS_WORDS[tube.lightfastness]})"
        for tube in fading
    ]
    return (
        f"In light {joined(names)} {'fades' if len(names) == 1 else 'fade'}."
        f" With --lightfastness {LASTS.name} only tubes that last are mixed."
    )


def _words(rated: RatedMatch, mixes: Mixes) -> str:
    """Return one recipe with how near and how forgiving it is."""
    names = {id_: printable(tube.name) for id_, tube in mixes.tubes.items()}
    match = rated.match
    words = (
        f"{recipe_words(match.recipe, names)} — {difference(match.difference, mixes.tolerance)},"
        f" {match_words(match.difference)}"
    )
    if match.recipe.is_bare_paper:
        return words
    return (
        f"{words}{'; fades in light' if fades(match.recipe, mixes.tubes) else ''};"
        f" {steadiness_words(rated.if_unsteady, mixes.tolerance)} (unsteady"
        f" {unsteady_figure(rated.if_unsteady, mixes.tolerance)})"
    )


def _verdict(mixes: Mixes) -> str:
    """Return how many of the mixes count as covering, and what was searched."""
    within = sum(rated.match.difference <= mixes.tolerance for rated in mixes.rated)
    limit, of = limit_words(mixes.tolerance), counted(len(mixes.tubes), "tube")
    if mixes.most_in_mix < MOST_IN_MIX:
        of = f"{of}, {in_mix_words(mixes.most_in_mix)} in a mix"
    said = f"None is within {limit}: these are the nearest, mixed from {of}."
    if within:
        more = "; --most N shows more, if there are" if within == len(mixes.rated) else ""
        said = f"{counted(within, 'mix/mixes')} within {limit}, from {of}{more}."
    return (
        f"{said} A further tube in a mix must earn its place. Unsteady: the largest difference when"
        " each part and the wash are off by 20 %. Computed, not measured: try a mix before you"
        " rely on it."
    )
