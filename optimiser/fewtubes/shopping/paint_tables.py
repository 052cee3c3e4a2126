"""The paint that planned pictures take, as a table."""

from collections.abc import Iterator
from math import isfinite

from fewtubes.shopping.plan import Plan
from fewtubes.tables.cells import Cell
from fewtubes.tables.table import Column, Kind, Table
from fewtubes.words.amounts import file_amount, file_price

__all__ = ["paint_taken"]

PAINT = (
    Column("tube", Kind.TEXT, "id of a tube, bought ones first", behind=True),
    Column("name", Kind.TEXT, "its name"),
    Column("owned", Kind.YES_NO, "whether it is owned already"),
    Column("ml_a_picture", Kind.FIGURE, "paint that one picture takes, two figures [ml]"),
    Column("ml_planned", Kind.FIGURE, "paint that all pictures planned take, two figures [ml]"),
    Column("ml_bought", Kind.FIGURE, "content of its packs [ml]; 0 if owned"),
    Column("pictures", Kind.FIGURE, "pictures they last for, two figures; empty if not known"),
    Column("used_a_picture", Kind.MONEY, "price of the paint bought that is in one picture, about"),
    Column("currency", Kind.TEXT, "ISO 4217 code"),
    Column("cm2_per_ml", Kind.FIGURE, "full-strength stroke of a millilitre [cm²]", behind=True),
    Column("guessed", Kind.YES_NO, "whether the catalogue does not tell that", behind=True),
)


def paint_taken(plan: Plan) -> Table:
    """Return the paint taken: a row for each tube; none where no pictures are planned."""
    return Table(PAINT, tuple(_rows(plan)))


def _rows(plan: Plan) -> Iterator[tuple[Cell, ...]]:
    paint = plan.paint
    for it, planned in zip(paint.tubes if paint else (), plan.tubes, strict=False):
        ml_planned = paint.planned_ml(it.tube.id) if paint else 0.0
        known = it.lasts is not None and isfinite(it.lasts)
        yield (
            it.tube.id,
            it.tube.name,
            planned.owned,
            file_amount(it.ml),
            file_amount(ml_planned),
            it.bought_ml,
            file_amount(it.lasts) if known and it.lasts is not None else None,
            file_price(it.used),
            plan.scenario.currency,
            file_amount(it.cm2_per_ml) if it.guessed else it.cm2_per_ml,
            it.guessed,
        )
