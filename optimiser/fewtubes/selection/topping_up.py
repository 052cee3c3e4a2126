"""The cheapest purchase that reaches sums at sellers: those of free delivery and of least orders.

A tube may come from a dearer seller to that end, in more packs than are needed, and what nobody
needs may be bought besides. Tube after tube, every way to have it is put beside what was bought
before. Of those that come to the same sums only the cheapest is kept, and none that cannot stay
below the best cost known; since little can be gained by reaching a sum, few are left.
"""

from collections.abc import Sequence

from fewtubes.selection.terms import OUT_OF_REACH, Need, Terms
from fewtubes.selection.tube_packs import Supply, useful_count

__all__ = ["TooManyError", "cheapest_topped_up"]

MOST_STATES = 20_000
"""Purchases in part that are kept side by side."""

MOST_JOINED = 200_000
"""Purchases in part, times ways to have one more tube, that are looked through: in 0.1 s or so."""

MOST_SLACK = 1 << 20
"""Money beyond what the tubes cost at least, up to which sums are listed [hundredths]."""

Sums = tuple[int, ...]
"""What the goods come to at each seller of whom a sum is asked, up to that sum [hundredths]."""


class TooManyError(Exception):
    """There are too many ways to have the tubes for all of them to be kept."""


def cheapest_topped_up(
    terms: Terms,
    tubes: Sequence[tuple[Need, Sequence[Supply]]],
    *,
    spent: Sequence[int],
    targets: Sequence[int],
    least: Sequence[int],
    most: int | None,
    beside: tuple[frozenset[int], frozenset[int]],
) -> int | None:
    """Return the least that goods cost which hold the tubes and reach the targets.

    Parameters
    ----------
    terms
        What is on sale.
    tubes
        For each what is needed of it, and the packs that it may come in.
    spent
        On sets, by seller [hundredths of the currency].
    targets
        What the goods must come to at least, by seller [hundredths]; 0 where that does not matter.
    least
        What each tube costs at least [hundredths].
    most
        What the goods may cost at most [hundredths]; None for any money.
    beside
        The tubes and the sets that are not bought only to reach a target: the tubes because `tubes`
        has them, the sets because the number of each is settled.

    Returns
    -------
    The cost of the goods, sets included [hundredths]; None if it would be more than `most`.

    Raises
    ------
    TooManyError
        If more than `MOST_STATES` are to be kept, or more than `MOST_JOINED` to be looked through.
    """
    asked = [seller for seller, target in enumerate(targets) if target]
    goals = tuple(targets[seller] for seller in asked)
    enough = _money_enough(terms, sum(spent) + sum(least), targets)
    most = enough if most is None else min(most, enough)
    slack = most - sum(spent) - sum(least)
    if slack < 0:
        return None
    if slack > MOST_SLACK:
        raise TooManyError
    begun = tuple(min(spent[seller], goal) for seller, goal in zip(asked, goals, strict=True))
    states: dict[Sums, int] = {begun: sum(spent)}
    rest = sum(least)
    for (need, supplies), price in zip(tubes, least, strict=True):
        rest -= price
        options = _options(need, supplies, asked, goals, most=price + slack)
        states = _joined(states, options, goals, most=most - rest)
    return _filled_up(terms, states, asked, goals, most=most, beside=beside)


def _money_enough(terms: Terms, cost: int, targets: Sequence[int]) -> int:
    """Return what is enough to reach the targets, if they can be reached, beside a cost.

    One thing after the other can be added to what is cheapest until the targets are reached. The
    last one passes a target by no more than it adds: its price, or that of two.
    Where two cost less than one that is not so, and any money may be needed.
    """
    if any(pack.cost(2) < pack.price for pack in terms.packs):
        return OUT_OF_REACH
    prices = [max(p.price, p.cost(2)) for p in terms.packs] + [box.price for box in terms.sets]
    return cost + sum(targets) + sum(1 for t in targets if t) * max(prices, default=0)


