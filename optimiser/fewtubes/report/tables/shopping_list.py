"""`shopping-list.csv`: one row a tube and pack size to buy.

There is no row for the total, so that the table can be summed, sorted and filtered as it stands;
the total is in the report and in `plan.json`.
"""

from collections.abc import Iterator
from decimal import Decimal

from fewtubes.shopping.plan import Plan
from fewtubes.tables.cells import Cell, csv_text
from fewtubes.words.decimals import file_share
from fewtubes.words.money import amount

__all__ = ["SHOPPING_LIST_COLUMNS", "shopping_list"]

SHOPPING_LIST_COLUMNS = (
    "tube",
    "name",
    "pigments",
    "ml",
    "packs",
    "price_each",
    "price",
    "currency",
    "lightfastness",
    "transparency",
    "hazards",
    "mixes",
    "only_it_brings",
)
"""Content of a pack in ml; prices in the currency; `only_it_brings` is a share of coverage [0–1].

`mixes` counts the colours painted with the tube; a tube in two pack sizes repeats both figures.
"""


def shopping_list(plan: Plan) -> str:
    """Return the tubes to buy as CSV text."""
    return csv_text(SHOPPING_LIST_COLUMNS, _rows(plan))


def _rows(plan: Plan) -> Iterator[tuple[Cell, ...]]:
    for planned in plan.bought:
        for pack in planned.packs:
            yield (
                planned.tube.id,
                planned.tube.name,
                " ".join(dict.fromkeys(planned.tube.codes)),
                float(pack.offer.ml),
                pack.count,
                Decimal(amount(pack.offer.price)),
                Decimal(amount(pack.cost)),
                pack.offer.currency,
                planned.tube.lightfastness.name,
                planned.transparency.word,
                " ".join(planned.tube.hazards),
                planned.recipes,
                file_share(planned.only_it_brings),
            )
