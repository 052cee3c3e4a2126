"""What is bought bit by bit, as a table."""

from collections.abc import Iterator
from decimal import Decimal

from fewtubes.comparison.instalment_findings import Instalments
from fewtubes.tables.cells import Cell
from fewtubes.tables.table import Column, Kind, Table
from fewtubes.words.decimals import file_share
from fewtubes.words.money import amount
from fewtubes.words.tubes import packs_words

__all__ = ["tubes"]

TUBES = (
    Column("time", Kind.WHOLE, "when to buy it: 1 with the first sum, 2 with the second, …"),
    Column("name", Kind.TEXT, "name of the tube"),
    Column("pigments", Kind.TEXT, "Colour Index names of its pigments, parted by blanks"),
    Column("packs", Kind.TEXT, "packs to buy of it"),
    Column("price", Kind.MONEY, "price of its packs, in the currency"),
    Column("currency", Kind.TEXT, "ISO 4217 code"),
    Column("lightfastness", Kind.TEXT, "ASTM D4303 category, I to V"),
    Column("hazards", Kind.TEXT, "what calls for care, parted by blanks; empty if nothing"),
    Column("spent_so_far", Kind.MONEY, "spent up to and with this time, in the currency"),
    Column("carried_on", Kind.MONEY, "left after this time, in the currency"),
    Column("covered", Kind.SHARE, "share covered from this time on [0–1]"),
    Column(
        "best_at_once",
        Kind.SHARE,
        "what no palette bought at once for all money up to then exceeds [0–1]",
    ),
    Column("tube", Kind.TEXT, "id of the tube", behind=True),
)


def tubes(found: Instalments) -> Table:
    """Return a row for each tube to buy, in the order of buying."""
    return Table(TUBES, tuple(_tubes(found)))


def _tubes(found: Instalments) -> Iterator[tuple[Cell, ...]]:
    for number, time in enumerate(found.times, start=1):
        for purchase in time.bought:
            tube = purchase.tube
            yield (
                number,
                tube.name,
                " ".join(dict.fromkeys(tube.codes)),
                packs_words((pack.count, pack.offer.ml) for pack in purchase.packs),
                Decimal(amount(purchase.cost)),
                found.question.scenario.currency,
                tube.lightfastness.name,
                " ".join(hazard.value for hazard in tube.hazards),
                Decimal(amount(time.palette.cost)),
                Decimal(amount(time.carried_on)),
                file_share(time.coverage),
                file_share(time.best),
                tube.id,
            )
