"""The bound by the paint that pictures take, against every palette with all purchases for it.

Small choices under drawn terms in which each colour is painted from some set of the palette's
tubes, drawn, and takes drawn amounts of each: needs depend on the palette as they do where pictures
are planned. What colours take at least is told to the search from the first branch on.
"""

import random
from dataclasses import dataclass, replace
from functools import cache, cached_property
from itertools import combinations

import numpy as np
import pytest
from tests.exhaustive.terms_tried import all_palettes, draw_choice

from fewtubes.selection.explore import explore
from fewtubes.selection.instance import ChoiceInstance, Palette
from fewtubes.selection.least_paint import UNITS, UNREACHED, LeastPaint
from fewtubes.selection.search import search, start_search
from fewtubes.selection.search_state import Goal
from fewtubes.selection.terms import Need
from fewtubes.selection.tube_packs import packs_of, set_shares

CHOICES = range(25)


@dataclass(frozen=True, eq=False)
class Painted:
    """What colours take of tubes: amounts by set and colour, and which set is taken."""

    instance: ChoiceInstance
    seed: int

    @cached_property
    def sets(self) -> list[tuple[int, ...]]:
        """All sets of up to three tubes."""
        return [
            some
            for size in (1, 2, 3)
            for some in combinations(range(self.instance.tube_count), size)
        ]

    def amounts(self, some: tuple[int, ...], t: int) -> list[int]:
        """Return thousandths of a millilitre of each tube of a set."""
        rng = random.Random(f"paint {self.seed} {some} {t}")  # noqa: S311  # no secrets are drawn
        return [rng.choice((0, 300, 1000, 2500)) for _ in some]

    def reaching(self, held: frozenset[int], t: int) -> list[tuple[int, ...]]:
        """Return the sets of tubes held that reach a colour."""
        minimal = self.instance.minimal_sets[t]
        return [
            some
            for some in self.sets
            if held.issuperset(some) and any(set(some).issuperset(one) for one in minimal)
        ]

    def needs_of(self, bought: tuple[int, ...]) -> tuple[Need, ...]:
        """Return what is needed: every colour covered from one of the sets that reach it."""
        terms = self.instance.terms
        assert terms is not None
        held = self.instance.owned.union(bought)
        amounts = dict.fromkeys(range(self.instance.tube_count), 0)
        for t in range(len(self.instance.weights)):
            possible = self.reaching(held, t)
            if possible:
                some = random.Random(f"{self.seed} {bought} {t}").choice(possible)  # noqa: S311
                for tube, amount in zip(some, self.amounts(some, t), strict=True):
                    amounts[tube] += amount
        return tuple(
            Need(max(terms.needs[i].amount, amounts[i]), terms.needs[i].containers) for i in bought
        )

    @property
    def least(self) -> LeastPaint:
        """The table, each tube at the lowest price of anything that holds it."""
        terms = self.instance.terms
        assert terms is not None
        packs = packs_of(terms)
        rates = [0.0 if i in self.instance.owned else np.inf for i in range(len(packs))]
        supplies = [(tube, one) for tube, some in enumerate(packs) for one in some]
        for tube, one in [*supplies, *set_shares(terms, packs)]:
            rates[tube] = min(rates[tube], min(one.price, one.price_of_more) / one.amount)
        costs = np.full((len(self.sets), len(self.instance.weights)), UNREACHED, dtype=np.int32)
        everything = frozenset(range(self.instance.tube_count))
        for t in range(len(self.instance.weights)):
            for some in self.reaching(everything, t):
                amounts = self.amounts(some, t)
                taken = [(rates[i], a) for i, a in zip(some, amounts, strict=True) if a]
                total = sum(rate * amount for rate, amount in taken) * UNITS * (1 - 1e-9)
                costs[self.sets.index(some), t] = min(total, UNREACHED - 1)
        padded = [(*some, *[some[-1]] * (3 - len(some))) for some in self.sets]
        return LeastPaint(np.array(padded, dtype=np.intp), costs, self.instance.tube_count)


