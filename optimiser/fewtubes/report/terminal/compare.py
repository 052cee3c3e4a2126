"""Palettes side by side in the terminal: by size, and those that come near the best."""

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence

from rich.console import Console

from fewtubes.catalogue.records import Tube
from fewtubes.comparison.comparison import Alternatives, Comparison, Size
from fewtubes.report.sentences.asked import counting_words
from fewtubes.report.sentences.comparison import comparison_words
from fewtubes.report.terminal.care import print_care
from fewtubes.report.terminal.front import print_floors, print_front
from fewtubes.report.terminal.head import print_in_full, print_question
from fewtubes.report.terminal.layout import heading, paragraph, plain, put, table
from fewtubes.report.terminal.puddle_counts import puddle_cell, puddle_sentences, puddles_legend
from fewtubes.selection.instance import Palette
from fewtubes.words.counting import counted
from fewtubes.words.lists import in_a_row, joined
from fewtubes.words.money import amount, money
from fewtubes.words.printable import printable
from fewtubes.words.proof.claims import AT_LEAST, TABLE_MARK
from fewtubes.words.proof.comparison import near_best_words
from fewtubes.words.shares import asked_percent, percent, percents_apart

__all__ = ["alternative_sentences", "end_words", "print_comparison", "size_words"]

MOST_FLOWERS = 5
"""Flowers named in a sentence; the file holds every colour."""

MOST_PALETTES = 3
"""Near-best palettes listed unless all are asked for; the file holds them all."""


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
    _print_alternatives(comparison, console, full=full)
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
    heading(console, "One tube more, and what it gains")
    price = f"price {comparison.question.scenario.currency}"
    counts = any(size.puddles for size in comparison.sizes)
    puddles = ("puddles",) if counts else ()
    made = table(
        *("tubes", "covers", price, "lasts", "hides", *puddles, ""),
        right=("tubes", "covers", price, *puddles),
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
    head = counted(size.best.size, "tube")
    if not size.palette.bought:
        return f"{head}: {_without_buying(comparison)}."
    if place and size.palette == comparison.sizes[place - 1].palette:
        return f"{head}: one more gains nothing; see above."
    said = [f"{head}: {_names(comparison, size.palette.bought)}."]
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
    covered = percent(comparison.share(last.palette.value))
    if last.palette.value == comparison.total:
        return f"{covered}: everything is covered, so no further tube is needed."
    if comparison.all_gained:
        return (
            f"There it ends: within the budget no number of tubes that may be bought covers more"
            f" than {covered}."
        )
    if comparison.by_size.no_more_to_gain:
        return f"No palette of up to {counted(looked, 'tube')} covers more than {covered}."
    if looked == comparison.question.instance.most_tubes:
        return f"There it ends, because at most {counted(looked, 'tube')} may be bought."
    return (
        f"Palettes of more than {counted(looked, 'tube')} were not looked at; they may cover more."
    )


def _print_alternatives(comparison: Comparison, console: Console, *, full: bool) -> None:
    others = comparison.alternatives
    if others is None:
        return
    heading(console, f"Where taste can decide: up to {counted(others.near.size, 'tube')}")
    for sentence in alternative_sentences(comparison, others, full=full):
        paragraph(console, sentence)
    if len(others.near.palettes) < 2:
        return
    common = others.shared
    price = f"price {comparison.question.scenario.currency}"
    counts = dict(zip(others.near.palettes, others.puddles, strict=False))
    puddles = ("puddles",) if any(others.puddles) else ()
    made = table(
        *("covers", price, *puddles, "tubes besides those in all"),
        right=("covers", price, *puddles),
    )
    shown = others.near.palettes[: None if full else MOST_PALETTES]
    for palette in shown:
        rest = [tube for tube in palette.bought if tube not in common]
        made.add_row(
            percent(comparison.share(palette.value)),
            amount(palette.cost),
            *([puddle_cell(counts[palette])] if puddles else []),
            plain(_names(comparison, rest)),
        )
    put(console, made)
    if len(shown) < len(others.near.palettes):
        paragraph(
            console, f"… and {len(others.near.palettes) - len(shown)} more, listed by --full."
        )


def alternative_sentences(
    comparison: Comparison, others: Alternatives, *, full: bool = True
) -> tuple[str, ...]:
    """Return how many come near, what they share, in full hold one of, and what is exchanged."""
    said = [_how_many(comparison, others)]
    if len(others.near.palettes) < 2:
        return tuple(said)
    said.append(_shared_words(comparison, others))
    said += [
        f"Each of them holds exactly one of: {_names(comparison, sorted(group), 'or')}."
        for group in (others.groups if full else ())
    ]
    for given_up in others.own.bought:
        taken = [swap for swap in others.swaps if swap.given_up == given_up]
        if taken:
            listed = joined(
                [
                    f"{_name(comparison, it.taken)} ({_against(comparison, others, it.palette)})"
                    for it in taken
                ],
                "or",
            )
            said.append(f"In place of {_name(comparison, given_up)}, all else the same: {listed}.")
    said += puddle_sentences(comparison, others)
    return tuple(said)


def _how_many(comparison: Comparison, others: Alternatives) -> str:
    near = others.near
    least = percent(comparison.share(near.least_value))
    count = len(near.palettes)
    what = f"within the budget that cover {least} or more with no tube they could do without"
    if near.complete and count == 1:
        return (
            f"Only one palette of up to {counted(near.size, 'tube')} within the budget covers"
            f" {least} or more with no tube it could do without: the one above."
        )
    return near_best_words(count, what=what, complete=near.complete, proven=near.proven)


def _shared_words(comparison: Comparison, others: Alternatives) -> str:
    count = len(others.near.palettes)
    if not others.shared:
        return "No tube is in all of them."
    words = f"In every one of these {count} palettes: {_names(comparison, sorted(others.shared))}."
    asked = comparison.question.instance.must_have
    certain = sorted(others.near.indispensable - asked)
    if certain and not others.near.complete:
        words += (
            f" No palette of this size and budget comes as near without"
            f" {_names(comparison, certain, 'or')}."
        )
    return words


def _against(comparison: Comparison, others: Alternatives, palette: Palette) -> str:
    """Return coverage and price of a palette where they differ from those of the size's own."""
    currency = comparison.question.scenario.currency
    said = []
    if palette.value != others.own.value:
        covers, _own = percents_apart(
            comparison.share(palette.value), comparison.share(others.own.value)
        )
        said.append(f"covers {covers}")
    more = palette.cost - others.own.cost
    if more:
        said.append(f"{money(abs(more), currency)} {'more' if more > 0 else 'less'}")
    return in_a_row(said) or "no difference in coverage and price"


def _name(comparison: Comparison, number: int) -> str:
    return printable(comparison.question.tubes[number].name)


def _names(comparison: Comparison, numbers: Iterable[int], last: str = "and") -> str:
    return joined([_name(comparison, number) for number in numbers], last) or "no tube"


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
