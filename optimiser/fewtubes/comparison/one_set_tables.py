"""One set of tubes for several scenarios, as tables."""

from collections.abc import Iterator
from decimal import Decimal

from fewtubes.comparison.one_set_findings import OneSet
from fewtubes.tables.cells import Cell
from fewtubes.tables.table import Column, Kind, Table
from fewtubes.words.decimals import file_share
from fewtubes.words.money import amount
from fewtubes.words.tubes import packs_words

__all__ = ["served", "tubes"]

TUBES = (
    Column("best_by", Kind.TEXT, "mean or worst: by which coverage the set is the best"),
    Column("name", Kind.TEXT, "name of the tube or set; delivery"),
    Column("pigments", Kind.TEXT, "Colour Index names of its pigments, parted by blanks"),
    Column("packs", Kind.TEXT, "packs to buy of it, or how many sets"),
    Column("price", Kind.MONEY, "price of these, in the currency"),
    Column("currency", Kind.TEXT, "ISO 4217 code"),
    Column("seller", Kind.TEXT, "name of the seller; empty where they are not told apart"),
    Column("lightfastness", Kind.TEXT, "ASTM D4303 category, I to V"),
    Column("hazards", Kind.TEXT, "what calls for care, parted by blanks; empty if nothing"),
    Column("tube", Kind.TEXT, "id of the tube; empty for sets and deliveries", behind=True),
)

SERVED = (
    Column("title", Kind.TEXT, "what the scenario is called"),
    Column("counts", Kind.SHARE, "its share of the mean [0–1]"),
    Column("by_mean", Kind.SHARE, "what the set of the best mean covers of it [0–1]"),
    Column("by_worst", Kind.SHARE, "what the set of the best worst covers of it [0–1]"),
    Column(
        "own_best",
        Kind.SHARE,
        "best with its own budget and wishes [0–1]; empty if none was found, or there is none",
    ),
    Column("own_at_most", Kind.SHARE, "what no choice of its own exceeds [0–1]"),
    Column("asks_for", Kind.SHARE, "coverage it asks for at least [0–1]; 0 for none"),
    Column("name", Kind.TEXT, "name of the scenario", behind=True),
)


def tubes(found: OneSet) -> Table:
    """Return a row for each pack size, set and delivery of each of the two."""
    return Table(TUBES, tuple(_tubes(found)))


def _tubes(found: OneSet) -> Iterator[tuple[Cell, ...]]:
    for by, chosen in (("mean", found.by_mean), ("worst", found.by_worst)):
        for parcel in chosen.purchase.parcels:
            seller = None if parcel.seller is None else parcel.seller.name
            for bought in parcel.packs:
                tube, pack = bought.tube, bought.pack
                yield (
                    by,
                    tube.name,
                    " ".join(dict.fromkeys(tube.codes)),
                    packs_words([(pack.count, pack.offer.ml)]),
                    Decimal(amount(pack.cost)),
                    found.currency,
                    seller,
                    tube.lightfastness.name,
                    " ".join(hazard.value for hazard in tube.hazards),
                    tube.id,
                )
            others = [(it.tube_set.name, f"{it.count} ×", it.cost) for it in parcel.sets]
            if parcel.delivery:
                others.append(("delivery", "", parcel.delivery))
            for name, packs, cost in others:
                price = Decimal(amount(cost))
                yield (by, name, None, packs, price, found.currency, seller, None, None, None)


def served(found: OneSet) -> Table:
    """Return a row for each scenario."""
    return Table(SERVED, tuple(_served(found)))


def _served(found: OneSet) -> Iterator[tuple[Cell, ...]]:
    coverages = zip(found.by_mean.coverages, found.by_worst.coverages, strict=True)
    for scenario, (mean, worst) in zip(found.scenarios, coverages, strict=True):
        own = scenario.own
        yield (
            scenario.title,
            file_share(float(scenario.share)),
            file_share(float(mean)),
            file_share(float(worst)),
            None if own is None or own.coverage is None else file_share(own.coverage),
            None if own is None else file_share(own.bound),
            file_share(scenario.least),
            scenario.name,
        )
