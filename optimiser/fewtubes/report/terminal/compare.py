"""Palettes side by side in the terminal: by size, and those that come near the best."""

from collections import Counter
from collections.abc import Iterator, Sequence

from rich.console import Console

from fewtubes.catalogue.records import Tube
from fewtubes.comparison.comparison import Comparison, Size
from fewtubes.report.sentences.asked import counting_words
from fewtubes.report.sentences.comparison import comparison_words
from fewtubes.report.sentences.painters import class_limits_words
from fewtubes.report.terminal.alternatives import kind_of, names_of, print_alternatives
from fewtubes.report.terminal.care import print_care
from fewtubes.report.terminal.front import print_floors, print_front
from fewtubes.report.terminal.head import print_in_full, print_question
from fewtubes.report.terminal.layout import heading, paragraph, plain, put, table
from fewtubes.report.terminal.puddle_counts import puddle_cell, puddles_legend
from fewtubes.words.counting import counted
from fewtubes.words.lists import joined
from fewtubes.words.money import amount
from fewtubes.words.printable import printable
from fewtubes.words.proof.claims import AT_LEAST, NO_MORE_WITH_ONE_MORE, TABLE_MARK
from fewtubes.words.shares import asked_percent, percent

__all__ = ["end_words", "print_comparison", "size_words"]

MOST_FLOWERS = 5
"""Flowers named in a sentence; the file holds every colour."""


PAINTS_WORDS = (
    "Prices are of all that is bought{whom}; each paint counts once, however many tubes of it are"
    " bought."
)


def print_comparison(comparison: Comparison, console: Console, *, full: bool = False) -> None:
    """Print the comparison.

    Parameters
    ----------
    comparison
        What was found.
    console
        Where to print; its width and colours are respected.
    full
        Whether every colour gained, every near-best palette and every step of the front is told.
    """
    _print_question(comparison, console)
    _print_sizes(comparison, console, full=full)
    print_alternatives(comparison, console, full=full)
    print_front(comparison, console, full=full)
    print_floors(comparison, console)
    heading(console, "How sure that is")
    paragraph(console, comparison_words(comparison))
    counting = counting_words(comparison.question.counted_to)
    if counting:
        paragraph(console, counting)
    if not full:
        print_in_full(console, "what each tube gains, the picture of all steps, every palette")
    print_care(_named_tubes(comparison, full=full), console)


def _named_tubes(comparison: Comparison, *, full: bool) -> Iterator[Tube]:
    """Yield the tubes of every palette that is told."""
    palettes = [size.palette for size in comparison.sizes]
    if comparison.alternatives is not None:
        # All of them: what can be exchanged, and what takes fewest puddles, is told of all.
        palettes += comparison.alternatives.near.palettes
    if full:
        palettes += [step.palette for step in comparison.floors[0].front.steps]
    for palette in palettes:
        for number in palette.bought:
            yield comparison.question.tubes[number]


def _print_question(comparison: Comparison, console: Console) -> None:
    scenario = comparison.question.scenario
    print_question(comparison.question, console, what="Palettes side by side")
    if scenario.wishes.least_coverage:
        least = asked_percent(scenario.wishes.least_coverage)
        paragraph(
            console,
            f"The coverage asked for, at least {least}, is left"
            " out of account here, so that you see what less would cost.",
        )


def _print_sizes(comparison: Comparison, console: Console, *, full: bool) -> None:
    kind = kind_of(comparison)
    heading(console, f"One {kind} more, and what it gains")
    price = f"price {comparison.question.scenario.currency}"
    counts = any(size.puddles for size in comparison.sizes)
    puddles = ("puddles",) if counts else ()
    made = table(
        *(f"{kind}s", "covers", price, "lasts", "hides", *puddles, ""),
        right=(f"{kind}s", "covers", price, *puddles),
    )
    listed = _worth_listing(comparison)
    for size in listed:
        made.add_row(
            str(size.best.size),
            plain(percent(comparison.share(size.palette.value))),
            amount(size.palette.cost),
            "-" if size.lightfastness is None else size.lightfastness.name,
            "-" if size.transparency is None else size.transparency.word,
            *([puddle_cell(size.puddles)] if counts else []),
            TABLE_MARK.worded(proven=size.best.proven),
        )
    put(console, made)
    for place, size in enumerate(comparison.sizes):
        if size in listed:
            paragraph(console, size_words(comparison, place, full=full))
    paragraph(console, end_words(comparison))
    group = comparison.question.scenario.group
    if group is not None:
        paragraph(console, PAINTS_WORDS.format(whom=class_limits_words(group)))
    if counts:
        paragraph(console, puddles_legend(comparison))


