"""Shared by the tests of the choice: random instances, and the exhaustive reference.

Fixtures return functions, because test folders are not packages that could import each other:
annotate them as ``Callable[[int | str], ChoiceInstance]`` and
``Callable[[ChoiceInstance], tuple[Palette, ...]]``.
"""

import random
from collections.abc import Callable
from itertools import combinations

import pytest
from tests.drawn_doubles import drawn_doubles

from fewtubes.selection.instance import ChoiceInstance, Palette

Sets = tuple[tuple[int, ...], ...]

MOST_TUBES_DRAWN = 10
"""Small enough to look at every palette: at most 2^10."""

MOST_SAMPLES_DRAWN = 12

BARE_PAPER_DRAWN = (0.0, 0.0, 0.0, 0.2)
"""How often a sample needs no tube, since bare paper has its colour; in a quarter of instances."""


@pytest.fixture(scope="session")
def random_instance() -> Callable[[int | str], ChoiceInstance]:
    """Return the maker of small random instances, one for each seed; every kind of demand."""
    return make_random_instance


@pytest.fixture(scope="session")
def exhaustive() -> Callable[[ChoiceInstance], tuple[Palette, ...]]:
    """Return the exhaustive search: all palettes that tie for best, ascending; none if infeasible.

    It shares nothing with the code it checks but the two value objects.
    """
    return search_exhaustively


def make_random_instance(seed: int | str) -> ChoiceInstance:
    """Draw an instance of at most 10 tubes and 12 samples.

    Owned and must-have tubes, tight and loose budgets, few and many tubes, least values in and
    out of reach, free tubes, samples out of reach, and few distinct numbers (so, ties).
    """
    rng = random.Random(seed)  # noqa: S311  # no secrets are drawn
    n = max(rng.randint(1, MOST_TUBES_DRAWN) for _ in range(2))  # the larger ones more often
    m = rng.randint(0, MOST_SAMPLES_DRAWN)
    role = [rng.choices(("owned", "must have", "free to choose"), (1, 1, 8))[0] for _ in range(n)]
    owned = frozenset(i for i in range(n) if role[i] == "owned")
    must_have = frozenset(i for i in range(n) if role[i] == "must have" and rng.random() < 0.5)
    highest = rng.choice((0, 1, 1, 2, 900))
    prices = tuple(0 if i in owned else rng.randint(0, highest) for i in range(n))
    heaviest = rng.choice((1, 3, 50))
    weights = tuple(rng.randint(1, heaviest) for _ in range(m))
    total = sum(weights)
    worst = rng.choice((1, 1, 2, 5))
    fades = tuple(rng.randint(1, worst) for _ in range(n))
    return ChoiceInstance(
        weights=weights,
        minimal_sets=_with_bare_paper(seed, tuple(_draw_minimal_sets(rng, n) for _ in range(m))),
        prices=prices,
        fades=fades,
        owned=owned,
        must_have=must_have,
        budget=rng.choice((sum(prices), rng.randint(0, sum(prices)), sum(prices) // 2)),
        most_tubes=rng.choice((n, rng.randint(0, n), rng.randint(2, 4))),
        least_value=rng.choice((0, 0, 0, total // 3, total // 2, rng.randint(0, total), total)),
        fading=_drawn_fading(seed, fades),
        terms=None,
        **drawn_doubles(seed, n, owned),
    )


def _drawn_fading(seed: int | str, fades: tuple[int, ...]) -> frozenset[int]:
    """Draw which tubes count as fading, by random numbers of their own.

    None, those from a category on, owned ones among them, or any, free of the categories.
    """
    rng = random.Random(f"fading {seed}")  # noqa: S311  # no secrets are drawn
    least = rng.choice((None, 1, 2, 3, 0))
    if least is None:
        return frozenset()
    if least == 0:
        return frozenset(i for i in range(len(fades)) if rng.random() < 0.5)
    return frozenset(i for i, fade in enumerate(fades) if fade > least)


def _with_bare_paper(seed: int | str, drawn: tuple[Sets, ...]) -> tuple[Sets, ...]:
    """Give some samples the empty set alone, by random numbers of their own."""
    rng = random.Random(f"bare paper {seed}")  # noqa: S311  # no secrets are drawn
    often = rng.choice(BARE_PAPER_DRAWN)
    return tuple(((),) if rng.random() < often else sets for sets in drawn)


def _draw_minimal_sets(rng: random.Random, n: int) -> tuple[tuple[int, ...], ...]:
    """Draw up to six sets of one to three of n tubes, none of which contains another."""
    drawn = {
        frozenset(rng.sample(range(n), min(n, rng.choices((1, 2, 3), (1, 4, 4))[0])))
        for _ in range(rng.randint(0, 6))
    }
    minimal = [r for r in drawn if not any(other < r for other in drawn)]
    return tuple(sorted(tuple(sorted(r)) for r in minimal))


def search_exhaustively(instance: ChoiceInstance) -> tuple[Palette, ...]:
    """Look at every palette, keep those that meet the demands, return the best-ranked ones."""
    others = sorted(set(range(len(instance.prices))) - instance.owned - instance.must_have)
    best: list[Palette] = []
    for size in range(len(others) + 1):
        for chosen in combinations(others, size):
            palette = _figures(instance, instance.must_have.union(chosen))
            if (
                palette.cost > instance.budget
                or len(palette.bought) > instance.most_tubes
                or palette.value < instance.least_value
                or _holds_a_double(instance, set(palette.bought))
            ):
                continue
            if best and palette.rank > best[0].rank:
                continue
            if best and palette.rank < best[0].rank:
                best.clear()
            best.append(palette)
    return tuple(sorted(best, key=lambda palette: palette.bought))


def _holds_a_double(instance: ChoiceInstance, bought: set[int]) -> bool:
    """Whether two tubes that are one paint are bought, or one that an owned tube makes."""
    chosen = bought - instance.must_have
    return any({a, b} <= bought and {a, b} & chosen for a, b in instance.alike) or any(
        owned in instance.owned and tube in chosen for owned, tube in instance.spare
    )


def _figures(instance: ChoiceInstance, bought: frozenset[int]) -> Palette:
    """Return the palette of the tubes bought, its figures counted the plain way."""
    held = bought | instance.owned
    covered = tuple(
        t for t, sets in enumerate(instance.minimal_sets) if any(set(r) <= held for r in sets)
    )
    fades = [instance.fades[i] for i in bought]
    return Palette(
        bought=tuple(sorted(bought)),
        covered=covered,
        value=sum(instance.weights[t] for t in covered),
        cost=sum(instance.prices[i] for i in bought),
        worst_fade=max(fades, default=0),
        fade_sum=sum(fades),
        fading=sum(i in instance.fading for i in bought),
    )