def _options(
    need: Need, supplies: Sequence[Supply], asked: Sequence[int], goals: Sums, *, most: int
) -> dict[Sums, int]:
    """Return the least cost of having a tube by what that comes to where sums are asked."""
    none = tuple(0 for _ in asked)
    states: dict[tuple[int, int, Sums], int] = {(need.containers, need.amount, none): 0}
    for supply in supplies:
        place = asked.index(supply.seller) if supply.seller in asked else None
        enough = useful_count(
            need, containers=supply.containers, amount=supply.amount, stock=supply.stock, least=2
        )
        after = dict(states)
        for (containers, amount, sums), cost in states.items():
            count = 0
            while supply.stock is None or count < supply.stock:
                count += 1
                price = supply.cost(count)
                if (count > enough and (place is None or not price)) or count > enough + most:
                    break
                if cost + price > most:
                    if count > 1:
                        break
                    continue
                key = (
                    max(0, containers - count * supply.containers),
                    max(0, amount - count * supply.amount),
                    sums if place is None else _more(sums, place, price, goals),
                )
                if cost + price < after.get(key, most + 1):
                    after[key] = cost + price
            if len(after) > MOST_STATES:
                raise TooManyError
        states = after
    return {
        sums: cost for (containers, amount, sums), cost in states.items() if not containers + amount
    }


def _more(sums: Sums, place: int, price: int, goals: Sums) -> Sums:
    """Return sums with one of them raised by a price, up to its goal."""
    return (*sums[:place], min(sums[place] + price, goals[place]), *sums[place + 1 :])


def _joined(
    states: dict[Sums, int], options: dict[Sums, int], goals: Sums, *, most: int
) -> dict[Sums, int]:
    """Return what was bought so far with each way to have one more tube, none dearer than most."""
    if len(states) * len(options) > MOST_JOINED:
        raise TooManyError
    joined: dict[Sums, int] = {}
    for sums, cost in states.items():
        for more, price in options.items():
            if cost + price > most:
                continue
            key = tuple(min(a + b, goal) for a, b, goal in zip(sums, more, goals, strict=True))
            if cost + price < joined.get(key, most + 1):
                joined[key] = cost + price
        if len(joined) > MOST_STATES:
            raise TooManyError
    return joined


def _filled_up(
    terms: Terms,
    states: dict[Sums, int],
    asked: Sequence[int],
    goals: Sums,
    *,
    most: int,
    beside: tuple[frozenset[int], frozenset[int]],
) -> int | None:
    """Return the least cost once whatever is needed to reach the goals is bought besides."""
    if not states:
        return None
    spare = most - min(states.values())
    sums_at = [_fillings(terms, seller, beside, spare) for seller in asked]
    best: int | None = None
    for sums, cost in states.items():
        total = cost
        for have, goal, fillings in zip(sums, goals, sums_at, strict=True):
            beyond = fillings >> (goal - have)
            if not beyond:
                break
            total += goal - have + (beyond & -beyond).bit_length() - 1
        else:
            if total <= most and (best is None or total < best):
                best = total
    return best


def _fillings(
    terms: Terms, seller: int, beside: tuple[frozenset[int], frozenset[int]], most: int
) -> int:
    """Return as bits which sums, up to `most`, other goods of a seller can come to."""
    tubes, sets = beside
    mask, sums = (1 << (most + 1)) - 1, 1
    things = [
        (pack.price, pack.cost(2), pack.stock)
        for pack in terms.packs
        if pack.seller == seller and pack.tube not in tubes
    ] + [
        (box.price, 2 * box.price, box.stock)
        for number, box in enumerate(terms.sets)
        if box.seller == seller and number not in sets
    ]
    for price, two, stock in things:
        if not price and not two:
            continue
        with_it, count = sums, 1
        while count <= most + 1 and (stock is None or count <= stock):
            cost = price if count == 1 else two // 2 * count
            if cost <= most:
                with_it |= sums << cost & mask
            elif count > 1:
                break
            count += 1
        sums = with_it
    return sums
