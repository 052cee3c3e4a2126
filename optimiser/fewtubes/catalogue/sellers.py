"""Who sells tubes, what they ask beside the goods, and the sets they sell together."""

from dataclasses import dataclass

__all__ = ["Seller", "SetPack", "TubeSet"]


@dataclass(frozen=True)
class Seller:
    """Somebody who sells tubes; money in hundredths of the currency."""

    id: str
    """As in the tables."""
    name: str
    """Plain description."""
    delivery: int
    """Charge for one delivery, 0 where nothing is charged."""
    free_from: int | None
    """Price of the goods from which delivery is free; None: never."""
    least_order: int
    """Least price of the goods that is sold at all; 0 where any is."""
    currency: str
    """ISO 4217 code of its prices."""
    note: str = ""
    """Free text."""


@dataclass(frozen=True)
class SetPack:
    """So many packs of one tube in a set."""

    tube: str
    """Id of the tube."""
    ml: float
    """Content of each pack [ml]."""
    count: int
    """How many of it the set holds, at least 1."""


@dataclass(frozen=True)
class TubeSet:
    """Several packs sold together at one price."""

    id: str
    """As in the tables."""
    name: str
    """Plain description."""
    seller: str
    """Id of the seller; blank where sellers are not told apart."""
    price: int
    """Of the whole set [hundredths of the currency]."""
    currency: str
    """ISO 4217 code."""
    packs: tuple[SetPack, ...]
    """What it holds, in the order of the table."""
    stock: int | None = None
    """Most of it that can be bought; None: any number."""

    @property
    def tubes(self) -> tuple[str, ...]:
        """Ids of the tubes that it holds, each once, in the order of the table."""
        return tuple(dict.fromkeys(pack.tube for pack in self.packs))
