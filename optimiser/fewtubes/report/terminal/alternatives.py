"""Palettes that come near the best in the terminal: what they share, and what can be exchanged."""

from collections.abc import Iterable

from rich.console import Console

from fewtubes.comparison.comparison import Alternatives, Comparison
from fewtubes.report.sentences.painters import kind_bought
from fewtubes.report.terminal.layout import heading, paragraph, plain, put, table
from fewtubes.report.terminal.puddle_counts import puddle_cell, puddle_sentences
from fewtubes.selection.instance import Palette
from fewtubes.words.counting import counted
from fewtubes.words.lists import in_a_row, joined
from fewtubes.words.money import amount, money
from fewtubes.words.printable import printable
from fewtubes.words.proof.comparison import near_best_words
from fewtubes.words.shares import percent, percents_apart

__all__ = ["alternative_sentences", "kind_of", "names_of", "print_alternatives"]

MOST_PALETTES = 3
"""Near-best palettes listed unless all are asked for; the file holds them all."""


def kind_of(comparison: Comparison) -> str:
    """Return what is counted: tubes, or for a class paints, of which there may be many."""
    return kind_bought(comparison.question.scenario.group)


def print_alternatives(comparison: Comparison, console: Console, *, full: bool) -> None:
    """Print the palettes that come near the best, if they were looked for."""
    others = comparison.alternatives
    if others is None:
        return
    kind = kind_of(comparison)
    heading(console, f"Where taste can decide: up to {counted(others.near.size, kind)}")
    for sentence in alternative_sentences(comparison, others, full=full):
        paragraph(console, sentence)
    if len(others.near.palettes) < 2:
        return
    common = others.shared
    price = f"price {comparison.question.scenario.currency}"
    counts = dict(zip(others.near.palettes, others.puddles, strict=False))
    puddles = ("puddles",) if any(others.puddles) else ()
    made = table(
        *("covers", price, *puddles, f"{kind}s besides those in all"),
        right=("covers", price, *puddles),
    )
    shown = others.near.palettes[: None if full else MOST_PALETTES]
    for palette in shown:
        rest = [tube for tube in palette.bought if tube not in common]
        made.add_row(
            percent(comparison.share(palette.value)),
            amount(palette.cost),
            *([puddle_cell(counts[palette])] if puddles else []),
            plain(names_of(comparison, rest)),
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
        f"Each of them holds exactly one of: {names_of(comparison, sorted(group), 'or')}."
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
    kind = kind_of(comparison)
    if near.complete and count == 1:
        return (
            f"Only one palette of up to {counted(near.size, kind)} within the budget covers"
            f" {least} or more with no {kind} it could do without: the one above."
        )
    first = near.palettes[0].bought
    is_own = first == others.own.bought
    return near_best_words(
        count,
        least=least,
        kind=kind,
        only="the one above" if is_own else f"that of {names_of(comparison, first)}",
        complete=near.complete,
        proven=near.proven,
    )


def _shared_words(comparison: Comparison, others: Alternatives) -> str:
    count = len(others.near.palettes)
    if not others.shared:
        return f"No {kind_of(comparison)} is in all of them."
    words = (
        f"In every one of these {count} palettes: {names_of(comparison, sorted(others.shared))}."
    )
    asked = comparison.question.instance.must_have
    certain = sorted(others.near.indispensable - asked)
    if certain and not others.near.complete:
        words += (
            f" No palette of this size and budget comes as near without"
            f" {names_of(comparison, certain, 'or')}."
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


def names_of(comparison: Comparison, numbers: Iterable[int], last: str = "and") -> str:
    """Return names of tubes by number."""
    return (
        joined([_name(comparison, number) for number in numbers], last)
        or f"no {kind_of(comparison)}"
    )
