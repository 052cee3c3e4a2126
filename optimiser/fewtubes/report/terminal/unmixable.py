"""Which tubes no mix of the others replaces, in the terminal."""

import math
from collections.abc import Sequence

from rich.console import Console

from fewtubes.comparison.tube_ranking import MixedTube
from fewtubes.mixing.likeness import HARDLY_DIFFERENT, NEAR, TWINS
from fewtubes.mixing.recipes import STRENGTHS
from fewtubes.report.terminal.care import print_care
from fewtubes.report.terminal.layout import heading, paragraph, plain, put
from fewtubes.words.counting import counted
from fewtubes.words.lists import joined
from fewtubes.words.matches import difference, limit_words, match_figure, match_words
from fewtubes.words.printable import printable
from fewtubes.words.recipes import recipe_words
from fewtubes.words.tubes import FITTED, NOT_FOR_SALE
from fewtubes.words.washes import strength_words

__all__ = ["mixed_words", "print_unmixable", "rule_words"]

NEXT_ONES = 5
"""Tubes shown below the line, unless all are asked for."""


def print_unmixable(
    mixed: Sequence[MixedTube], console: Console, *, count_twins: bool, show_all: bool = False
) -> None:
    """Print the tubes, those farthest from any mix of the others first.

    Parameters
    ----------
    mixed
        The tubes in that order.
    count_twins
        Whether a tube was mixed from its twins as well.
    show_all
        Whether every tube is listed, not only those that stand out and the next few.
    """
    names = {item.tube.id: printable(item.tube.name) for item in mixed}
    alone = [item for item in mixed if item.largest > NEAR]
    near = [item for item in mixed if HARDLY_DIFFERENT < item.largest <= NEAR]
    rest = [item for item in mixed if item.largest <= HARDLY_DIFFERENT]
    shown = rest if show_all else rest[:NEXT_ONES]
    put(console, plain("Which tubes no mix of the others replaces", "bold"))
    heading(console, "To be bought as single tubes: every mix of the others is clearly different")
    if not alone:
        paragraph(console, "None: mixes of the others come near every tube.")
    _print_tubes(alone, names, console)
    if near:
        heading(console, "Mixes of the others come near: told apart side by side, if at all")
        _print_tubes(near, names, console)
    heading(console, "Can be mixed from the others, the hardest first")
    if not rest:
        paragraph(console, "None.")
    _print_tubes(shown, names, console)
    if len(shown) < len(rest):
        put(
            console,
            plain(f"  … and {counted(len(rest) - len(shown), 'more tube')}; --all lists them."),
        )
    heading(console, "How that was found")
    paragraph(console, rule_words(mixed, count_twins=count_twins))
    tubes = {item.tube.id: item.tube for item in mixed}
    print_care([tubes[id_] for item in [*alone, *near, *shown] for id_ in _named_by(item)], console)


def _named_by(item: MixedTube) -> list[str]:
    """Return the ids of the tubes that are named with one: itself, what it is mixed from, twins."""
    nearest = item.matches[item.farthest].recipe.tubes if item.matches else ()
    return [item.tube.id, *nearest, *(twin.id for twin in item.twins)]


def mixed_words(item: MixedTube, names: dict[str, str]) -> str:
    """Return how near the others come to a tube, and where they fail most.

    Parameters
    ----------
    names
        Name of each tube by id.
    """
    if not item.matches:
        return "there is no other tube to mix it from."
    match = item.matches[item.farthest]
    twins = joined([printable(tube.name) for tube in item.twins])
    without = f" Left out as the same paint: {twins}." if item.twins else ""
    off = difference(item.largest, HARDLY_DIFFERENT, NEAR)
    return (
        f"off by up to {off} ({match_words(item.largest)}), on average {match_figure(item.mean)};"
        f" most at its {strength_words(STRENGTHS[item.farthest])}, where the"
        f" nearest is {recipe_words(match.recipe, names)}.{without}"
    )


def rule_words(mixed: Sequence[MixedTube], *, count_twins: bool) -> str:
    """Return the rule behind the ranking, in whole sentences."""
    finite = sum(not math.isinf(item.largest) for item in mixed)
    twins = (
        "Weaker editions of the same paint counted as other tubes."
        if count_twins
        else (
            f"Tubes that stay within {limit_words(TWINS)} of it at every strength, once the"
            " stronger one is thinned, are the same paint to the eye and were left out."
        )
    )
    return (
        f"Each of {counted(finite, 'tube')} was compared, at {len(STRENGTHS)} wash strengths from"
        " full to very pale, with every recipe of up to three other tubes; each strength may take"
        f" another recipe, mixed and thinned in the usual steps. {twins} A tube is listed as single"
        f" if at some strength the nearest mix is off by more than {limit_words(NEAR)}, and as"
        f" mixed if none is off by more than {limit_words(HARDLY_DIFFERENT)}."
        " Only colour on white paper is compared, not hiding (what a white is bought for), grain,"
        " staining or lightfastness, and paints are computed from profiles, not measured"
        f"{_fitted_words(mixed)}."
    )


def _fitted_words(mixed: Sequence[MixedTube]) -> str:
    """Return how many of the paints were fitted, as a part of a sentence, or ``""``."""
    fitted = sum(item.tube.fitted for item in mixed)
    return f", but for {counted(fitted, 'tube')} {FITTED}, which are estimates" if fitted else ""


def _print_tubes(items: Sequence[MixedTube], names: dict[str, str], console: Console) -> None:
    for item in items:
        sale = "" if item.tube.offers else f", {NOT_FOR_SALE}"
        name = f"{names[item.tube.id]}  ({printable(item.tube.id)}){sale}"
        paragraph(console, name, style="bold")
        paragraph(console, mixed_words(item, names), indent=4)
