"""What a purchase is made under, in whole numbers: packs, sets, stocks, postage and least orders.

Without such terms each tube has one price and a palette costs their sum (`ChoiceInstance.prices`).
With them the price of a palette is that of the cheapest purchase that holds the paint it needs
(`fewtubes.selection.purchase`), which is no sum over tubes.
"""

from collections.abc import Callable, Hashable
from dataclasses import dataclass, field
from functools import cached_property
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from fewtubes.selection.least_paint import LeastPaint

__all__ = ["OUT_OF_REACH", "Need", "PackOnSale", "Purchase", "SellerTerms", "SetOnSale", "Terms"]

OUT_OF_REACH = 1 << 40
"""Stands for the cost of what cannot be had [hundredths of the currency]; far beyond all budgets,
and a sum of thousands of it is still a whole number of 64 bits."""


@dataclass(frozen=True)
class Need:
    """How much of a tube must be bought if it is bought at all."""

    amount: int = 0
    """Paint that its packs must hold together [thousandths of a millilitre]."""
    containers: int = 1
    """Tubes, pans or pots of it that there must be, at least 1."""


@dataclass(frozen=True)
class PackOnSale:
    """One pack size of one tube at one seller."""

    tube: int
    """Number of the tube."""
    seller: int
    """Number of the seller."""
    amount: int
    """What it holds [thousandths of a millilitre]."""
    price: int
    """Price if one of it is bought [hundredths of the currency]."""
    price_of_more: int | None = None
    """Price of each if two or more of it are bought [hundredths]; None: the same."""
    stock: int | None = None
    """Most of it that can be bought; None: any number."""

    def cost(self, count: int) -> int:
        """Return what so many of it cost together [hundredths]."""
        several = self.price if self.price_of_more is None else self.price_of_more
        return self.price if count == 1 else several * count


@dataclass(frozen=True)
class SetOnSale:
    """Several packs sold together at one price."""

    seller: int
    """Number of the seller."""
    price: int
    """Of the whole set [hundredths of the currency]."""
    holds: tuple[tuple[int, int, int], ...]
    """Tube, containers of it, and what these hold together [thousandths of a millilitre]; each tube
    once, ascending."""
    stock: int | None = None
    """Most of it that can be bought; None: any number."""


@dataclass(frozen=True)
class SellerTerms:
    """What a seller asks beside the goods; only of those that something is bought from."""

    delivery: int = 0
    """Charge for one delivery [hundredths of the currency]."""
    free_from: int | None = None
    """Price of the goods from which delivery is free [hundredths]; None: never."""
    least_order: int = 0
    """Least price of the goods that is sold at all [hundredths]."""


@dataclass(frozen=True)
class Terms:
    """Everything on sale, and what each tube is needed for."""

    sellers: tuple[SellerTerms, ...]
    """By number."""
    packs: tuple[PackOnSale, ...]
    """By number; those of tubes that may not be bought are not among them."""
    sets: tuple[SetOnSale, ...]
    """By number. What a set holds beside the palette lies idle: it is neither counted nor used."""
    needs: tuple[Need, ...]
    """For each tube the least that is needed of it, whatever else is bought."""
    needs_of: Callable[[tuple[int, ...]], tuple[Need, ...]] | None = field(
        default=None, compare=False
    )
    """What is needed of each tube bought with these, ascending, in their order: at least what
    `needs` tells; None where that is all. It must be a function of the palette alone."""
    least_paint: "Callable[[float], LeastPaint | None] | None" = field(default=None, compare=False)
    """Called with the time until when it must be known (`time.monotonic`), what paint costs at
    least; None as long as that is not worth while. It goes with `needs_of`."""

    def needed(self, bought: tuple[int, ...]) -> tuple[Need, ...]:
        """Return what is needed of each tube bought, in the order of the tubes, ascending."""
        if self.needs_of is not None:
            return self.needs_of(bought)
        return tuple(self.needs[tube] for tube in bought)

    @cached_property
    def worked_out(self) -> dict[Hashable, object]:
        """What has been worked out of these terms and is wanted again, by question."""
        return {}

    def __getstate__(self) -> dict[str, object]:
        """Return what another process is told: the terms, not what was worked out of them."""
        return {name: value for name, value in self.__dict__.items() if name != "worked_out"}


@dataclass(frozen=True)
class Purchase:
    """What is bought where, and what leaves the purse."""

    packs: tuple[tuple[int, int], ...]
    """Number of a pack on sale, and how many of it; in the order of the packs."""
    sets: tuple[tuple[int, int], ...]
    """The same of sets."""
    deliveries: tuple[tuple[int, int], ...]
    """Number of each seller that something is bought from, and what the delivery costs there
    [hundredths of the currency]."""
    cost: int
    """Of goods and deliveries together [hundredths of the currency]."""
