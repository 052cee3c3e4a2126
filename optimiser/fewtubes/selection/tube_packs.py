"""The cheapest way to have what is needed of one tube, and the price below which no palette has it.

Each tube by itself: postage and least orders, which concern whole purchases, are left out here.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from fewtubes.selection.terms import OUT_OF_REACH, Need, Terms

__all__ = ["Supply", "cheapest_cover", "least_prices", "packs_of", "set_shares", "useful_count"]


@dataclass(frozen=True)
class Supply:
    """One thing on sale that holds paint of a tube."""

    seller: int
    containers: int
    amount: int
    """What these hold together [thousandths of a millilitre]."""
    price: int
    """Price if one of it is bought [hundredths of the currency]."""
    price_of_more: int
    """Price of each if two or more are [hundredths]."""
    stock: int | None

    def cost(self, count: int) -> int:
        """Return what so many cost together [hundredths]."""
        return self.price if count == 1 else self.price_of_more * count


def packs_of(terms: Terms) -> tuple[tuple[Supply, ...], ...]:
    """Return the packs on sale of each tube."""
    packs: list[list[Supply]] = [[] for _ in terms.needs]
    for pack in terms.packs:
        several = pack.price if pack.price_of_more is None else pack.price_of_more
        supply = Supply(pack.seller, 1, pack.amount, pack.price, several, pack.stock)
        packs[pack.tube].append(supply)
    return tuple(map(tuple, packs))


def useful_count(
    need: Need, *, containers: int, amount: int, stock: int | None, least: int = 0
) -> int:
    """Return how many of a thing meet a need alone, at least so many, or as many as there are."""
    most = least
    if containers:
        most = max(most, -(-need.containers // containers))
    if amount:
        most = max(most, -(-need.amount // amount))
    return most if stock is None else min(most, stock)


def cheapest_cover(
    supplies: Sequence[Supply], need: Need
) -> tuple[int, tuple[tuple[int, int], ...]] | None:
    """Return the least cost that meets a need, and what of it is paid to which seller.

    None if the stock is too small. Of equally cheap ways always the same one is told.

    Notes
    -----
    Supplies are taken one after the other; for what is still needed the cheapest way to come there
    is kept. What cannot end cheaper than the best way found, since the supplies still to come ask
    at least so much for each container and for each millilitre, is dropped: without that a class of
    hundreds with packs of three sizes took a minute.
    """
    if need.containers <= 0 and need.amount <= 0:
        return 0, ()
    left: dict[tuple[int, int], tuple[int, tuple[tuple[int, int], ...]]]
    left = {(max(0, need.containers), max(0, need.amount)): (0, ())}
    best: tuple[int, tuple[tuple[int, int], ...]] | None = None
    worth = _worth_having(supplies, need)
    floors = [_Floors.of(worth[number:]) for number in range(len(worth) + 1)]
    for supply, still, others in zip(worth, floors[:-1], floors[1:], strict=True):
        if best is not None:
            left = {
                key: found
                for key, found in left.items()
                if found[0] + still.least_cost(*key) < best[0]
            }
        after = dict(left)
        for (containers, amount), (cost, paid) in left.items():
            rest = Need(amount, containers)
            for count in range(1, _useful(supply, rest) + 1):
                total = cost + supply.cost(count)
                key = (
                    max(0, containers - count * supply.containers),
                    max(0, amount - count * supply.amount),
                )
                if best is not None and total + others.least_cost(*key) >= best[0]:
                    continue
                if key != (0, 0) and key in after and total >= after[key][0]:
                    continue
                found = total, (*paid, (supply.seller, supply.cost(count)))
                if key == (0, 0):
                    best = found
                else:
                    after[key] = found
        left = after
    return best


@dataclass(frozen=True)
class _Floors:
    """What containers and paint cost at least, as a price and how much there is for it."""

    containers: tuple[int, int]
    amount: tuple[int, int]

    @classmethod
    def of(cls, supplies: Sequence[Supply]) -> "_Floors":
        """Return what any of some supplies ask at least; what none holds is out of reach."""
        return cls(
            _least_ratio([(s.containers, min(s.price, s.price_of_more)) for s in supplies]),
            _least_ratio([(s.amount, min(s.price, s.price_of_more)) for s in supplies]),
        )

    def least_cost(self, containers: int, amount: int) -> int:
        """Return what no way to have so many containers and so much paint costs less than."""
        of_containers, of_amount = self.containers, self.amount
        return max(
            -(-containers * of_containers[0] // of_containers[1]),
            -(-amount * of_amount[0] // of_amount[1]),
        )


def _least_ratio(held_at: Sequence[tuple[int, int]]) -> tuple[int, int]:
    """Return the price and what is held at it where that is least for each."""
    least, most = OUT_OF_REACH, 1
    for held, price in held_at:
        if price * most < least * held:
            least, most = price, held
    return least, most


def _useful(supply: Supply, need: Need) -> int:
    """Return how many of a supply may be of use; two may cost less than one."""
    return useful_count(
        need, containers=supply.containers, amount=supply.amount, stock=supply.stock, least=2
    )


def _worth_having(supplies: Sequence[Supply], need: Need) -> list[Supply]:
    """Return the supplies without those of which another holds as much and is no dearer."""
    kept: list[Supply] = []
    for supply in sorted(supplies, key=lambda s: (s.price_of_more, s.price, -s.amount)):
        if not any(_replaces(other, supply, need) for other in kept):
            kept.append(supply)
    return kept


def _replaces(other: Supply, supply: Supply, need: Need) -> bool:
    """Whether any number of a supply may as well be so many of another, whatever else is bought."""
    most = useful_count(need, containers=other.containers, amount=other.amount, stock=None, least=2)
    return (
        (other.stock is None or other.stock >= most)
        and other.price_of_more <= other.price <= min(supply.price, supply.price_of_more)
        and other.containers >= supply.containers
        and other.amount >= min(supply.amount, need.amount)
    )


def least_prices(terms: Terms) -> tuple[int, ...]:
    """Return for each tube a price below which no palette has it; `OUT_OF_REACH` if none can.

    No purchase for any palette costs less than these prices together, so they serve as
    `ChoiceInstance.prices`; there owned tubes cost 0, and those ruled out more than the budget.

    Notes
    -----
    The price of a set is split among the tubes that it holds, after the cheapest pack of each. Of
    a purchase, a palette's tubes are then paid for by the packs and by their shares of the sets,
    and all shares of a set together are no more than its price. Tubes that are ruled out or owned
    had better not be among those a set `holds`, so that the others bear its whole price.
    """
    packs = packs_of(terms)
    shares = tuple(set_shares(terms, packs))
    found = []
    for tube, need in enumerate(terms.needs):
        cover = cheapest_cover([*packs[tube], *(s for t, s in shares if t == tube)], need)
        found.append(OUT_OF_REACH if cover is None else cover[0])
    return tuple(found)


def set_shares(terms: Terms, packs: Sequence[Sequence[Supply]]) -> Iterator[tuple[int, Supply]]:
    """Yield what each set holds of each tube, at a share of its price."""
    for box in terms.sets:
        single = [
            min((min(s.price, s.price_of_more) for s in packs[tube]), default=0)
            for tube, _, _ in box.holds
        ]
        dearest = max(single, default=0) or 1
        weights = [price or dearest for price in single]
        for (tube, containers, amount), weight in zip(box.holds, weights, strict=True):
            price = box.price * weight // sum(weights)
            yield tube, Supply(box.seller, containers, amount, price, price, box.stock)
