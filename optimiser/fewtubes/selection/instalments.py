"""Buying bit by bit as pure combinatorics: one palette a time, each holding the one before.

All numbers are whole, as in `fewtubes.selection.instance`, so that equal is equal.
"""

import itertools
from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from functools import cached_property

from fewtubes.selection.certificate import Certificate
from fewtubes.selection.instalment_schedule import Schedule
from fewtubes.selection.instalment_stocks import within_stock
from fewtubes.selection.instance import ChoiceInstance, Palette
from fewtubes.selection.purchase import holds
from fewtubes.selection.terms import Purchase, Terms

__all__ = ["BuyingOrder", "InstalmentChoice", "InstalmentInstance", "parts_well"]


@dataclass(frozen=True)
class InstalmentInstance:
    """What can be bought, at how many times, with how much money.

    Parameters
    ----------
    instance
        The choice at the last time: its budget is all the money. Tubes that must be had, the
        largest number of tubes and the least value are demands on what is held in the end.
    money
        What may have been spent up to each time [hundredths of the currency], ascending; what is
        left over is carried on. The last is the instance's budget.
    importances
        How much coverage at each time counts, whole numbers > 0.
    """

    instance: ChoiceInstance
    money: tuple[int, ...]
    importances: tuple[int, ...]

    def __post_init__(self) -> None:
        if not self.money or len(self.money) != len(self.importances):
            raise ValueError("each time has its money and its importance")
        if min(self.importances) < 1 or list(self.money) != sorted(self.money):
            raise ValueError("importances are greater than 0, and money is never taken back")
        if self.instance.terms is not None and not parts_well(self.instance.terms):
            raise ValueError("terms under which buying in parts may be cheaper are not looked at")
        if self.money[-1] != self.instance.budget:
            raise ValueError("the budget of the instance is all the money")

    @property
    def times(self) -> int:
        """How many times something can be bought."""
        return len(self.money)

    def alone(self, time: int) -> ChoiceInstance:
        """Return the choice of one time by itself, as if nothing were bought before or after."""
        return self.instance if time == self.times - 1 else self.without_demands(self.money[time])

    def without_demands(self, money: int) -> ChoiceInstance:
        """Return the choice with this money, free of what is demanded in the end alone.

        Doubles that must be had may be bought, whether they must be yet or not.
        """
        known = self.instance
        return replace(
            known,
            must_have=frozenset(),
            least_value=0,
            budget=money,
            alike=known.not_together,
            spare=frozenset(pair for pair in known.spare if pair[1] not in known.must_have),
        )

    def weighted(self, values: Sequence[int]) -> int:
        """Return the sum of the values at each time, each times its importance."""
        return sum(k * value for k, value in zip(self.importances, values, strict=True))

    def order(self, palettes: Sequence[Sequence[int] | frozenset[int]]) -> "BuyingOrder":
        """Return the order of buying with its figures, all of them counted anew.

        Parameters
        ----------
        palettes
            Tubes bought up to each time.
        """
        counted = tuple(self.instance.palette(bought) for bought in palettes)
        return BuyingOrder(counted, self.weighted([palette.value for palette in counted]))

    def bought_as(self, schedule: Schedule) -> "BuyingOrder":
        """Return the order of buying of a schedule, with its figures; a matter of terms."""
        counted = tuple(
            replace(self.instance.palette(bought), cost=cost)
            for bought, cost in zip(schedule.path, schedule.costs, strict=True)
        )
        value = self.weighted([palette.value for palette in counted])
        return BuyingOrder(counted, value, schedule.purchases)

    def allows(self, order: "BuyingOrder") -> bool:
        """Return whether an order of buying meets every demand, in whole numbers."""
        held = [frozenset(palette.bought) for palette in order.palettes]
        last, known = order.palettes[-1], self.instance
        return (
            len(held) == self.times
            and all(sooner <= later for sooner, later in itertools.pairwise(held))
            and all(p.cost <= most for p, most in zip(order.palettes, self.money, strict=True))
            and known.must_have <= held[-1]
            and len(last.bought) <= known.most_tubes
            and last.value >= known.least_value
            and not known.doubles_in(last.bought)
        )

    def sells(self, order: "BuyingOrder") -> bool:
        """Return whether an order under terms can be bought as it says, and costs what it says."""
        terms = self.instance.terms
        return terms is not None and _sold(terms, order)


def parts_well(terms: Terms) -> bool:
    """Return whether no purchase parted among several times costs less than all of it at once.

    Notes
    -----
    What is bought of one seller at several times is bought at once for the same goods or less,
    since the price of each of several is no more than that of one; two are no cheaper than one, so
    the goods come to no less than at any of the times, and what was free of delivery, or met the
    least order, does so at once. It may not hold where two cost less than one, nor where the paint
    that is needed depends on the palette.
    """
    return terms.needs_of is None and all(
        pack.price_of_more is None or pack.price_of_more <= pack.price <= 2 * pack.price_of_more
        for pack in terms.packs
    )


def _sold(terms: Terms, order: "BuyingOrder") -> bool:
    """Return whether each time's purchase holds its new tubes and costs what is told."""
    held: tuple[int, ...] = ()
    spent = 0
    if len(order.purchases) != len(order.palettes):
        return False
    for palette, purchase in zip(order.palettes, order.purchases, strict=True):
        new = tuple(tube for tube in palette.bought if tube not in held)
        spent += purchase.cost
        if spent != palette.cost or not holds(terms, new, purchase):
            return False
        held = palette.bought
    return within_stock(terms, order.purchases)


@dataclass(frozen=True)
class BuyingOrder:
    """The palettes held from each time on, and what all of that is worth."""

    palettes: tuple[Palette, ...]
    """What each costs is what is spent by then; under terms that is no price of a palette."""
    value: int
    """Covered weight at each time, times its importance, summed."""
    purchases: tuple[Purchase, ...] = field(default=(), compare=False)
    """What is bought at each time under terms; none where prices add up."""

    @cached_property
    def rank(self) -> tuple[int | tuple[int, ...] | tuple[tuple[int, ...], ...], ...]:
        """Smaller is better.

        Weighted value (largest first); then of what is held in the end the number of tubes, of
        fading ones, cost, worst and summed category; then most value soonest, least money spent
        soonest; then the lowest numbers of tubes, so that of equal orders it is always the same
        one.
        """
        last = self.palettes[-1]
        return (
            -self.value,
            *last.rank[1:],
            tuple(-palette.value for palette in self.palettes),
            tuple(palette.cost for palette in self.palettes),
            tuple(palette.bought for palette in self.palettes),
        )


@dataclass(frozen=True)
class InstalmentChoice:
    """The best order of buying that was found, and what is known about it."""

    order: BuyingOrder | None
    """None if the demands cannot be met, or nothing that meets them was found in time."""
    certificate: Certificate
    """About the weighted value."""
    alone: tuple[Certificate, ...]
    """For each time, about the greatest value its money can buy at once, from nothing."""
