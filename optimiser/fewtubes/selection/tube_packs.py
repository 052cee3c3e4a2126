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
    """
    if need.containers <= 0 and need.amount <= 0:
        return 0, ()
    left: dict[tuple[int, int], tuple[int, tuple[tuple[int, int], ...]]]
    left = {(max(0, need.containers), max(0, need.amount)): (0, ())}
    best: tuple[int, tuple[tuple[int, int], ...]] | None = None
    for supply in _worth_having(supplies, need):
        after = dict(left)
        for (containers, amount), (cost, paid) in left.items():
            rest = Need(amount, containers)
            for count in range(1, _useful(supply, rest) + 1):
                total = cost + supply.cost(count)
                if best is not None and total >= best[0]:
                    continue
                found = total, (*paid, (supply.seller, supply.cost(count)))
                key = (
                    max(0, containers - count * supply.containers),
                    max(0, amount - count * supply.amount),
                )
                if key == (0, 0):
                    best = found
                elif key not in after or total < after[key][0]:
                    after[key] = found
        left = after
    return best


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
