"""The best mixes for one colour in the terminal."""

from rich.console import Console

from fewtubes.catalogue.records import LASTS
from fewtubes.comparison.mixes import Mixes, RatedMatch
from fewtubes.report.terminal.care import print_care
from fewtubes.report.terminal.chips import chips, shows_chips
from fewtubes.report.terminal.layout import grid, plain, put
from fewtubes.words.counting import counted
from fewtubes.words.lightfastness import LIGHTFASTNESS_WORDS
from fewtubes.words.lists import joined
from fewtubes.words.matches import difference, limit_words, match_words
from fewtubes.words.printable import printable
from fewtubes.words.recipes import recipe_words
from fewtubes.words.unsteady import steadiness_words, unsteady_figure

__all__ = ["print_mixes"]


def print_mixes(mixes: Mixes, console: Console) -> None:
    """Print the mixes, best first, each with its match in number and words."""
    L, a, b = mixes.lab
    put(console, plain(f"{printable(mixes.wanted)}  (L* {L:.1f}, a* {a:.1f}, b* {b:.1f})", "bold"))
    if shows_chips(console):
        put(console, plain("First block: the colour wanted. Second block: the mix."))
    blocks = shows_chips(console)
    made = grid(columns=3 if blocks else 2)
    for place, rated in enumerate(mixes.rated, start=1):
        shown = [chips(console, [mixes.lab, rated.match.lab])] if blocks else []
        made.add_row(*shown, plain(f"{place}."), plain(_words(rated, mixes)))
    put(console, made)
    put(console, plain(_verdict(mixes)))
    fading = _fading(mixes)
    if fading:
        put(console, plain(fading))
    held = dict.fromkeys(id_ for rated in mixes.rated for id_ in rated.match.recipe.tubes)
    print_care([mixes.tubes[id_] for id_ in held], console)


def _fading(mixes: Mixes) -> str:
    """Return which tubes of the mixes shown fade, and how to do without; "" if all of them last."""
    held = dict.fromkeys(id_ for rated in mixes.rated for id_ in rated.match.recipe.tubes)
    fading = [mixes.tubes[id_] for id_ in held if mixes.tubes[id_].lightfastness > LASTS]
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
    fades = any(mixes.tubes[id_].lightfastness > LASTS for id_ in match.recipe.tubes)
    return (
        f"{words}{'; fades in light' if fades else ''};"
        f" {steadiness_words(rated.if_unsteady, mixes.tolerance)} (unsteady"
        f" {unsteady_figure(rated.if_unsteady, mixes.tolerance)})"
    )


def _verdict(mixes: Mixes) -> str:
    """Return how many of the mixes count as covering, and what was searched."""
    within = sum(rated.match.difference <= mixes.tolerance for rated in mixes.rated)
    return (
        f"Of {counted(len(mixes.rated), 'recipe')} shown, {within}"
        f" {'is' if within == 1 else 'are'} within {limit_words(mixes.tolerance)}; mixed from"
        f" {counted(len(mixes.tubes), 'tube')}. A further tube"
        " in a mix must earn its place. Unsteady: the largest difference when each part and the"
        " wash are off by 20 %. Computed, not measured: try a mix before you rely on it."
    )
