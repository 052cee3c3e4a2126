"""Which tubes no mix of all others replaces, in the terminal."""

import math
from collections.abc import Sequence

from rich.console import Console

from fewtubes.comparison.hues import Hue, hues_of
from fewtubes.comparison.tube_ranking import Family, MixedTube, families_of
from fewtubes.mixing.likeness import HARDLY_DIFFERENT, NEAR
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

__all__ = ["family_words", "hiding_words", "hue_words", "print_unmixable", "rule_words"]

NEXT_ONES = 5
"""Families shown below the line, unless all are asked for."""


def print_unmixable(
    mixed: Sequence[MixedTube], console: Console, *, count_twins: bool, show_all: bool = False
) -> None:
    """Print the tubes by family, those farthest from any mix of all others first.

    Parameters
    ----------
    mixed
        The tubes.
    count_twins
        Whether a tube was mixed from the others of its family as well.
    show_all
        Whether every family is listed, not only those that stand out and the next few.
    """
    names = {item.tube.id: printable(item.tube.name) for item in mixed}
    families = families_of(mixed)
    hiding = [one for one in families if one.hardly_shows]
    shown = [one for one in families if not one.hardly_shows]
    alone = [one for one in shown if one.single]
    near = [one for one in shown if not one.single and one.least > HARDLY_DIFFERENT]
    rest = [one for one in shown if one.least <= HARDLY_DIFFERENT]
    listed = rest if show_all else rest[:NEXT_ONES]
    put(console, plain("Which tubes no mix of all others replaces", "bold"))
    _print_hues(mixed, names, console)
    heading(console, "One of each must be bought: whatever else is mixed is clearly different")
    if not alone:
        paragraph(console, "None: mixes of all others come near every tube.")
    _print_families(alone, names, console)
    if near:
        heading(console, "Mixes of all others come near: told apart side by side, if at all")
        _print_families(near, names, console)
    if hiding:
        heading(console, "Bought for what they hide: on white paper they hardly show")
        _print_families(hiding, names, console)
    heading(console, "Can be mixed from the others, the hardest first")
    if not rest:
        paragraph(console, "None.")
    _print_families(listed, names, console)
    if len(listed) < len(rest):
        left = sum(len(one.members) for one in rest[len(listed) :])
        put(console, plain(f"  … and {counted(left, 'more tube')}; --all lists them."))
    heading(console, "How that was found")
    paragraph(console, rule_words(mixed, count_twins=count_twins))
    tubes = {item.tube.id: item.tube for item in mixed}
    told = [id_ for one in (*alone, *near, *hiding, *listed) for id_ in _named_by(one)]
    told += [item.tube.id for hue in hues_of(mixed) for item in hue.clean]
    print_care([tubes[id_] for id_ in told], console)


def _print_hues(mixed: Sequence[MixedTube], names: dict[str, str], console: Console) -> None:
    """Print which hues need a tube of their own, and which are mixed from others."""
    hues = hues_of(mixed)
    alone = [hue for hue in hues if hue.clean]
    heading(console, "Clean hues that mixes of all other hues do not reach")
    for hue in alone:
        named = [names[item.tube.id] for item in hue.clean]
        title = f"A clean {hue.word}: {'one of ' * (len(named) > 1)}{joined(named, 'or')}"
        paragraph(console, title, style="bold")
        paragraph(console, hue_words(hue), indent=4)
    others = [hue.word for hue in hues if not hue.clean]
    if others:
        paragraph(
            console,
            f"{'All else: ' if alone else ''}{joined(others)} can be mixed from tubes of other hues"
            f" up to {limit_words(NEAR)}.",
        )


def hue_words(hue: Hue) -> str:
    """Return how far all other hues stay from the clean tubes of one, in whole sentences."""
    clean, rest = hue.clean, len(hue.members) - len(hue.clean)
    if math.isinf(clean[-1].other_hues):
        return "There is no tube of another hue to mix from."
    least = difference(clean[-1].other_hues, NEAR)
    each = "Each of them has" if len(clean) > 1 else "It has"
    said = f"{each} a wash to which no mix of other hues comes nearer than {least}"
    if len(clean) > 1:
        farthest = difference(clean[0].other_hues, NEAR)
        said += f", that of {printable(clean[0].tube.name)} even {farthest}"
    duller = f" {counted(rest, 'other tube')} of that hue can be mixed." if rest else ""
    return f"{said}.{duller}"


