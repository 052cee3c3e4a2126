"""What to buy, by seller, in the terminal: packs and sets, goods, delivery, and the total."""

from collections.abc import Callable, Iterator

from rich.console import Console

from fewtubes.catalogue.records import Tube
from fewtubes.report.sentences.purchase import (
    delivery_words,
    idle_words,
    packs_of_set,
    seller_words,
    set_words,
)
from fewtubes.report.terminal.layout import paragraph
from fewtubes.shopping.bought import Parcel
from fewtubes.shopping.list_lines import LineKind, ListLine, lines_of
from fewtubes.shopping.plan import Plan
from fewtubes.shopping.plan_parts import PlannedTube
from fewtubes.words.counting import counted
from fewtubes.words.money import amount, money
from fewtubes.words.printable import printable
from fewtubes.words.tubes import codes_words, packs_words

__all__ = ["LISTED", "Row", "print_blocks_by_seller", "print_idle", "rows_by_seller"]

INNER = "  "
"""Before what stands beneath a seller, and again beneath a set."""

LISTED = "tube"
"""Title of the column that names sellers, sets and tubes."""

Row = tuple[dict[str, str], str]
"""Cells by title, and the style that they are printed in."""


def rows_by_seller(plan: Plan, cells: Callable[[PlannedTube], dict[str, str]]) -> Iterator[Row]:
    """Yield a row for each seller, what is bought there, goods, delivery; the total last.

    Parameters
    ----------
    plan
        Whose purchase is by seller.
    cells
        What columns tell of a tube of the palette, by title.
    """
    currency = plan.scenario.currency
    for parcel in plan.purchase.parcels:
        yield {LISTED: seller_words(parcel)}, "bold"
        for line in lines_of(plan, parcel):
            if line.kind is LineKind.DELIVERY:
                yield {LISTED: f"{INNER}goods", currency: amount(parcel.goods)}, ""
            yield _row(line, parcel, currency, cells), ""
        if not (parcel.delivery or parcel.delivered_free) and len(plan.purchase.parcels) > 1:
            yield {LISTED: f"{INNER}goods", currency: amount(parcel.goods)}, ""
    yield {LISTED: "total", currency: amount(plan.cost)}, "bold"


def _row(
    line: ListLine,
    parcel: Parcel,
    currency: str,
    cells: Callable[[PlannedTube], dict[str, str]],
) -> dict[str, str]:
    """Return the cells of a line."""
    price = {} if line.price is None else {currency: amount(line.price)}
    if line.kind is LineKind.DELIVERY:
        return {LISTED: f"{INNER}{delivery_words(parcel)}", **price}
    if line.tube is None:
        bought = line.set_bought
        if bought is None:
            return price
        packs = counted(bought.count, "set")
        return {LISTED: f"{INNER}{set_words(bought)}", "packs": packs, **price}
    inner = INNER * 2 if line.kind is LineKind.IN_SET else INNER
    told = _idle_cells(line.tube) if line.planned is None else cells(line.planned)
    name = f"{inner}{told[LISTED]}"
    return {**told, LISTED: name, "packs": _packs(line), **price}


def _idle_cells(tube: Tube) -> dict[str, str]:
    return {
        LISTED: printable(tube.name),
        "pigments": codes_words(tube),
        "lasts": tube.lightfastness.name,
        "use": "not needed",
    }


def _packs(line: ListLine) -> str:
    """Return the packs of a line in words."""
    if line.pack is not None:
        return packs_words([(line.pack.pack.count, line.pack.pack.offer.ml)])
    if line.set_bought is None or line.tube is None:
        return ""
    return f"({packs_words(packs_of_set(line.set_bought, line.tube.id))})"


def print_blocks_by_seller(plan: Plan, console: Console) -> None:
    """Print the same one below the other, where a table would break names."""
    currency = plan.scenario.currency
    for parcel in plan.purchase.parcels:
        paragraph(console, seller_words(parcel), style="bold")
        for line in lines_of(plan, parcel):
            paragraph(console, _block(line, parcel, currency), indent=4)
        if len(plan.purchase.parcels) > 1 or parcel.delivery:
            paragraph(console, f"in all {money(parcel.cost, currency)}", indent=4)
    paragraph(console, f"total {money(plan.cost, currency)}", style="bold")


def _block(line: ListLine, parcel: Parcel, currency: str) -> str:
    price = "" if line.price is None else f", {money(line.price, currency)}"
    if line.kind is LineKind.DELIVERY:
        return f"{delivery_words(parcel)}{price}"
    if line.tube is None:
        return "" if line.set_bought is None else f"{set_words(line.set_bought)}{price}"
    inner = f"{INNER}in it: " if line.kind is LineKind.IN_SET else ""
    return f"{inner}{printable(line.tube.name)}, {_packs(line)}{price}"


def print_idle(plan: Plan, console: Console) -> None:
    """Print what is bought that the palette does not need, and why."""
    for said in idle_words(plan):
        paragraph(console, said)
