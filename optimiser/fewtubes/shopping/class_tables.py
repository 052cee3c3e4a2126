"""What a class buys together, as a table: a row for each paint."""

from collections.abc import Iterator

from fewtubes.shopping.class_share import ClassTube
from fewtubes.shopping.plan import Plan
from fewtubes.tables.cells import Cell
from fewtubes.tables.table import Column, Kind, Table
from fewtubes.words.amounts import file_need

__all__ = ["for_the_class", "needed_and_left"]

SHARED_OUT = (
    Column("tube", Kind.TEXT, "id of a tube to buy", behind=True),
    Column("name", Kind.TEXT, "its name"),
    Column("pigments", Kind.TEXT, "Colour Index names parted by blanks"),
    Column("tubes_needed", Kind.WHOLE, "tubes there must be; empty if any number will do"),
    Column("tubes_bought", Kind.WHOLE, "tubes in all packs and sets"),
    Column("tubes_spare", Kind.WHOLE, "tubes beyond those needed; empty if not counted"),
    Column("ml_needed", Kind.FIGURE, "paint that is needed in all [ml]; empty if any will do"),
    Column("ml_bought", Kind.FIGURE, "paint in all packs and sets [ml]"),
    Column("ml_left", Kind.FIGURE, "paint beyond what is needed [ml]; empty if any will do"),
)


DECIMALS = 6
"""Of what is left [ml], which has no more than what it is the rest of; ends what doubles feign."""


def for_the_class(plan: Plan) -> Table:
    """Return what is needed, bought and left over of each paint; no row without a class."""
    share = plan.class_share
    return Table(SHARED_OUT, tuple(_rows(() if share is None else share.tubes)))


def _rows(tubes: tuple[ClassTube, ...]) -> Iterator[tuple[Cell, ...]]:
    for it in tubes:
        codes = " ".join(dict.fromkeys(it.tube.codes))
        yield (
            it.tube.id,
            it.tube.name,
            codes,
            it.needed if it.needed > 1 else None,
            it.bought,
            it.spare,
            *needed_and_left(it),
        )


def needed_and_left(it: ClassTube) -> tuple[float | None, float, float | None]:
    """Return the paint needed, bought and left [ml], of which the last is the rest of the others.

    What is reckoned from pictures is told to two figures.
    """
    if not it.needed_ml or it.counted:
        return it.needed_ml or None, it.bought_ml, it.left_ml
    needed = file_need(it.needed_ml, it.bought_ml)
    return needed, it.bought_ml, round(it.bought_ml - needed, DECIMALS)
