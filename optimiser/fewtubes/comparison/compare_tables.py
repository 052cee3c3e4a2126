"""A comparison as tables: every step of every front, and the best palette of each size."""

from collections.abc import Iterator, Sequence
from decimal import Decimal

from fewtubes.catalogue.records import Lightfastness
from fewtubes.comparison.comparison import Comparison
from fewtubes.comparison.floors import Floor
from fewtubes.shopping.puddles import PuddleCount
from fewtubes.tables.cells import Cell
from fewtubes.tables.table import Column, Kind, Table
from fewtubes.words.decimals import file_share
from fewtubes.words.grades import grade_word
from fewtubes.words.money import amount

__all__ = ["by_number_of_tubes", "front", "near_best"]

FRONT = (
    Column("floor", Kind.TEXT, "what is asked of all tubes; empty for the scenario's own wishes"),
    Column("step", Kind.WHOLE, "number of the step under that floor, from 1"),
    Column("price", Kind.MONEY, "price of the palette, in the currency"),
    Column("currency", Kind.TEXT, "ISO 4217 code"),
    Column("coverage", Kind.SHARE, "share of all that is to be painted [0–1]"),
    Column("tubes", Kind.WHOLE, "tubes bought"),
    Column("tube_names", Kind.TEXT, "their names, parted by semicolons"),
    Column("tube_ids", Kind.TEXT, "their ids, parted by blanks", behind=True),
    Column("lightfastness", Kind.TEXT, "worst among the tubes bought, I to V; empty without any"),
    Column("transparency", Kind.TEXT, "worst among the tubes bought; empty without any"),
    Column("within_budget", Kind.YES_NO, "whether the scenario's budget buys it"),
    Column(
        "proven",
        Kind.YES_NO,
        "whether it is proven that none covers more for as little and none as much for less",
    ),
    Column(
        "nothing_between_this_and_the_next",
        Kind.YES_NO,
        "whether it is proven that nothing cheaper than the next step covers more; for the last"
        " one, that nothing does at any price",
    ),
)

PUDDLES = (
    Column("puddles", Kind.WHOLE, "fewest for each flower, summed; empty if not counted"),
    Column("puddles_in_one_sitting", Kind.WHOLE, "fewest for all together; empty if not counted"),
    Column("puddles_proven", Kind.YES_NO, "whether no fewer would do; empty if not counted"),
)
"""How few puddles a palette takes for all that it covers."""

BY_NUMBER_OF_TUBES = (
    Column("most_tubes", Kind.WHOLE, "tubes bought at most"),
    Column("price", Kind.MONEY, "price of the best palette of that size, in the currency"),
    Column("currency", Kind.TEXT, "ISO 4217 code"),
    Column("coverage", Kind.SHARE, "share of all that is to be painted [0–1]"),
    Column("coverage_at_most", Kind.SHARE, "no palette of that size covers more [0–1]"),
    Column("proven", Kind.YES_NO, "whether that palette is proven best"),
    Column("tubes", Kind.WHOLE, "tubes bought"),
    Column("tube_names", Kind.TEXT, "their names, parted by semicolons"),
    Column("tube_ids", Kind.TEXT, "their ids, parted by blanks", behind=True),
    Column("newly_reached", Kind.WHOLE, "colours the size before does not cover"),
    Column("no_longer_reached", Kind.WHOLE, "colours only the size before covers"),
    Column("lightfastness", Kind.TEXT, "worst among the tubes in use, I to V; empty without any"),
    Column("transparency", Kind.TEXT, "worst among the tubes in use; empty without any"),
    *PUDDLES,
    Column("equal_palettes", Kind.WHOLE, "palettes known that rank equal, this one included"),
    Column("equal_palettes_complete", Kind.YES_NO, "whether these are all"),
)

