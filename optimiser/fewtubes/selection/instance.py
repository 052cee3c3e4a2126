"""The choice of tubes as pure combinatorics: no colours, only sets, weights and prices.

All numbers are integers, so that two exact methods agree to the last unit and ties are ties.
"""

from collections.abc import Sequence
from dataclasses import dataclass

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
        Price of each tube [hundredths of the currency], ≥ 0; owned tubes cost 0; length n.
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

    @property
    def tube_count(self) -> int:
        """The number of tubes n."""
        return len(self.prices)

    def covered(self, palette: Sequence[int] | frozenset[int]) -> tuple[int, ...]:
        """Return the samples covered by tubes bought (owned ones are added), ascending."""
        held = self.owned.union(palette)
        return tuple(
            t
            for t, sets in enumerate(self.minimal_sets)
            if any(held.issuperset(tubes) for tubes in sets)
        )

    def palette(self, bought: Sequence[int] | frozenset[int]) -> "Palette":
        """Return the palette of the tubes bought, with its figures."""
        chosen = tuple(sorted(set(bought) - self.owned))
        covered = self.covered(chosen)
        return Palette(
            bought=chosen,
            covered=covered,
            value=sum(self.weights[t] for t in covered),
            cost=sum(self.prices[i] for i in chosen),
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
