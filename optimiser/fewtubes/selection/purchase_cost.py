"""What the cheapest purchase for a palette costs, by addition wherever that is exact.

Addition tells what the ways of buying cost that reach what they must by themselves
(`fewtubes.selection.addition`). Only if a purchase that is made to reach such sums could be cheaper
than the best found, that is looked for (`fewtubes.selection.topping_up`). Where there are too many
ways, an integer program counts the cost instead (`fewtubes.selection.purchase_program`).
"""

from dataclasses import dataclass, field

from fewtubes.selection.addition import Added, AddedWay, Addition
from fewtubes.selection.purchase_program import solved_cost
from fewtubes.selection.terms import OUT_OF_REACH, Need, Terms
from fewtubes.selection.topping_up import TooManyError, cheapest_topped_up

__all__ = ["cheapest_cost", "cost_within"]

Costs = dict[tuple[int, ...], int | None]


def cheapest_cost(terms: Terms, bought: tuple[int, ...]) -> int | None:
    """Return what the cheapest purchase for tubes costs, deliveries included; it is remembered.

    Parameters
    ----------
    terms
        What is on sale.
    bought
        Tubes, ascending.

    Returns
    -------
    Hundredths of the currency; None if what is needed cannot be had.
    """
    return _till(terms).cost(bought) if bought else 0


def cost_within(terms: Terms, bought: tuple[int, ...], money: int) -> int | None:
    """Return what `cheapest_cost` does if it is no more than some money, else None.

    That it is more is mostly seen at once.
    """
    if not bought:
        return 0 if money >= 0 else None
    return _till(terms).cost_within(bought, money)


def _till(terms: Terms) -> "_Till":
    """Return the terms made ready; made once."""
    known = terms.worked_out.get("till")
    if isinstance(known, _Till):
        return known
    till = _Till(terms)
    terms.worked_out["till"] = till
    return till


@dataclass(eq=False)
class _Till:
    """Terms made ready, and the costs counted so far."""

    terms: Terms
    costs: Costs = field(default_factory=dict)
    begun: dict[tuple[int, ...], Added | None] = field(default_factory=dict)
    """Costs begun to be counted; None where there are too many ways."""
    beyond: dict[tuple[int, ...], int] = field(default_factory=dict)
    """What tubes cost at least, as far as counting them in vain has told."""
    addition: Addition = field(init=False)

    def __post_init__(self) -> None:
        self.addition = Addition.of(self.terms)

    def cost(self, bought: tuple[int, ...]) -> int | None:
        """Return the cost for tubes."""
        if bought not in self.costs:
            self.costs[bought] = self._counted(bought)
        return self.costs[bought]

    def cost_within(self, bought: tuple[int, ...], money: int) -> int | None:
        """Return the cost if it is no more than some money."""
        if bought in self.costs:
            cost = self.costs[bought]
            return None if cost is None or cost > money else cost
        if max(self.at_least(bought), self.beyond.get(bought, 0)) > money:
            return None
        cost = self._counted(bought, money)
        if cost is None or cost > money:
            self.beyond[bought] = money + 1
            return None
        self.costs[bought] = cost
        return cost

    def at_least(self, bought: tuple[int, ...]) -> int:
        """Return what tubes cost at least, as far as addition tells."""
        if bought in self.costs:
            cost = self.costs[bought]
            return OUT_OF_REACH if cost is None else cost
        if bought not in self.begun:
            self.begun[bought] = self.addition.added(bought)
        begun = self.begun[bought]
        return 0 if begun is None else begun.at_least

    def _counted(self, bought: tuple[int, ...], money: int | None = None) -> int | None:
        """Return the cost, or where it is more than some money, anything more or None."""
        if bought not in self.begun:
            self.begun[bought] = self.addition.added(bought)
        begun = self.begun[bought]
        try:
            if begun is not None:
                return self._topped_up(bought, begun, money)
        except TooManyError:
            pass
        return solved_cost(self.terms, bought, self.terms.needed(bought))

    def _topped_up(self, bought: tuple[int, ...], begun: Added, money: int | None) -> int | None:
        """Return the least cost, with ways tried that are made to reach the sums they need."""
        best = begun.best
        if money is not None and (best is None or best > money):
            best = money + 1  # what is no cheaper is not looked for
        for way in sorted(begun.unmet, key=lambda way: way.lower):
            if best is not None and way.lower >= best:
                break
            found = cheapest_topped_up(
                self.terms,
                [
                    (need, [s for s in self.addition.packs[tube] if way.sellers >> s.seller & 1])
                    for tube, need in zip(bought, way.left, strict=True)
                ],
                spent=way.spent,
                targets=way.targets,
                least=[
                    self._least(tube, need, way)
                    for tube, need in zip(bought, way.left, strict=True)
                ],
                most=None if best is None else best - 1 - way.paid,
                beside=(frozenset(bought), begun.sets),
            )
            if found is not None:
                best = found + way.paid
        return best

    def _least(self, tube: int, need: Need, way: AddedWay) -> int:
        cover = self.addition.cover(tube, need, way.sellers)
        assert cover is not None  # noqa: S101  # the way is one of those that supply it
        return cover[0]
