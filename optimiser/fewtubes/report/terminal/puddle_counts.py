"""How few puddles compared palettes take, in the terminal."""

from collections.abc import Iterator

from fewtubes.comparison.comparison import Alternatives, Comparison
from fewtubes.report.sentences.painters import kind_bought
from fewtubes.selection.instance import Palette
from fewtubes.shopping.puddles import PuddleCount
from fewtubes.words.counting import counted
from fewtubes.words.lists import joined
from fewtubes.words.printable import printable
from fewtubes.words.proof.puddles import count_cell, count_legend, least_puddles_words
from fewtubes.words.shares import percent

__all__ = ["puddle_cell", "puddle_sentences", "puddles_legend"]

MOST_NAMED = 3
"""Palettes that take equally few puddles and are named; of others their number is told."""


def puddle_cell(count: PuddleCount | None) -> str:
    """Return how few puddles a palette takes, for a cell of a table."""
    if count is None:
        return "-"
    return count_cell(count.each_flower, count.one_sitting, proven=count.proven)


def puddles_legend(comparison: Comparison) -> str:
    """Return what such cells mean."""
    others = comparison.alternatives
    counts = [size.puddles for size in comparison.sizes] + list(others.puddles if others else ())
    return count_legend(
        all_proven=all(count is None or count.proven for count in counts),
        fitted=comparison.question.fitted_paints,
    )


def puddle_sentences(comparison: Comparison, others: Alternatives) -> Iterator[str]:
    """Yield which of the palettes that cover as much as the first takes the fewest puddles."""
    fewest = others.fewest_puddles
    if not fewest:
        return
    counts = dict(zip(others.near.palettes, others.puddles, strict=False))
    first, count = others.near.palettes[0], counts[fewest[0]]
    assert count is not None  # noqa: S101  # only counted ones are among the fewest
    yield least_puddles_words(
        _named(comparison, others, fewest),
        count.each_flower,
        count.one_sitting,
        covered=percent(comparison.share(first.value)),
        first=None if first in fewest else puddle_cell(counts[first]),
    )


def _named(comparison: Comparison, others: Alternatives, palettes: tuple[Palette, ...]) -> str:
    """Return palettes by the tubes that not all of those listed hold."""
    named = [
        joined(
            [
                printable(comparison.question.tubes[number].name)
                for number in palette.bought
                if number not in others.shared
            ]
        )
        for palette in palettes[:MOST_NAMED]
    ]
    more = len(palettes) - MOST_NAMED
    if more > 0:
        named.append(counted(more, "other palette"))
    kind = kind_bought(comparison.question.scenario.group)
    beside = f" besides the {kind}s in all" if others.shared else ""
    return "; or ".join(named) + beside
