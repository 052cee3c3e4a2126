"""What can be said of one's own tubes as tables.

`box-doubles.csv`, `box-tubes.csv`, `box-additions.csv` and `about-to-buy.csv`.
"""

from collections.abc import Iterator, Mapping
from decimal import Decimal

from fewtubes.catalogue.records import Tube
from fewtubes.comparison.box_findings import Box
from fewtubes.comparison.likeness import HARDLY_DIFFERENT, TWINS
from fewtubes.tables.cells import Cell, csv_text
from fewtubes.words.decimals import file_number, file_share
from fewtubes.words.money import amount

__all__ = [
    "ABOUT_TO_BUY_COLUMNS",
    "ADDITIONS_COLUMNS",
    "BOX_COLUMNS",
    "DOUBLES_COLUMNS",
    "box_files",
]

DOUBLES_COLUMNS = (
    "tube",
    "like",
    "difference",
    "thinning",
    "stronger",
    "longer_lasting",
    "more_transparent",
)
"""Largest difference over the washes [ΔE00]; the stronger one thinned to this share [0–1].

An empty cell says that neither tube is the better one.
"""

BOX_COLUMNS = ("tube", "name", "in_use", "could_be_missing")

ADDITIONS_COLUMNS = ("tube", "name", "price", "currency", "adds", "within_budget")
"""`adds` is a share of all that is to be painted [0–1]; most for the money first."""

ABOUT_TO_BUY_COLUMNS = ("tube", "name", "in_the_box", "most_like", "difference")


THINNING_DECIMALS = 2
"""Thinnings are tried in steps of two per cent, and say no more than that."""


def box_files(box: Box) -> Mapping[str, str]:
    """Return the content of each file by its name, for `fewtubes.files.writing.write_all`."""
    return {
        "box-doubles.csv": csv_text(DOUBLES_COLUMNS, _double_rows(box)),
        "box-tubes.csv": csv_text(BOX_COLUMNS, _box_rows(box)),
        "box-additions.csv": csv_text(ADDITIONS_COLUMNS, _addition_rows(box)),
        "about-to-buy.csv": csv_text(ABOUT_TO_BUY_COLUMNS, _intended_rows(box)),
    }


def _double_rows(box: Box) -> Iterator[tuple[Cell, ...]]:
    for double in box.doubles:
        better = (double.stronger, double.longer_lasting, double.clearer)
        yield (
            double.first.id,
            double.second.id,
            file_number(double.likeness.difference, TWINS, HARDLY_DIFFERENT),
            round(double.likeness.thinning, THINNING_DECIMALS),
            *map(_id, better),
        )


def _box_rows(box: Box) -> Iterator[tuple[Cell, ...]]:
    aside = {tube.id for tube in box.set_aside}
    idle = {tube.id for tube in box.idle}
    for tube in box.owned:
        yield (
            tube.id,
            tube.name,
            "no" if tube.id in aside else "yes",
            "yes" if tube.id in idle | aside else "no",
        )


def _addition_rows(box: Box) -> Iterator[tuple[Cell, ...]]:
    for item in box.additions:
        yield (
            item.tube.id,
            item.tube.name,
            Decimal(amount(item.cost)),
            box.scenario.currency,
            file_share(item.gain),
            "yes" if item.affordable else "no",
        )


def _intended_rows(box: Box) -> Iterator[tuple[Cell, ...]]:
    for item in box.intended:
        yield (
            item.tube.id,
            item.tube.name,
            "yes" if item.is_double else "no",
            _id(item.nearest),
            None
            if item.likeness is None
            else file_number(item.likeness.difference, TWINS, HARDLY_DIFFERENT),
        )


def _id(tube: Tube | None) -> str | None:
    return None if tube is None else tube.id