def _named_by(family: Family) -> list[str]:
    """Return the ids of the tubes that are named with a family: its own, and what is mixed."""
    first = family.members[0]
    nearest = first.matches[first.farthest].recipe.tubes if first.matches else ()
    if family.hardly_shows:
        blacks = [m.over_black for m in family.members if m.over_black]
        nearest = blacks[0].recipe.tubes if blacks else ()
    return [*(member.tube.id for member in family.members), *nearest]


def family_words(family: Family, names: dict[str, str]) -> str:
    """Return how near all others come to a family, and where they fail most.

    Parameters
    ----------
    names
        Name of each tube by id.
    """
    first, last = family.members[0], family.members[-1]
    if not first.matches:
        return "There is no other tube to mix it from."
    match, several = first.matches[first.farthest], len(family.members) > 1
    wash = strength_words(STRENGTHS[first.farthest])
    at = f"At {'the ' if 'wash' in wash else ''}{wash}{f' of {names[first.tube.id]}' * several}"
    off = difference(first.largest, HARDLY_DIFFERENT, NEAR)
    farther = difference(last.largest, HARDLY_DIFFERENT, NEAR)
    others = f" All else stays as far from each other one at some wash, up to {farther}." * several
    return (
        f"{at} nothing else comes nearer than {off} ({match_words(first.largest)}): the nearest is"
        f" {recipe_words(match.recipe, names)}. On average over its washes"
        f" {match_figure(first.mean)}.{others}"
    )


def hiding_words(family: Family, names: dict[str, str]) -> str:
    """Return how little a family shows on paper, and how near all others come over black."""
    item = family.members[0]
    said = (
        f"At every wash within {difference(item.from_paper)} of the bare paper, so how near mixes"
        " come there says nothing."
    )
    match = item.over_black
    if match is None:
        return f"{said} There is no other tube to mix it from."
    return (
        f"{said} Over black, at full strength, nothing else comes nearer than"
        f" {difference(match.difference)} ({match_words(match.difference)}): the nearest is"
        f" {recipe_words(match.recipe, names)}."
    )


def rule_words(mixed: Sequence[MixedTube], *, count_twins: bool) -> str:
    """Return the rule behind the ranking, in whole sentences."""
    finite = sum(not math.isinf(item.largest) for item in mixed)
    families = (
        "Every tube was a family of its own, weaker editions of the same paint, too."
        if count_twins
        else (
            f"Tubes of which every two stay within {limit_words(NEAR)} of each other at every"
            " strength, once the stronger one is thinned, are one family and were not mixed from"
            " one another (complete linkage, the nearest first)."
        )
    )
    return (
        f"Each of {counted(finite, 'tube')} was compared, at {len(STRENGTHS)} wash strengths from"
        " full to very pale, with every recipe of up to three tubes of other families; each"
        f" strength may take another recipe, mixed and thinned in the usual steps. {families} One"
        " of a family must be bought if from each of its tubes the nearest mix is, at some"
        f" strength, off by more than {limit_words(NEAR)}; a family can be mixed if to one of its"
        f" tubes none is off by more than {limit_words(HARDLY_DIFFERENT)}."
        " Hues are plain words for a tube's most vivid wash; all tubes of one are left out at once."
        " Only colour on white paper is compared, over black where that hardly shows; not grain,"
        " staining or lightfastness, and paints are computed from profiles, not measured"
        f"{_fitted_words(mixed)}."
    )


def _fitted_words(mixed: Sequence[MixedTube]) -> str:
    """Return how many of the paints were fitted, as a part of a sentence, or ``""``."""
    fitted = sum(item.tube.fitted for item in mixed)
    return f", but for {counted(fitted, 'tube')} {FITTED}, which are estimates" if fitted else ""


def _print_families(families: Sequence[Family], names: dict[str, str], console: Console) -> None:
    for family in families:
        named = [_name(member, names) for member in family.members]
        title = named[0] if len(named) == 1 else f"One of: {joined(named, 'or')}"
        paragraph(console, title, style="bold")
        said = hiding_words if family.hardly_shows else family_words
        paragraph(console, said(family, names), indent=4)


def _name(item: MixedTube, names: dict[str, str]) -> str:
    sale = "" if item.tube.offers else f", {NOT_FOR_SALE}"
    return f"{names[item.tube.id]}  ({printable(item.tube.id)}){sale}"
