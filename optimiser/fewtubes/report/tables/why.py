"""The reasons for a plan as tables: `why-tubes.csv`, `out-of-reach.csv`, `one-of-these.csv`."""

from collections.abc import Iterator, Mapping, Sequence
from decimal import Decimal

from fewtubes.comparison.reasons import Route, Why
from fewtubes.coverage.samples import Sample
from fewtubes.tables.cells import Cell, csv_text
from fewtubes.words.decimals import file_number, file_share
from fewtubes.words.money import amount

__all__ = ["ONE_OF_THESE_COLUMNS", "OUT_OF_REACH_COLUMNS", "WHY_TUBES_COLUMNS", "why_files"]

WHY_TUBES_COLUMNS = (
    "tube",
    "name",
    "price",
    "currency",
    "must_have",
    "colours_only_it_brings",
    "only_it_brings",
    "coverage_not_on_sale",
    "coverage_not_on_sale_at_most",
    "not_on_sale_proven",
    "stand_in",
    "stand_in_price",
    "stand_in_coverage",
)
"""Coverages and `only_it_brings` are shares of all that is to be painted [0–1]."""

OUT_OF_REACH_COLUMNS = (
    "flower",
    "colour",
    "importance",
    "match",
    "because_of",
    "tubes_to_add",
    "price",
    "currency",
    "allowed",
)
"""A row for each single tube that would bring a colour, and one for the cheapest set of several.

`importance` is a share of all that is to be painted [0–1]; `match` is that of the nearest mix
[ΔE00]; `tubes_to_add` is empty where nothing would do.
"""

ONE_OF_THESE_COLUMNS = ("choice", "tube", "name", "bought", "flower", "colour", "reached")
"""A row for each tube and colour; rows of one choice share its number."""


def why_files(why: Why) -> Mapping[str, str]:
    """Return the content of each file by its name, for `fewtubes.files.writing.write_all`."""
    return {
        "why-tubes.csv": csv_text(WHY_TUBES_COLUMNS, _tube_rows(why)),
        "out-of-reach.csv": csv_text(OUT_OF_REACH_COLUMNS, _colour_rows(why)),
        "one-of-these.csv": csv_text(ONE_OF_THESE_COLUMNS, _choice_rows(why)),
    }


def _tube_rows(why: Why) -> Iterator[tuple[Cell, ...]]:
    for reason in why.tubes:
        planned, stand_in = reason.planned, reason.stand_in
        yield (
            planned.tube.id,
            planned.tube.name,
            Decimal(amount(planned.cost)),
            why.plan.scenario.currency,
            _yes(reason.wished),
            _names(reason.only_it_brings),
            file_share(planned.only_it_brings),
            file_share(reason.without),
            file_share(reason.without_bound),
            _yes(reason.without_proven),
            stand_in.tube.id if stand_in else None,
            Decimal(amount(stand_in.cost)) if stand_in else None,
            file_share(stand_in.coverage) if stand_in else None,
        )


def _colour_rows(why: Why) -> Iterator[tuple[Cell, ...]]:
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
                " ".join(tube.id for tube in route.tubes) if route else None,
                Decimal(amount(route.cost)) if route else None,
                why.plan.scenario.currency if route else None,
                _yes(route.allowed) if route else None,
            )


def _choice_rows(why: Why) -> Iterator[tuple[Cell, ...]]:
    for number, choice in enumerate(why.one_of_these, start=1):
        bought = {tube.id for tube in choice.bought}
        for tube in choice.tubes:
            for planned in choice.samples:
                yield (
                    number,
                    tube.id,
                    tube.name,
                    _yes(tube.id in bought),
                    planned.sample.flower,
                    planned.sample.name,
                    _yes(planned.covered),
                )


def _names(samples: Sequence[Sample]) -> str:
    return "; ".join(f"{sample.flower} / {sample.name}" for sample in samples)


def _yes(true: bool) -> str:
    return "yes" if true else "no"
