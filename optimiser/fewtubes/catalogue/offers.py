"""The packs of the tubes, from `offers.csv`, and who sells them."""

from collections import defaultdict
from collections.abc import Collection, Mapping
from dataclasses import replace

from fewtubes.catalogue.limits import MILLILITRES, PRICE, NumberRange, shown
from fewtubes.catalogue.money import code_fault
from fewtubes.catalogue.records import Offer
from fewtubes.catalogue.repeats import Sightings
from fewtubes.catalogue.rows import Row
from fewtubes.catalogue.sellers import Seller
from fewtubes.catalogue.tables import ReadTable

__all__ = [
    "MORE_OFFER_COLUMNS",
    "OFFER_COLUMNS",
    "STOCK",
    "currency_of",
    "read_offers",
    "seller_of",
    "stock_of",
]

OFFER_COLUMNS = ("tube", "ml", "price", "currency")

MORE_OFFER_COLUMNS = ("seller", "stock", "price_two_or_more")
"""Columns that the table may have besides; a blank cell counts as none."""

STOCK = NumberRange(0, 10_000)
"""Packs, or sets, that there are."""


def read_offers(
    table: ReadTable,
    tubes: Collection[str] | None,
    sellers: Mapping[str, Seller] | None,
) -> dict[str, list[Offer]]:
    """Return the packs of each tube, by its id.

    Parameters
    ----------
    table
        The table.
    tubes
        Ids of the tubes; None if they could not be read, so that nothing is said about them.
    sellers
        By id; None if they could not be read.
    """
    packs: dict[str, list[Offer]] = defaultdict(list)
    seen = Sightings()
    for row in table.rows:
        tube = row.reference("tube", tubes, "tubes.csv")
        offer = Offer(
            ml=row.number("ml", MILLILITRES),
            price=row.hundredths("price", PRICE),
            currency=currency_of(row),
        )
        offer = replace(
            offer,
            seller=seller_of(row, sellers, offer.currency),
            stock=stock_of(row),
            price_of_more=_price_of_more(row, offer.price),
        )
        at = f" at {shown(offer.seller)}" if offer.seller else ""
        thing = f"the pack of {offer.ml:g} ml of the tube {shown(tube)} in {offer.currency}{at}"
        # A blank seller is one of its own; a blank part of a key would repeat nothing.
        key = (tube, offer.ml, offer.currency, f"seller {offer.seller}")
        if seen.is_new(row, key, thing):
            packs[tube].append(offer)
    return packs


def currency_of(row: Row) -> str:
    """Return the currency of a row's price."""
    code = row.text("currency")
    fault = code_fault(code) if code else None
    if fault:
        row.note(f"currency {fault}")
    return code


def seller_of(row: Row, sellers: Mapping[str, Seller] | None, currency: str) -> str:
    """Return the id of a row's seller, "" where none is named; its currency must be the row's."""
    if not row.cells.get("seller"):
        return ""
    named = row.reference("seller", sellers, "sellers.csv")
    seller = (sellers or {}).get(named)
    # What is wrong with the seller's own currency is told once, in its row.
    if (
        seller is not None
        and currency not in ("", seller.currency)
        and not code_fault(seller.currency)
    ):
        row.note(
            f"currency is {shown(currency)}, but the seller {shown(named)} sells in"
            f" {seller.currency}; a seller has one currency, so correct it here or in sellers.csv,"
            " or enter a seller for each currency"
        )
    return named


def stock_of(row: Row) -> int | None:
    """Return how many a row says there are, None where it says nothing."""
    text = row.cells.get("stock")
    if not text:
        return None
    value = row.number("stock", STOCK)
    if value != value:  # noqa: PLR0124  # NaN: told already
        return None
    if value % 1:
        said = shown(row.as_written("stock"))
        row.note(f"stock is {said}; it must be a whole number, 0 for what is sold out")
    return int(value)


def _price_of_more(row: Row, price: int) -> int | None:
    """Return the price of each of two or more [hundredths], None where the row gives none."""
    if not row.cells.get("price_two_or_more"):
        return None
    each = row.hundredths("price_two_or_more", PRICE)
    if each > price > 1:  # 1 stands in for a price with a fault
        more, one = shown(row.as_written("price_two_or_more")), shown(row.as_written("price"))
        row.note(
            f"price_two_or_more is {more}, above the price of one, {one}; give the price of each"
            " if two or more are bought, or leave it blank"
        )
    return each
