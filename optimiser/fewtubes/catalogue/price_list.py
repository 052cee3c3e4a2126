"""A price list: what is sold by whom and for what, in the place of a catalogue's own prices.

It is a folder with `offers.csv` and, where they are needed, `sellers.csv`, `sets.csv` and
`set_packs.csv`, in the form in which a catalogue has them, or as a spreadsheet saves them where
decimals stand after a comma. The paints stay the catalogue's.
"""

from collections.abc import Collection, Mapping
from dataclasses import dataclass, replace
from os import PathLike
from pathlib import Path
from types import MappingProxyType

from fewtubes.catalogue.collector import FaultCollector
from fewtubes.catalogue.files import folder_fault
from fewtubes.catalogue.offers import MORE_OFFER_COLUMNS, OFFER_COLUMNS, read_offers
from fewtubes.catalogue.records import Catalogue, Offer, Tube
from fewtubes.catalogue.seller_tables import (
    MORE_SET_COLUMNS,
    SELLER_COLUMNS,
    SET_COLUMNS,
    SET_PACK_COLUMNS,
    read_sellers,
    read_sets,
)
from fewtubes.catalogue.sellers import Seller, TubeSet
from fewtubes.catalogue.tables import ReadTable, read_table
from fewtubes.errors import Fault, InputError

__all__ = [
    "OFFERS_TABLE",
    "SELLING_COLUMNS",
    "SELLING_MORE",
    "SELLING_NUMBERS",
    "Prices",
    "prices_of",
    "selling_tables",
    "with_prices",
]

OFFERS_TABLE = "offers.csv"

SELLING_COLUMNS: Mapping[str, tuple[str, ...]] = MappingProxyType(
    {
        "sellers.csv": SELLER_COLUMNS,
        "sets.csv": SET_COLUMNS,
        "set_packs.csv": SET_PACK_COLUMNS,
    }
)
"""The tables beside the offers, which there need not be, and their columns."""

SELLING_MORE: Mapping[str, tuple[str, ...]] = MappingProxyType(
    {OFFERS_TABLE: MORE_OFFER_COLUMNS, "sets.csv": MORE_SET_COLUMNS}
)
"""Columns that tables of prices may have besides."""

SELLING_NUMBERS = frozenset(
    {"ml", "price", "price_two_or_more", "stock", "count", "delivery", "free_from", "least_order"}
)
"""Columns whose decimals may stand after a comma where cells are not parted by commas."""


@dataclass(frozen=True)
class Prices:
    """What is sold."""

    offers: Mapping[str, tuple[Offer, ...]]
    """By tube id; of tubes that are sold."""
    sellers: Mapping[str, Seller]
    """By id."""
    sets: Mapping[str, TubeSet]
    """By id."""

    def tubes(self, tubes: Mapping[str, Tube]) -> dict[str, Tube]:
        """Return tubes with these packs; one without is not for sale, and of use when owned."""
        return {id_: replace(tube, offers=self.offers.get(id_, ())) for id_, tube in tubes.items()}


def with_prices(catalogue: Catalogue, folder: str | PathLike[str] | None) -> Catalogue:
    r"""Return the catalogue with the prices of a folder in the place of its own; None keeps them.

    Parameters
    ----------
    catalogue
        Whose paints stay; a tube of which the price list has no pack is not for sale.
    folder
        Holds ``offers.csv``, and ``sellers.csv``, ``sets.csv`` and ``set_packs.csv`` if wanted.

    Raises
    ------
    InputError
        With every fault found; a tube that the catalogue does not have is one.

    Examples
    --------
    >>> import tempfile, pathlib
    >>> from fewtubes import read_catalogue, with_prices
    >>> folder = pathlib.Path(tempfile.mkdtemp())
    >>> text = "tube,ml,price,currency\nultramarine,5,3.10,EUR\n"
    >>> _ = (folder / "offers.csv").write_text(text, encoding="utf-8")
    >>> catalogue = with_prices(read_catalogue(), folder)
    >>> [tube.id for tube in catalogue.tubes.values() if tube.offers]
    ['ultramarine']
    """
    if folder is None:
        return catalogue
    place, collector = Path(folder), FaultCollector()
    fault = folder_fault(place, "the price list")
    if fault:
        raise InputError([Fault(str(folder), fault)])
    offers = read_table(
        place / OFFERS_TABLE,
        OFFER_COLUMNS,
        collector,
        optional=MORE_OFFER_COLUMNS,
        may_be_empty=True,
        numbers=SELLING_NUMBERS,
    )
    tables = selling_tables(place, collector, numbers=SELLING_NUMBERS)
    prices = prices_of(offers, tables, catalogue.tubes.keys())
    try:
        collector.raise_if_any()
    except InputError as error:
        told = [replace(fault, where=f"{folder}, {fault.where}") for fault in error.faults]
        raise InputError(told) from error
    return replace(
        catalogue,
        tubes=prices.tubes(catalogue.tubes),
        sellers=prices.sellers,
        sets=prices.sets,
    )


def selling_tables(
    folder: Path, collector: FaultCollector, *, numbers: Collection[str] = ()
) -> dict[str, ReadTable]:
    """Return the tables beside the offers by name; those not there have no rows.

    Parameters
    ----------
    folder, collector
        Where they are, and who takes the faults.
    numbers
        Columns of numbers, where other signs than the comma may part the cells (`read_table`).
    """
    return {
        name: read_table(
            folder / name,
            columns,
            collector,
            optional=SELLING_MORE.get(name, ()),
            may_be_empty=True,
            may_be_absent=True,
            numbers=numbers,
        )
        for name, columns in SELLING_COLUMNS.items()
    }


def prices_of(
    offers: ReadTable, tables: Mapping[str, ReadTable], tubes: Collection[str] | None
) -> Prices:
    """Return what is sold; faults go to the tables' collector.

    Parameters
    ----------
    offers, tables
        The packs, and the tables of `SELLING_COLUMNS`.
    tubes
        Ids of the tubes; None if they could not be read, so that nothing is said about them.
    """
    sellers = read_sellers(tables["sellers.csv"])
    known = sellers if tables["sellers.csv"].readable else None
    packs = read_offers(offers, tubes, known)
    return Prices(
        offers={tube: tuple(found) for tube, found in packs.items()},
        sellers=sellers,
        sets=read_sets(tables["sets.csv"], tables["set_packs.csv"], tubes=tubes, sellers=known),
    )
