"""Packs and prices, which stand apart from the paints: a new price list touches no colour."""

from collections.abc import Collection
from dataclasses import dataclass
from decimal import Decimal

from fewtubes.catalogue.limits import shown
from fewtubes.catalogue.money import exact_amount
from fewtubes.keeping.kept_catalogue import KeptCatalogue
from fewtubes.keeping.kept_table import Cells
from fewtubes.quoting import quoted

__all__ = ["PackChange", "PackedCatalogue", "with_packs"]

OFFERS = "offers.csv"

Key = tuple[Decimal | None, str]
"""Content [ml] and currency: a tube has one price for each."""


@dataclass(frozen=True)
class PackChange:
    """One pack that came in, or whose price changed; amounts as they are written."""

    tube: str
    ml: str
    currency: str
    price: str
    before: str | None
    """The price that it had, None for a new pack."""


@dataclass(frozen=True)
class PackedCatalogue:
    """A catalogue with packs brought in."""

    kept: KeptCatalogue
    changes: tuple[PackChange, ...]
    left: tuple[str, ...]
    """Packs whose price would change but was left, in words."""


def with_packs(
    ours: KeptCatalogue,
    theirs: KeptCatalogue,
    *,
    replacing: bool,
    tubes: Collection[str] | None = None,
) -> PackedCatalogue:
    """Return a catalogue with the packs of another; packs that it alone has stay.

    Parameters
    ----------
    ours, theirs
        The one that is added to, and the one that is brought in.
    replacing
        Whether a pack that has another price there gets it.
    tubes
        Only theirs are brought in; None for those of all tubes.
    """
    table = ours.table(OFFERS)
    here, there = table.things("tube"), theirs.table(OFFERS).things("tube")
    changes: list[PackChange] = []
    left: list[str] = []
    after: dict[str, list[Cells]] = {}
    for tube, rows in there.items():
        if tubes is not None and tube not in tubes:
            continue
        packs = {_key(cells): cells for cells in here.get(tube, [])}
        for cells in rows:
            before = packs.get(_key(cells))
            if before is not None and exact_amount(before["price"]) == exact_amount(cells["price"]):
                continue
            if before is not None and not replacing:
                left.append(_left(before, cells, ours.label))
                continue
            changes.append(_change(cells, before))
            packs[_key(cells)] = cells
        after[tube] = list(packs.values())
    return PackedCatalogue(
        ours.with_table(OFFERS, table.with_things("tube", after)), tuple(changes), tuple(left)
    )


def _key(cells: Cells) -> Key:
    return exact_amount(cells["ml"]), cells["currency"]


def _change(cells: Cells, before: Cells | None) -> PackChange:
    return PackChange(
        tube=cells["tube"],
        ml=cells["ml"],
        currency=cells["currency"],
        price=cells["price"],
        before=None if before is None else before["price"],
    )


def _left(before: Cells, cells: Cells, ours: str) -> str:
    return (
        f"the pack of {cells['ml']} ml of the tube {shown(cells['tube'])} costs {cells['currency']}"
        f" {before['price']} in {quoted(ours)} and {cells['price']} there"
    )
