"""The reasons for a plan as tables."""

from collections.abc import Iterator, Sequence
from decimal import Decimal

from fewtubes.comparison.reasons import Route, Why
from fewtubes.coverage.samples import Sample
from fewtubes.tables.cells import Cell
from fewtubes.tables.table import Column, Kind, Table
from fewtubes.words.decimals import file_number, file_share
from fewtubes.words.money import amount

__all__ = ["choices", "out_of_reach", "tube_reasons"]

TUBE_REASONS = (
    Column("tube", Kind.TEXT, "id of a tube to buy", behind=True),
    Column("name", Kind.TEXT, "its name"),
    Column("price", Kind.MONEY, "price of its packs, in the currency"),
    Column("currency", Kind.TEXT, "ISO 4217 code"),
    Column("must_have", Kind.YES_NO, "whether the wishes name it as a must-have tube"),
    Column("colours_only_it_brings", Kind.TEXT, "flower / colour, parted by semicolons"),
    Column("only_it_brings", Kind.SHARE, "coverage lost without it, all others kept [0–1]"),
    Column("coverage_not_on_sale", Kind.SHARE, "best found if it were not on sale [0–1]"),
    Column("coverage_not_on_sale_at_most", Kind.SHARE, "no choice without it covers more [0–1]"),
    Column("not_on_sale_proven", Kind.YES_NO, "whether the best without it is proven"),
    Column("stand_in", Kind.TEXT, "name of the best single tube in its place; empty without any"),
    Column("stand_in_price", Kind.MONEY, "price of that one, in the currency; empty without any"),
    Column("stand_in_coverage", Kind.SHARE, "coverage with that one in its place [0–1]"),
)

OUT_OF_REACH = (
    Column("flower", Kind.TEXT, "flower or own colour"),
    Column("colour", Kind.TEXT, "name of a colour out of reach"),
    Column("importance", Kind.SHARE, "share of all that is to be painted [0–1]"),
    Column("match", Kind.FIGURE, "difference of the nearest mix [ΔE00]; empty without any"),
    Column("because_of", Kind.TEXT, "what keeps it out of reach"),
    Column("tubes_to_add", Kind.TEXT, "names of what would bring it; empty where nothing would do"),
    Column("price", Kind.MONEY, "price of those not owned, in the currency"),
    Column("currency", Kind.TEXT, "ISO 4217 code"),
    Column("allowed", Kind.YES_NO, "whether the wishes allow all of them"),
)
"""A row for each single tube that would bring a colour, and one for the cheapest set of several."""

CHOICES = (
    Column("choice", Kind.WHOLE, "rows of one choice share its number, from 1"),
    Column(
        "tube",
        Kind.TEXT,
        "id of a tube of which, or of its choice, one must be bought",
        behind=True,
    ),
    Column("name", Kind.TEXT, "its name"),
    Column("bought", Kind.YES_NO, "whether the plan buys it"),
    Column("flower", Kind.TEXT, "flower or own colour"),
    Column("colour", Kind.TEXT, "name of a colour out of reach without any tube of the choice"),
    Column("reached", Kind.YES_NO, "whether the plan covers that colour"),
)


def tube_reasons(why: Why) -> Table:
    """Return what hangs on each tube: a row for each that is bought."""
    return Table(TUBE_REASONS, tuple(_tubes(why)))


def out_of_reach(why: Why) -> Table:
    """Return what would bring each colour out of reach: a row for each way to it."""
    return Table(OUT_OF_REACH, tuple(_colours(why)))


def choices(why: Why) -> Table:
    """Return the tubes of which one must be bought: a row for each tube and colour."""
    return Table(CHOICES, tuple(_choices(why)))


def _tubes(why: Why) -> Iterator[tuple[Cell, ...]]:
    for reason in why.tubes:
        planned, stand_in = reason.planned, reason.stand_in
        yield (
            planned.tube.id,
            planned.tube.name,
            Decimal(amount(planned.cost)),
            why.plan.scenario.currency,
            reason.wished,
            _names(reason.only_it_brings),
            file_share(planned.only_it_brings),
            file_share(reason.without),
            file_share(reason.without_bound),
            reason.without_proven,
            stand_in.tube.name if stand_in else None,
            Decimal(amount(stand_in.cost)) if stand_in else None,
            file_share(stand_in.coverage) if stand_in else None,
        )


def _colours(why: Why) -> Iterator[tuple[Cell, ...]]:
    total = sum(planned.sample.weight for planned in why.plan.samples)
    for missed in why.unreached:
        planned = missed.planned
        routes: list[Route | None] = list(missed.singles)
        if missed.cheapest is not None and len(missed.cheapest.tubes) > 1:
            routes.append(missed.cheapest)
        for route in routes or [None]:
            yield (
                planned.sample.flower,
                planned.sample.name,
                planned.sample.weight / total,
                file_number(float(planned.match), why.plan.scenario.tolerance),
                str(planned.obstacle),
                "; ".join(tube.name for tube in route.tubes) if route else None,
                Decimal(amount(route.cost)) if route else None,
                why.plan.scenario.currency if route else None,
                route.allowed if route else None,
            )


def _choices(why: Why) -> Iterator[tuple[Cell, ...]]:
    for number, choice in enumerate(why.one_of_these, start=1):
        bought = {tube.id for tube in choice.bought}
        for tube in choice.tubes:
            for planned in choice.samples:
                yield (
                    number,
                    tube.id,
                    tube.name,
                    tube.id in bought,
                    planned.sample.flower,
                    planned.sample.name,
                    planned.covered,
                )


def _names(samples: Sequence[Sample]) -> str:
    return "; ".join(f"{sample.flower} / {sample.name}" for sample in samples)
