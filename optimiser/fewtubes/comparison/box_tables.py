"""What can be said of one's own tubes as tables."""

from collections.abc import Iterator
from decimal import Decimal

from fewtubes.catalogue.records import Tube
from fewtubes.comparison.box_findings import Box
from fewtubes.comparison.box_gains import Gain
from fewtubes.mixing.likeness import HARDLY_DIFFERENT, TWINS
from fewtubes.tables.cells import Cell
from fewtubes.tables.table import Column, Kind, Table
from fewtubes.words.decimals import file_number, file_share
from fewtubes.words.money import amount

__all__ = ["about_to_buy", "pairs_alike", "purchases", "tubes"]

PAIRS_ALIKE = (
    Column("tube", Kind.TEXT, "id of an owned tube", behind=True),
    Column("name", Kind.TEXT, "its name"),
    Column("like", Kind.TEXT, "name of another that looks like it"),
    Column("like_tube", Kind.TEXT, "its id", behind=True),
    Column("difference", Kind.FIGURE, "largest difference over the washes [ΔE00]"),
    Column("thinning", Kind.FIGURE, "share the stronger one is thinned to for that [0–1]"),
    Column("stronger", Kind.TEXT, "name of the stronger one; empty if neither is"),
    Column("longer_lasting", Kind.TEXT, "name of the more lightfast one; empty if neither is"),
    Column("more_transparent", Kind.TEXT, "name of the more transparent one; empty if neither is"),
)

TUBES = (
    Column("tube", Kind.TEXT, "id of an owned tube", behind=True),
    Column("name", Kind.TEXT, "its name"),
    Column("in_use", Kind.YES_NO, "whether the wishes let it be used"),
    Column(
        "could_be_missing",
        Kind.YES_NO,
        "whether nothing is lost without it as long as all others stay, water included",
    ),
)

PURCHASES = (
    Column(
        "tube", Kind.TEXT, "id of a tube that adds something; most for the money first", behind=True
    ),
    Column("name", Kind.TEXT, "its name"),
    Column("price", Kind.MONEY, "price of its packs, in the currency"),
    Column("currency", Kind.TEXT, "ISO 4217 code"),
    Column("adds", Kind.SHARE, "share of all that is to be painted that it adds [0–1]"),
    Column("within_budget", Kind.YES_NO, "whether the budget buys it"),
)

ABOUT_TO_BUY = (
    Column("tube", Kind.TEXT, "id of a tube about to be bought", behind=True),
    Column("name", Kind.TEXT, "its name"),
    Column("in_the_box", Kind.YES_NO, "whether it, or one hardly different, is owned"),
    Column("most_like", Kind.TEXT, "name of the most alike of those in use; empty without any"),
    Column("difference", Kind.FIGURE, "largest difference from that one over the washes [ΔE00]"),
    Column(
        "box_covers",
        Kind.SHARE,
        "coverage of the box alone [0–1]; empty if it is in the box, or would be kept out of use",
    ),
    Column("covers_with_it", Kind.SHARE, "coverage of the box with this tube [0–1]; likewise"),
    Column("newly_reached", Kind.TEXT, "colours reached for it, counted by flower; likewise"),
)

THINNING_DECIMALS = 2
"""Thinnings are tried in steps of two per cent, and say no more than that."""


def pairs_alike(box: Box) -> Table:
    """Return the pairs of owned tubes that look alike, most alike first."""
    return Table(PAIRS_ALIKE, tuple(_pairs(box)))


def tubes(box: Box) -> Table:
    """Return the owned tubes, in the order they were named."""
    return Table(TUBES, tuple(_tubes(box)))


def purchases(box: Box) -> Table:
    """Return the single purchases that add something, most for the money first."""
    return Table(PURCHASES, tuple(_purchases(box)))


def about_to_buy(box: Box) -> Table:
    """Return the tubes about to be bought, each with the owned one that is most like it."""
    return Table(ABOUT_TO_BUY, tuple(_intended(box)))


def _pairs(box: Box) -> Iterator[tuple[Cell, ...]]:
    for double in box.doubles:
        better = (double.stronger, double.longer_lasting, double.clearer)
        yield (
            double.first.id,
            double.first.name,
            double.second.name,
            double.second.id,
            file_number(double.likeness.difference, TWINS, HARDLY_DIFFERENT),
            round(double.likeness.thinning, THINNING_DECIMALS),
            *map(_name, better),
        )


def _tubes(box: Box) -> Iterator[tuple[Cell, ...]]:
    aside = {tube.id for tube in box.set_aside}
    idle = {tube.id for tube in box.idle}
    idle |= {double.spare.id for double in box.spare if double.spare}
    for tube in box.owned:
        yield tube.id, tube.name, tube.id not in aside, tube.id in idle | aside


def _purchases(box: Box) -> Iterator[tuple[Cell, ...]]:
    for item in box.additions:
        yield (
            item.tube.id,
            item.tube.name,
            Decimal(amount(item.cost)),
            box.scenario.currency,
            file_share(item.gain),
            item.affordable,
        )


def _intended(box: Box) -> Iterator[tuple[Cell, ...]]:
    for item in box.intended:
        yield (
            item.tube.id,
            item.tube.name,
            item.is_double,
            _name(item.nearest),
            None
            if item.likeness is None
            else file_number(item.likeness.difference, TWINS, HARDLY_DIFFERENT),
            *_gain(item.gain),
        )


def _gain(gain: Gain | None) -> tuple[Cell, ...]:
    if gain is None:
        return None, None, None
    reached = [f"{flower.name}: {flower.after - flower.before}" for flower in gain.flowers]
    return file_share(gain.before), file_share(gain.after), "; ".join(reached) or None


def _name(tube: Tube | None) -> str | None:
    return None if tube is None else tube.name