def _worth_listing(comparison: Comparison) -> tuple[Size, ...]:
    """Return the sizes without the first if that buys and covers nothing."""
    first = comparison.sizes[0].palette
    if len(comparison.sizes) > 1 and not first.bought and not first.value:
        return comparison.sizes[1:]
    return comparison.sizes


def size_words(comparison: Comparison, place: int, *, full: bool = True) -> str:
    """Return the tubes of one size and, in full, what they newly reach and what they give up."""
    size = comparison.sizes[place]
    head = counted(size.best.size, kind_of(comparison))
    if not size.palette.bought:
        return f"{head}: {_without_buying(comparison)}."
    if place and size.palette == comparison.sizes[place - 1].palette:
        no_more = NO_MORE_WITH_ONE_MORE.worded(proven=size.best.proven)
        return f"{head}: {no_more}; see above."
    said = [f"{head}: {names_of(comparison, size.palette.bought)}."]
    if full and size.gained:
        said.append(f"Newly reached: {_colours(comparison, size.gained)}.")
    if full and size.dropped:
        said.append(f"No longer reached: {_colours(comparison, size.dropped)}.")
    if len(size.best.palettes) > 1:
        at_least = AT_LEAST.worded(proven=size.best.complete)
        others = counted(len(size.best.palettes) - 1, "other palette")
        said.append(
            f"It ranks equal with {at_least}{others} and was preferred for its smaller mean"
            " difference."
        )
    return " ".join(said)


def _without_buying(comparison: Comparison) -> str:
    """Return what gives the coverage that costs nothing."""
    question = comparison.question
    bare = ["bare paper"] if any(sets == ((),) for sets in question.instance.minimal_sets) else []
    own = ["your own tubes"] if question.owned else []
    if not bare and not own:
        return "nothing"
    return f"what {joined([*bare, *own])} {'give' if own else 'gives'}"


def end_words(comparison: Comparison) -> str:
    """Return why the list of sizes ends where it does."""
    last, looked = comparison.sizes[-1], comparison.by_size.looked_up_to
    kind = kind_of(comparison)
    many = counted(looked, kind)
    covered = percent(comparison.share(last.palette.value))
    if last.palette.value == comparison.total:
        return f"{covered}: everything is covered, so no further {kind} is needed."
    if comparison.all_gained:
        return (
            f"There it ends: within the budget no number of {kind}s that may be bought covers more"
            f" than {covered}."
        )
    if comparison.by_size.no_more_to_gain:
        return f"No palette of up to {many} covers more than {covered}."
    if looked == comparison.question.instance.most_tubes:
        return f"There it ends, because at most {many} may be bought."
    return f"Palettes of more than {many} were not looked at; they may cover more."


def _colours(comparison: Comparison, numbers: Sequence[int]) -> str:
    """Return colours as flowers with how many of each, e.g. ``3 colours of rose``."""
    flowers = Counter(comparison.question.samples[number].flower for number in numbers)
    named = [
        f"{counted(count, 'colour')} of {printable(flower)}"
        for flower, count in flowers.most_common(MOST_FLOWERS)
    ]
    rest = sum(flowers.values()) - sum(count for _, count in flowers.most_common(MOST_FLOWERS))
    if rest:
        named.append(f"{counted(rest, 'colour')} of other flowers")
    return joined(named)
