"""The answers to all scenarios, as a table."""

from decimal import Decimal

from fewtubes.tables.cells import Cell
from fewtubes.tables.table import Column, Kind, Table
from fewtubes.term.findings import Batch, BatchRow
from fewtubes.words.decimals import file_share
from fewtubes.words.money import amount

__all__ = ["answers_table"]

ANSWERS = (
    Column("title", Kind.TEXT, "what the scenario is called"),
    Column("coverage", Kind.SHARE, "share of what is to be painted that is covered [0–1]"),
    Column("cost", Kind.MONEY, "price of all that is bought, in the currency"),
    Column("currency", Kind.TEXT, "ISO 4217 code"),
    Column("tubes", Kind.WHOLE, "tubes to buy"),
    Column("proven", Kind.YES_NO, "whether the choice is proven best"),
    Column("at_most", Kind.SHARE, "coverage that no choice exceeds [0–1]"),
    Column(
        "lightfastness_at_worst",
        Kind.TEXT,
        "ASTM D4303 category, I to V, of the tube in use that fades most",
    ),
    Column("out_of_reach", Kind.WHOLE, "colours that are not covered"),
    Column("colours", Kind.WHOLE, "colours in all"),
    Column("to_buy", Kind.TEXT, "names of the tubes to buy, parted by semicolons"),
    Column("fault", Kind.TEXT, "why there is no answer; empty if there is one"),
    Column("results", Kind.TEXT, "name of the folder of its results, if there are", behind=True),
    Column("file", Kind.TEXT, "name of the scenario's file", behind=True),
)


def answers_table(batch: Batch) -> Table:
    """Return a row for each scenario."""
    return Table(ANSWERS, tuple(_cells(row) for row in batch.rows))


def _cells(row: BatchRow) -> tuple[Cell, ...]:
    if row.failed:
        blank: tuple[Cell, ...] = (None,) * 10
        return (row.title or None, *blank, row.fault, None, row.file)
    return (
        row.title,
        file_share(row.coverage),
        Decimal(amount(row.cost)),
        row.currency,
        len(row.bought),
        row.proven,
        file_share(row.most),
        row.worst_lightfastness,
        row.out_of_reach,
        row.colours,
        "; ".join(row.bought),
        None,
        row.name,
        row.file,
    )
