"""What a tube is worth, against trying every palette of small random instances."""

import random
from itertools import combinations

import pytest

from fewtubes.comparison.covered_weight import CoveredWeight
from fewtubes.comparison.stand_ins import best_swap, best_without
from fewtubes.selection.certificate import Status
from fewtubes.selection.instance import ChoiceInstance
from fewtubes.selection.search import search, start_search
from fewtubes.selection.terms import Need, PackOnSale, SellerTerms, Terms

SEEDS = range(120)


def make_instance(seed: int) -> ChoiceInstance:
    """Draw an instance of at most 9 tubes, with owned and must-have ones."""
    rng = random.Random(seed)  # noqa: S311  # no secrets are drawn
    n, m = rng.randint(3, 9), rng.randint(1, 10)
    role = rng.choices(("owned", "must", "free"), (1, 1, 6), k=n)
    owned = frozenset(i for i in range(n) if role[i] == "owned")
    prices = tuple(0 if i in owned else rng.randint(0, 5) for i in range(n))
    sets = []
    for _ in range(m):
        drawn = {frozenset(rng.sample(range(n), rng.randint(1, 3))) for _ in range(5)}
        sets.append(tuple(tuple(sorted(r)) for r in drawn if not any(o < r for o in drawn)))
    return ChoiceInstance(
        weights=tuple(rng.randint(1, 4) for _ in range(m)),
        minimal_sets=tuple(sets),
        prices=prices,
        fades=(1,) * n,
        owned=owned,
        must_have=frozenset(i for i in range(n) if role[i] == "must"),
        budget=rng.randint(3, 15),
        most_tubes=rng.choice((3, n)),
    )


def value(instance: ChoiceInstance, bought: frozenset[int]) -> int:
    """Return the covered weight, counted the plain way."""
    held = bought | instance.owned
    return sum(
        weight
        for weight, sets in zip(instance.weights, instance.minimal_sets, strict=True)
        if any(set(r) <= held for r in sets)
    )


@pytest.mark.parametrize("seed", SEEDS)
def test_the_best_without_a_tube_is_that_of_all_palettes_without_it(seed: int) -> None:
    instance = make_instance(seed)
    choice = search(instance)
    state = start_search(instance, seconds=60)
    if not choice.palettes:
        return
    for tube in set(choice.palettes[0].bought) - instance.must_have:
        others = sorted(set(range(instance.tube_count)) - instance.owned - {tube})
        best = max(
            value(instance, bought)
            for size in range(min(instance.most_tubes, len(others)) + 1)
            for bought in map(frozenset, combinations(others, size))
            if bought >= instance.must_have
            and sum(instance.prices[i] for i in bought) <= instance.budget
        )
        found = best_without(instance, state, tube, seconds=60)
        assert (found.status, found.value, found.bound) == (Status.PROVEN, best, best)
        assert not state.barred.any()


def test_a_search_that_is_stopped_says_so() -> None:
    stopped = 0
    for seed in range(25):
        instance = make_instance(seed)
        choice = search(instance)
        state = start_search(instance, seconds=60)
        for tube in set(choice.palettes[0].bought if choice.palettes else ()) - instance.must_have:
            full = best_without(instance, state, tube, seconds=60)
            found = best_without(instance, state, tube, seconds=-1.0)
            assert found.value <= full.value <= found.bound
            assert (found.status is Status.PROVEN) == (found.value == found.bound)
            stopped += found.status is Status.STOPPED
    assert stopped


@pytest.mark.parametrize("seed", SEEDS)
def test_the_stand_in_is_the_best_single_exchange(seed: int) -> None:
    instance = make_instance(seed)
    choice = search(instance)
    if not choice.palettes:
        return
    bought = choice.palettes[0].bought
    for tube in bought:
        rest = frozenset(bought) - {tube}
        left = instance.budget - sum(instance.prices[i] for i in rest)
        tried = [
            (-value(instance, rest | {other}), instance.prices[other], other)
            for other in range(instance.tube_count)
            if other not in instance.owned.union(bought) and instance.prices[other] <= left
        ]
        useful = [item for item in tried if -item[0] > value(instance, rest)]
        swap = best_swap(instance, CoveredWeight(instance), bought, tube)
        if not useful:
            assert swap is None
        else:
            assert swap is not None
            assert (swap.tube, swap.value) == (min(useful)[2], -min(useful)[0])


@pytest.mark.parametrize("seed", range(20))
def test_values_count_only_the_tubes_named(seed: int) -> None:
    instance = make_instance(seed)
    values = CoveredWeight(instance)
    plain = {**vars(instance), "owned": frozenset(), "must_have": frozenset()}
    for size in range(4):
        for tubes in combinations(range(instance.tube_count), size):
            assert values.value(tubes) == value(ChoiceInstance(**plain), frozenset(tubes))


@pytest.mark.parametrize(("budget", "stands_in"), [(499, None), (500, 2)])
def test_a_delivery_counts_for_what_stands_in(budget: int, stands_in: int | None) -> None:
    """Tube 2 does what tube 1 does, for 1.00 and 3.00 of delivery: 1.00 + 1.00 + 3.00 = 5.00."""
    packs = tuple(PackOnSale(tube, seller, 5000, 100) for tube, seller in ((0, 0), (1, 0), (2, 1)))
    terms = Terms((SellerTerms(), SellerTerms(delivery=300)), packs, (), (Need(),) * 3)
    instance = ChoiceInstance(
        weights=(1, 1),
        minimal_sets=(((0,),), ((1,), (2,))),
        prices=(100, 100, 100),
        fades=(1, 1, 1),
        owned=frozenset(),
        must_have=frozenset(),
        budget=budget,
        most_tubes=3,
        terms=terms,
    )
    swap = best_swap(instance, CoveredWeight(instance), (0, 1), 1)
    assert (None if swap is None else swap.tube) == stands_in
