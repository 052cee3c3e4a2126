"""The catalogue with what the page was started with beside it."""

from pathlib import Path

from fewtubes.catalogue.collector import FaultCollector
from fewtubes.catalogue.price_list import with_prices
from fewtubes.catalogue.records import Catalogue
from fewtubes.scenario.flower_file import flowers_in, with_flowers

__all__ = ["beside", "flowers_named"]


def beside(catalogue: Catalogue, *, prices: Path | None, flowers: Path | None) -> Catalogue:
    """Return a catalogue with other prices and further flowers, where they were named.

    Parameters
    ----------
    catalogue
        As read.
    prices
        Folder of a price list in the place of its own prices; None for those.
    flowers
        Table of the painter's own flowers, which come besides; None for none.

    Raises
    ------
    InputError
        With the faults of either.
    """
    return with_flowers(with_prices(catalogue, prices), flowers)


def flowers_named(flowers: Path | None) -> tuple[str, ...]:
    """Return the names in a table of flowers; none without one. Its faults are told by `beside`."""
    return () if flowers is None else tuple(flowers_in(flowers, {}, FaultCollector()))