NEAR_BEST = (
    Column("palette", Kind.WHOLE, "number in the list, from 1"),
    Column("price", Kind.MONEY, "price of the palette, in the currency"),
    Column("currency", Kind.TEXT, "ISO 4217 code"),
    Column("coverage", Kind.SHARE, "share of all that is to be painted [0–1]"),
    Column("tubes", Kind.WHOLE, "tubes bought"),
    Column("tube_names", Kind.TEXT, "their names, parted by semicolons"),
    Column("tube_ids", Kind.TEXT, "their ids, parted by blanks", behind=True),
    *PUDDLES,
)


def front(comparison: Comparison) -> Table:
    """Return coverage against cost: a row for each step of each front, own wishes first."""
    return Table(FRONT, tuple(_steps(comparison)))


def by_number_of_tubes(comparison: Comparison) -> Table:
    """Return the best palette of each number of tubes: a row for each size, smallest first."""
    return Table(BY_NUMBER_OF_TUBES, tuple(_sizes(comparison)))


def near_best(comparison: Comparison) -> Table:
    """Return the palettes that come near the best: a row for each listed, best first."""
    return Table(NEAR_BEST, tuple(_near(comparison)))


def _steps(comparison: Comparison) -> Iterator[tuple[Cell, ...]]:
    scenario, question = comparison.question.scenario, comparison.question
    for kept in comparison.floors:
        for number, step in enumerate(kept.front.steps, start=1):
            tubes = [question.tubes[tube] for tube in step.palette.bought]
            yield (
                _floor(kept.floor),
                number,
                Decimal(amount(step.palette.cost)),
                scenario.currency,
                file_share(comparison.share(step.palette.value)),
                len(tubes),
                "; ".join(tube.name for tube in tubes),
                " ".join(tube.id for tube in tubes),
                grade_word(max((tube.lightfastness for tube in tubes), default=None)),
                grade_word(max((question.transparencies[tube.id] for tube in tubes), default=None)),
                step.palette.cost <= scenario.budget_hundredths,
                step.proven,
                step.sure_up_to_next,
            )


def _sizes(comparison: Comparison) -> Iterator[tuple[Cell, ...]]:
    for size in comparison.sizes:
        yield (
            size.best.size,
            Decimal(amount(size.palette.cost)),
            comparison.question.scenario.currency,
            file_share(comparison.share(size.palette.value)),
            file_share(comparison.share(size.best.bound)),
            size.best.proven,
            len(size.palette.bought),
            _names(comparison, size.palette.bought),
            _ids(comparison, size.palette.bought),
            len(size.gained),
            len(size.dropped),
            grade_word(size.lightfastness),
            grade_word(size.transparency),
            *_puddles(size.puddles),
            len(size.best.palettes),
            size.best.complete,
        )


def _near(comparison: Comparison) -> Iterator[tuple[Cell, ...]]:
    found = comparison.alternatives
    listed = found.near.palettes if found else ()
    counts = found.puddles if found and found.puddles else (None,) * len(listed)
    for number, (palette, count) in enumerate(zip(listed, counts, strict=True), start=1):
        yield (
            number,
            Decimal(amount(palette.cost)),
            comparison.question.scenario.currency,
            file_share(comparison.share(palette.value)),
            len(palette.bought),
            _names(comparison, palette.bought),
            _ids(comparison, palette.bought),
            *_puddles(count),
        )


def _puddles(count: PuddleCount | None) -> tuple[Cell, ...]:
    if count is None:
        return (None, None, None)
    return (count.each_flower, count.one_sitting, count.proven)


def _names(comparison: Comparison, numbers: Sequence[int]) -> str:
    return "; ".join(comparison.question.tubes[number].name for number in numbers)


def _ids(comparison: Comparison, numbers: Sequence[int]) -> str:
    return " ".join(comparison.question.tubes[number].id for number in numbers)


def _floor(floor: Floor | None) -> str | None:
    """Return a floor as a cell, e.g. ``lightfastness II``; None for the wishes alone."""
    return f"lightfastness {floor.name}" if isinstance(floor, Lightfastness) else grade_word(floor)
