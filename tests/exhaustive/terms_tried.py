"""Small choices under drawn terms, and every palette there is with all purchases for it.

Nothing of the code under test is used but its records: what a palette covers and costs is counted
here, from lists of all purchases (`tests.drawn_terms`).
"""

import random
from dataclasses import dataclass, replace
from itertools import combinations

from tests.drawn_doubles import drawn_doubles
from tests.drawn_terms import AllPurchases, draw_terms, needs_by_palette

from fewtubes.selection.instance import ChoiceInstance, Palette
from fewtubes.selection.terms import OUT_OF_REACH
from fewtubes.selection.tube_packs import least_prices

__all__ = ["Tried", "all_palettes", "draw_choice"]

LEAST_TUBES, MOST_TUBES = 4, 7

MOST_SAMPLES = 10

SHARE_BY_PALETTE = 0.25
"""Share of choices in which the need of paint depends on the palette."""


@dataclass(frozen=True, eq=False)
class Tried:
    """A choice, and all palettes that meet its demands but for budget, number and least value."""

    instance: ChoiceInstance
    palettes: tuple[Palette, ...]

    def allowed(self, instance: ChoiceInstance) -> list[Palette]:
        """Return the palettes that meet budget, number and least value."""
        return [
            palette
            for palette in self.palettes
            if palette.cost <= instance.budget
            and len(palette.bought) <= instance.most_tubes
            and palette.value >= instance.least_value
        ]

    @property
    def best(self) -> tuple[Palette, ...]:
        """All palettes that rank first, by tubes; none if the demands cannot be met."""
        allowed = self.allowed(self.instance)
        first = min((palette.rank for palette in allowed), default=())
        return tuple(sorted((p for p in allowed if p.rank == first), key=lambda p: p.bought))


def draw_choice(
    seed: int, *, by_palette: float = SHARE_BY_PALETTE, must_have: float = 0.05
) -> Tried:
    """Draw a choice of four to seven tubes under terms, and try everything.

    Parameters
    ----------
    seed
        Of the drawing.
    by_palette, must_have
        How often the need of paint depends on the palette, and a tube must be bought [0–1].
    """
    rng = random.Random(f"choice {seed}")  # noqa: S311  # no secrets are drawn
    n, m = rng.randint(LEAST_TUBES, MOST_TUBES), rng.randint(1, MOST_SAMPLES)
    terms = draw_terms(seed, n)
    if rng.random() < by_palette:
        terms = replace(terms, needs_of=needs_by_palette(terms.needs))
    owned = frozenset(i for i in range(n) if rng.random() < 0.1)
    fades = tuple(rng.randint(1, rng.choice((1, 2, 5))) for _ in range(n))
    weights = tuple(rng.randint(1, rng.choice((1, 9))) for _ in range(m))
    prices = least_prices(terms)
    known = [price for price in prices if price < OUT_OF_REACH]
    instance = ChoiceInstance(
        weights=weights,
        minimal_sets=tuple(_sets(rng, n) for _ in range(m)),
        prices=tuple(0 if i in owned else price for i, price in enumerate(prices)),
        fades=fades,
        owned=owned,
        must_have=frozenset(i for i in range(n) if i not in owned and rng.random() < must_have),
        budget=rng.randint(0, 2 * sum(known) + 1),
        most_tubes=rng.choice((n, n, rng.randint(1, n))),
        least_value=rng.choice((0, 0, 0, sum(weights) // 2)),
        fading=frozenset(i for i in range(n) if fades[i] > 2),
        terms=terms,
        **drawn_doubles(seed, n, owned),
    )
    return Tried(instance, all_palettes(instance))


def all_palettes(instance: ChoiceInstance) -> tuple[Palette, ...]:
    """Return every palette of a choice under terms but for budget, number and least value."""
    assert instance.terms is not None
    return tuple(_palettes(instance, AllPurchases.under(instance.terms)))


def _sets(rng: random.Random, n: int) -> tuple[tuple[int, ...], ...]:
    """Draw up to five sets of one to three tubes, none of which holds another."""
    drawn = {
        frozenset(rng.sample(range(n), rng.choice((1, 2, 2, 3)))) for _ in range(rng.randint(1, 5))
    }
    return tuple(sorted(tuple(sorted(r)) for r in drawn if not any(other < r for other in drawn)))


def _palettes(instance: ChoiceInstance, purchases: AllPurchases) -> list[Palette]:
    """Return all palettes that can be had."""
    others = sorted(set(range(len(instance.fades))) - instance.owned - instance.must_have)
    found = []
    for size in range(len(others) + 1):
        for chosen in combinations(others, size):
            bought = tuple(sorted(instance.must_have.union(chosen)))
            cost = purchases.least_cost(bought)
            if cost is None or _holds_a_double(instance, set(bought)):
                continue
            covered = _covered(instance, set(bought))
            if purchases.terms.needs_of is not None and any(
                _covered(instance, set(bought) - {tube}) == covered for tube in chosen
            ):
                continue  # where needs depend on the palette, a tube is there for a colour
            fades = [instance.fades[i] for i in bought]
            found.append(
                Palette(
                    bought=bought,
                    covered=covered,
                    value=sum(instance.weights[t] for t in covered),
                    cost=cost,
                    worst_fade=max(fades, default=0),
                    fade_sum=sum(fades),
                    fading=sum(i in instance.fading for i in bought),
                )
            )
    return found


def _covered(instance: ChoiceInstance, bought: set[int]) -> tuple[int, ...]:
    held = bought | instance.owned
    return tuple(
        t for t, sets in enumerate(instance.minimal_sets) if any(held.issuperset(r) for r in sets)
    )


def _holds_a_double(instance: ChoiceInstance, bought: set[int]) -> bool:
    """Whether two tubes that are one paint are bought, or one that an owned tube makes."""
    chosen = bought - instance.must_have
    return any({a, b} <= bought and {a, b} & chosen for a, b in instance.alike) or any(
        owned in instance.owned and tube in chosen for owned, tube in instance.spare
    )
