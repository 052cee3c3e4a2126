"""The choice of tubes as pure combinatorics: no colours, only sets, weights and prices.

All numbers are integers, so that two exact methods agree to the last unit and ties are ties.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from fewtubes.selection.purchase_cost import cheapest_cost, cost_within
from fewtubes.selection.terms import OUT_OF_REACH, Terms

__all__ = ["ChoiceInstance", "Palette"]


@dataclass(frozen=True)
class ChoiceInstance:
    """One instance of the choice.

    Tubes are numbered 0 … n−1 and samples (the colours to be covered) 0 … m−1.

    Parameters
    ----------
    weights
        Importance of each sample, integers > 0, length m.
    minimal_sets
        For each sample the tube sets that cover it, as sorted tuples of one to three tube numbers;
        no set contains another of the same sample; length m. Owned tubes appear in them like any
        other. A sample that needs no tube, since the paper left bare has its colour, has the empty
        set alone, ``((),)``.
    prices
        Price of each tube [hundredths of the currency], ≥ 0; owned tubes cost 0; length n. With
        `terms` no palette costs less than the sum of its tubes' prices
        (`fewtubes.selection.tube_packs.least_prices`), but it may well cost more.
    fades
        Lightfastness category of each tube, 1 (best) – 5; length n.
    owned
        Tubes already in the box: always in the palette, free, not counted.
    must_have
        Tubes that must be bought (not owned ones).
    budget
        Largest total price.
    most_tubes
        Largest number of tubes bought.
    least_value
        Covered weight that must be reached.
    fading
        Tubes of which as few as may be are bought, whatever they cost: those that fade. Empty where
        the price goes before.
    alike
        Pairs of tubes, the lower number first, that are not bought together: one paint, of which
        water makes either strength that is needed. Must-have ones are bought all the same.
    spare
        An owned tube and one that is not bought beside it, since water makes it of the owned one.
    terms
        What is on sale where, if the cost of a palette is no sum of prices; else None.
    """

    weights: tuple[int, ...]
    minimal_sets: tuple[tuple[tuple[int, ...], ...], ...]
    prices: tuple[int, ...]
    fades: tuple[int, ...]
    owned: frozenset[int]
    must_have: frozenset[int]
    budget: int
    most_tubes: int
    least_value: int = 0
    fading: frozenset[int] = frozenset()
    alike: frozenset[tuple[int, int]] = frozenset()
    spare: frozenset[tuple[int, int]] = frozenset()
    terms: Terms | None = None

    @property
    def any_money(self) -> int:
        """A budget that is no limit: no palette that can be had costs more [hundredths]."""
        return sum(self.prices) if self.terms is None else OUT_OF_REACH - 1

    def cost(self, bought: Iterable[int]) -> int:
        """Return what tubes cost together, owned ones nothing [hundredths of the currency].

        With terms it is the cost of the cheapest purchase that holds what is needed of each of
        them, deliveries included; `OUT_OF_REACH` if there is none.
        """
        chosen = tuple(sorted(set(bought) - self.owned))
        if self.terms is None:
            return sum(self.prices[i] for i in chosen)
        cost = cheapest_cost(self.terms, chosen)
        return OUT_OF_REACH if cost is None else cost

    def cost_within(self, bought: Iterable[int], money: int) -> int | None:
        """Return the same if it is no more than some money, else None; mostly sooner."""
        if self.terms is None:
            cost = self.cost(bought)
            return cost if cost <= money else None
        return cost_within(self.terms, tuple(sorted(set(bought) - self.owned)), money)

    @property
    def must_serve(self) -> bool:
        """Whether a tube is bought only if some colour is out of reach without it.

        So it is where the paint needed depends on the palette. Everywhere else a tube too many is
        never cheaper, so that the best palette has none in any case; here one might be, and for
        the sake of a little paint saved nobody should buy a tube that reaches nothing.
        """
        return self.terms is not None and self.terms.needs_of is not None

    def idle_in(self, bought: Iterable[int]) -> bool:
        """Whether tubes bought, but for must-have ones, hold one that could stay away at no loss.

        Told only where that matters (`must_serve`).
        """
        if not self.must_serve:
            return False
        held = frozenset(bought)
        covered = self.covered(held)
        return any(self.covered(held - {tube}) == covered for tube in held - self.must_have)

    @property
    def ruled_out(self) -> frozenset[int]:
        """The tubes that are not bought because of an owned one."""
        beside = {tube for owned, tube in self.spare if owned in self.owned}
        return frozenset(beside - self.owned - self.must_have)

    @property
    def doubles(self) -> bool:
        """Whether any tube may not be bought for the sake of another."""
        return bool(self.ruled_out or self.not_together)

    @property
    def not_together(self) -> frozenset[tuple[int, int]]:
        """The pairs of which no palette may buy both."""
        return frozenset(
            pair
            for pair in self.alike
            if self.owned.isdisjoint(pair) and not self.must_have.issuperset(pair)
        )

    def doubles_in(self, bought: Iterable[int]) -> bool:
        """Whether tubes bought hold a double: two of which water makes one from the other."""
        held = frozenset(bought)
        return not self.ruled_out.isdisjoint(held) or any(
            held.issuperset(pair) for pair in self.not_together
        )

    @property
    def tube_count(self) -> int:
        """The number of tubes n."""
        return len(self.prices)

    def covered(self, palette: Sequence[int] | frozenset[int]) -> tuple[int, ...]:
        """Return the samples covered by tubes bought (owned ones are added), ascending."""
        held = self.owned.union(palette)
        return tuple(
            t for t, sets in enumerate(self.minimal_sets) if any(map(held.issuperset, sets))
        )

    def value(self, bought: Iterable[int]) -> int:
        """Return the weight covered by tubes bought, without asking what they cost.

        Where paint depends on the palette that is the quicker by far: nothing need be mixed.
        """
        return sum(self.weights[t] for t in self.covered(frozenset(bought)))

    def palette(self, bought: Sequence[int] | frozenset[int]) -> "Palette":
        """Return the palette of the tubes bought, with its figures."""
        chosen = tuple(sorted(set(bought) - self.owned))
        covered = self.covered(chosen)
        return Palette(
            bought=chosen,
            covered=covered,
            value=sum(self.weights[t] for t in covered),
            cost=self.cost(chosen),
            worst_fade=max((self.fades[i] for i in chosen), default=0),
            fade_sum=sum(self.fades[i] for i in chosen),
            fading=len(self.fading.intersection(chosen)),
        )


@dataclass(frozen=True)
class Palette:
    """Tubes bought, ascending, with the figures the choice is ranked by."""

    bought: tuple[int, ...]
    covered: tuple[int, ...]
    value: int
    cost: int
    worst_fade: int
    """Worst lightfastness category among the tubes bought; 0 if none."""
    fade_sum: int
    fading: int = 0
    """Tubes bought of those that the instance calls fading."""

    @property
    def rank(self) -> tuple[int, int, int, int, int, int]:
        """Smaller is better.

        Value (largest first), tubes, fading ones, cost, worst and summed category.
        """
        return (
            -self.value,
            len(self.bought),
            self.fading,
            self.cost,
            self.worst_fade,
            self.fade_sum,
        )
