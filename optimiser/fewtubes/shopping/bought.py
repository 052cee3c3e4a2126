"""What is bought where for a palette, and what leaves the purse: packs, sets and deliveries."""

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum

from fewtubes.catalogue.records import Tube
from fewtubes.catalogue.sellers import Seller, TubeSet
from fewtubes.shopping.packs import Pack

__all__ = ["Bought", "BoughtPack", "BoughtSet", "Parcel", "Surplus", "by_seller_of"]


class Surplus(StrEnum):
    """Why something is bought, or lies in a set, that the palette does not need."""

    FREE_DELIVERY = "it makes the delivery free"
    LEAST_ORDER = "it meets the least order"
    CHEAPER = "so many cost no more than fewer"
    NO_USE = "the palette has no use for it"
    OWNED = "you have it already"
    REFUSED = "the wishes keep it out of use"


@dataclass(frozen=True, eq=False)
class BoughtPack:
    """So many packs of one offer of one tube."""

    tube: Tube
    """As in the catalogue."""
    pack: Pack
    """Content and price, and how many."""
    surplus: int = 0
    """How many of them the palette does not need."""
    why: Surplus | None = None
    """Why these are bought; None if there are none."""

    @property
    def idle(self) -> bool:
        """Whether the palette needs none of them."""
        return self.surplus == self.pack.count


@dataclass(frozen=True, eq=False)
class BoughtSet:
    """So many of one set."""

    tube_set: TubeSet
    """As in the price list."""
    count: int
    """How many of it, at least 1."""
    used: tuple[Tube, ...]
    """Tubes of the palette that it holds, in the order of its table."""
    idle: tuple[tuple[Tube, Surplus], ...]
    """The others, each with the reason why it lies idle."""

    @property
    def cost(self) -> int:
        """Price of all of them [hundredths of the currency]."""
        return self.count * self.tube_set.price


@dataclass(frozen=True, eq=False)
class Parcel:
    """What is bought of one seller."""

    seller: Seller | None
    """None where sellers are not told apart."""
    packs: tuple[BoughtPack, ...]
    """In the order of the catalogue's tubes."""
    sets: tuple[BoughtSet, ...]
    """In the order of the price list."""
    delivery: int
    """What the delivery costs [hundredths of the currency]."""

    @property
    def goods(self) -> int:
        """Price of packs and sets [hundredths of the currency]."""
        packs = sum(bought.pack.cost for bought in self.packs)
        return packs + sum(bought.cost for bought in self.sets)

    @property
    def cost(self) -> int:
        """Price of packs, sets and delivery [hundredths of the currency]."""
        return self.goods + self.delivery

    @property
    def delivered_free(self) -> bool:
        """Whether the delivery would cost something if the goods came to less."""
        return self.seller is not None and self.seller.delivery > 0 and not self.delivery


@dataclass(frozen=True, eq=False)
class Bought:
    """All that is bought for a palette."""

    parcels: tuple[Parcel, ...] = ()
    """In the order of the catalogue's sellers, of none last."""

    @property
    def cost(self) -> int:
        """What leaves the purse, deliveries included [hundredths of the currency]."""
        return sum(parcel.cost for parcel in self.parcels)

    @property
    def deliveries(self) -> int:
        """What all deliveries cost together [hundredths of the currency]."""
        return sum(parcel.delivery for parcel in self.parcels)

    @property
    def by_seller(self) -> bool:
        """Whether a list of it is parted by sellers: whether there is any, or any set."""
        return any(parcel.seller is not None or parcel.sets for parcel in self.parcels)

    def packs_of(self, tube: str) -> tuple[Pack, ...]:
        """Return the packs of a tube, by id, that are bought singly."""
        return tuple(
            bought.pack
            for parcel in self.parcels
            for bought in parcel.packs
            if bought.tube.id == tube
        )

    def sets_of(self, tube: str) -> tuple[BoughtSet, ...]:
        """Return the sets that bring a tube of the palette, by id."""
        return tuple(
            bought
            for parcel in self.parcels
            for bought in parcel.sets
            if any(used.id == tube for used in bought.used)
        )


def by_seller_of(
    sellers: Mapping[str, Seller], packs: Mapping[str, tuple[Pack, ...]], tubes: Mapping[str, Tube]
) -> Bought:
    """Return packs, parted by sellers who charge nothing but the price.

    Parameters
    ----------
    sellers
        By id.
    packs
        What is bought of each tube, by its id, in the order of the catalogue.
    tubes
        By id.
    """
    of: dict[str, list[BoughtPack]] = {}
    for id_, bought in packs.items():
        for pack in bought:
            of.setdefault(pack.offer.seller, []).append(BoughtPack(tubes[id_], pack))
    order = [id_ for id_ in (*sellers, "") if id_ in of]
    return Bought(tuple(Parcel(sellers.get(id_), tuple(of[id_]), (), 0) for id_ in order))