@cache
def painted(seed: int) -> tuple[ChoiceInstance, LeastPaint]:
    """Return a drawn choice in which pictures are painted, and what its colours take at least."""
    plain = draw_choice(seed, by_palette=0.0).instance
    assert plain.terms is not None
    paint = Painted(plain, seed)
    least = paint.least
    terms = replace(plain.terms, needs_of=cache(paint.needs_of), least_paint=lambda _until: least)
    return replace(plain, terms=terms), least


@cache
def palettes_of(seed: int) -> tuple[Palette, ...]:
    return all_palettes(painted(seed)[0])


@pytest.fixture(params=[0, 3], ids=["bounded to the end", "the last three tried"])
def last_tubes(request: pytest.FixtureRequest, monkeypatch: pytest.MonkeyPatch) -> None:
    """Set how many of the last tubes are tried outright, so that small choices are bounded too."""
    monkeypatch.setattr("fewtubes.selection.explore.LAST_TUBES", request.param)


@pytest.mark.usefixtures("last_tubes")
def test_the_best_is_found_and_proven() -> None:
    """Of every palette with all purchases for it."""
    found = 0
    for seed in CHOICES:
        instance, _ = painted(seed)
        allowed = [
            palette
            for palette in palettes_of(seed)
            if palette.cost <= instance.budget
            and len(palette.bought) <= instance.most_tubes
            and palette.value >= instance.least_value
        ]
        first = min((palette.rank for palette in allowed), default=())
        best = tuple(sorted((p for p in allowed if p.rank == first), key=lambda p: p.bought))
        choice = search(instance, seconds=60)
        assert choice.palettes == best, seed
        assert choice.complete
        found += bool(best and best[0].bought)
    assert found > len(CHOICES) // 3


@pytest.mark.usefixtures("last_tubes")
def test_all_that_can_be_bought_is_visited() -> None:
    """Nothing that covers enough for the money is cut, whatever is sought."""
    cut = 0
    for seed in CHOICES:
        instance, least = painted(seed)
        palettes = [p for p in palettes_of(seed) if len(p.bought) <= instance.most_tubes]
        for palette in palettes:
            covered = np.isin(np.arange(len(instance.weights)), palette.covered)
            tubes = np.array([sorted(instance.owned.union(palette.bought))], dtype=np.int64)
            floor = int(least.of_palettes(tubes, covered[None])[0])
            assert floor <= palette.cost * UNITS + instance.tube_count
            cut += floor > instance.budget * UNITS + instance.tube_count
        sought = sorted({palette.value for palette in palettes})[-1:]
        for value in sought:
            state = start_search(instance, seconds=60)
            visited: list[tuple[int, ...]] = []

            def visit(
                added: tuple[int, ...],
                _value: int,
                _cost: int,
                visited: list[tuple[int, ...]] = visited,
            ) -> None:
                visited.append(added)

            slots = instance.most_tubes - len(instance.must_have)
            explore(state, Goal(value, slots, instance.budget), visit)
            wanted = {
                tuple(sorted(set(p.bought) - instance.must_have))
                for p in palettes
                if p.value >= value and p.cost <= instance.budget
            }
            assert wanted <= set(visited), seed
    assert cut > 0


def test_branches_take_no_less_than_any_palette_of_theirs() -> None:
    """π_t is the least over all sets of the tubes allowed; one by one, in plain code."""
    for seed in CHOICES:
        instance, least = painted(seed)
        rng = np.random.default_rng(seed)
        allowed = rng.random((20, instance.tube_count)) < 0.6
        told = least.of_samples(allowed)
        for row, tubes in enumerate(allowed):
            usable = [k for k, some in enumerate(least.sets) if tubes[some].all()]
            reached = least.costs[usable].min(axis=0, initial=UNREACHED)
            assert told[row].tolist() == np.where(reached < UNREACHED, reached, 0).tolist()
