"""Packs and prices, which stand apart from the paints: a new price list touches no colour."""

from collections.abc import Collection, Iterator
from dataclasses import dataclass
from decimal import Decimal

from fewtubes.catalogue.limits import shown
from fewtubes.catalogue.money import exact_amount
from fewtubes.keeping.kept_catalogue import KeptCatalogue
from fewtubes.keeping.kept_table import Cells, content
from fewtubes.quoting import quoted
from fewtubes.words.lists import in_a_row

__all__ = ["PackChange", "PackedCatalogue", "with_packs"]

OFFERS = "offers.csv"

Key = tuple[Decimal | None, str, str]
"""Content [ml], currency and seller: a tube has one price for each."""

PLAIN = frozenset({"tube", "ml", "price", "currency", "seller"})
"""Columns that a pack is named by; others are told where they differ."""


@dataclass(frozen=True)
class PackChange:
    """One pack that came in, or whose price changed; amounts as they are written."""

    tube: str
    ml: str
    currency: str
    price: str
    before: str | None
    """The price that it had, None for a new pack."""
    seller: str = ""
    """Id of who sells it; blank where sellers are not told apart."""
    besides: tuple[str, ...] = ()
    """What else it has otherwise now, e.g. ``stock 3 instead of 5``."""


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
            after_it = {**(before or {}), **cells}  # a column that a list does not have stays
            if before is not None and content([before]) == content([after_it]):
                continue
            if before is not None and not replacing:
                left.append(_left(before, cells, ours.label))
                continue
            changes.append(_change(cells, before))
            packs[_key(cells)] = after_it
        after[tube] = list(packs.values())
    return PackedCatalogue(
        ours.with_table(OFFERS, table.with_things("tube", after)), tuple(changes), tuple(left)
    )


def _key(cells: Cells) -> Key:
    return exact_amount(cells["ml"]), cells["currency"], cells.get("seller", "")


def _change(cells: Cells, before: Cells | None) -> PackChange:
    return PackChange(
        tube=cells["tube"],
        ml=cells["ml"],
        currency=cells["currency"],
        price=cells["price"],
        before=None if before is None or _same_price(before, cells) else before["price"],
        seller=cells.get("seller", ""),
        besides=() if before is None else tuple(_besides(before, cells)),
    )


def _same_price(before: Cells, cells: Cells) -> bool:
    return exact_amount(before["price"]) == exact_amount(cells["price"])


def _besides(before: Cells, cells: Cells) -> Iterator[str]:
    """Yield in what else than its price a pack differs."""
    for column, cell in cells.items():
        if column not in PLAIN and content([{column: cell}]) != content(
            [{column: before.get(column, "")}]
        ):
            yield f"{column} {cell or 'blank'} instead of {before.get(column) or 'blank'}"


def _left(before: Cells, cells: Cells, ours: str) -> str:
    seller = f" at {shown(cells['seller'])}" if cells.get("seller") else ""
    pack = f"the pack of {cells['ml']} ml of the tube {shown(cells['tube'])}{seller}"
    if _same_price(before, cells):
        return f"{pack} has there {in_a_row([*_besides(before, cells)])} in {quoted(ours)}"
    return (
        f"{pack} costs {cells['currency']} {before['price']} in {quoted(ours)} and"
        f" {cells['price']} there"
    )
