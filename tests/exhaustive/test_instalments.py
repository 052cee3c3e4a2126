"""Buying bit by bit: the order found is the one found by trying every order of a drawn question.

Which sets of tubes reach which colour, what they cost and which are allowed is the oracle's, which
shares no code with the program; shares are fractions.
"""

from dataclasses import replace
from fractions import Fraction
from itertools import accumulate, pairwise, product
from random import Random

import pytest
from tests.exhaustive.draws import draw_question
from tests.exhaustive.oracle import (
    _cost,
    _holds_a_double,
    _made_by_water,
    _usable,
    answer_by_trying_all,
    targets_of,
)

from fewtubes.catalogue.reading import read_catalogue
from fewtubes.catalogue.records import Catalogue
from fewtubes.comparison.instalment_findings import Instalments
from fewtubes.comparison.instalments import instalments
from fewtubes.coverage.cache import Cache
from fewtubes.errors import ClashError, InputError
from fewtubes.scenario.records import Scenario

MOST_ORDERS = 5000
"""Of one question, so that trying them all takes a fraction of a second."""

MOST_GIVEN = 4
"""Tubes whose order is sought."""

Held = tuple[frozenset[str], ...]
"""Tubes bought up to each time, by id."""


@pytest.fixture(scope="module")
def demo() -> Catalogue:
    return read_catalogue()


def orders(
    catalogue: Catalogue, scenario: Scenario, sums: list[int], weights: list[int]
) -> dict[Held, tuple[object, ...]]:
    """Return the rank of every order of buying that meets the demands; smaller is better."""
    targets, sets = targets_of(catalogue, scenario), answer_by_trying_all(catalogue, scenario).sets
    total = sum(target.share for target in targets)
    usable = {tube.id: tube for tube in catalogue.tubes.values() if _usable(tube, scenario)}
    owned = frozenset(usable) & set(scenario.wishes.owned)
    sold = sorted(set(usable) - owned)
    price = {id_: _cost(usable[id_], scenario) for id_ in sold}
    grade = {id_: int(usable[id_].lightfastness) for id_ in sold}
    must = set(scenario.wishes.must_have) - owned
    least = Fraction(str(scenario.wishes.least_coverage)) * total
    most = len(sold) if scenario.most_tubes is None else scenario.most_tubes
    money = list(accumulate(sums))
    made = _made_by_water(catalogue, scenario, list(usable.values()))
    values: dict[frozenset[str], Fraction] = {}

    def value(bought: frozenset[str]) -> Fraction:
        if bought not in values:
            held = bought | owned
            covered = [any(tubes <= held for tubes in reach) for reach in sets]
            shares = [t.share for t, yes in zip(targets, covered, strict=True) if yes]
            values[bought] = sum(shares, Fraction())
        return values[bought]

    ranked: dict[Held, tuple[object, ...]] = {}
    for when in product(range(len(sums) + 1), repeat=len(sold)):
        held = tuple(
            frozenset(id_ for id_, first in zip(sold, when, strict=True) if first <= time)
            for time in range(len(sums))
        )
        costs = tuple(sum(price[id_] for id_ in bought) for bought in held)
        last = held[-1]
        if (
            any(cost > most_ for cost, most_ in zip(costs, money, strict=True))
            or len(last) > most
            or not must <= last
            or value(last) < least
            or _holds_a_double(last, sorted(owned), made, scenario)
        ):
            continue
        worth = [value(bought) for bought in held]
        grades = [grade[id_] for id_ in last]
        ranked[held] = (
            -sum(weight * one for weight, one in zip(weights, worth, strict=True)),
            len(last),
            0 if scenario.prefer == "cheapest" else sum(one >= 3 for one in grades),
            costs[-1],
            max(grades, default=0),
            sum(grades),
            tuple(-one for one in worth),
            costs,
        )
    return ranked


def asked(seed: int, demo: Catalogue) -> tuple[Catalogue, Scenario, list[int], list[int]]:
    """Return a drawn question, its budget cut into sums [hundredths], and weights."""
    catalogue, scenario = draw_question(seed, demo)
    random = Random(f"sums {seed}")  # noqa: S311  # drawing test cases
    times = 2 if 4 ** len(catalogue.tubes) > MOST_ORDERS else 3
    cuts = sorted(random.randint(0, scenario.budget_hundredths) for _ in range(times - 1))
    ends = [0, *cuts, scenario.budget_hundredths]
    sums = [end - start for start, end in pairwise(ends)]
    return catalogue, scenario, sums, [random.choice([1, 2, 3]) for _ in range(times)]


@pytest.mark.parametrize("seed", range(3, 1000, 50))
def test_the_order_is_the_best_of_all(seed: int, demo: Catalogue, shared_cache: Cache) -> None:
    catalogue, scenario, sums, weights = asked(seed, demo)
    ranked = orders(catalogue, scenario, sums, weights)
    amounts = [f"{cents / 100:.2f}" for cents in sums]
    if not ranked:
        with pytest.raises(ClashError):
            instalments(catalogue, scenario, sums=amounts, cache=shared_cache)
        return
    found = instalments(catalogue, scenario, sums=amounts, weights=weights, cache=shared_cache)
    assert found.proven
    assert ranked[held_by(found, catalogue)] == min(ranked.values())
    # What is spent and carried on adds up, and each colour is new once.
    assert [time.brought + time.sum for time in found.times] == [
        time.cost + time.carried_on for time in found.times
    ]
    new = [number for time in found.times for number in time.newly]
    assert len(new) == len(set(new))


@pytest.mark.parametrize("seed", range(1, 1000, 100))
def test_the_order_of_given_tubes_is_the_best_of_all(
    seed: int, demo: Catalogue, shared_cache: Cache
) -> None:
    catalogue, scenario, _, weights = asked(seed, demo)
    usable = [tube for tube in catalogue.tubes.values() if _usable(tube, scenario)]
    tubes = [tube for tube in usable if tube.id not in scenario.wishes.owned][:MOST_GIVEN]
    given = replace(
        scenario,
        most_tubes=None,
        wishes=replace(scenario.wishes, must_have=tuple(tube.id for tube in tubes)),
    )
    if not tubes:
        with pytest.raises(InputError, match="none is named"):
            instalments(catalogue, given, sums=[5], order_only=True, cache=shared_cache)
        return
    whole = sum(_cost(tube, scenario) for tube in tubes)
    sums = [whole // len(weights)] * (len(weights) - 1)
    sums = [*sums, whole - sum(sums)]
    least = replace(given, wishes=replace(given.wishes, least_coverage=0.0))
    ranked = {
        held: rank
        for held, rank in orders(catalogue, least, sums, weights).items()
        if held[-1] == set(given.wishes.must_have)
    }
    found = instalments(
        catalogue,
        given,
        sums=[f"{cents / 100:.2f}" for cents in sums],
        weights=weights,
        order_only=True,
        cache=shared_cache,
    )
    held = held_by(found, catalogue)
    assert found.proven
    assert held[-1] == set(given.wishes.must_have)
    assert ranked[held] == min(ranked.values())


def held_by(found: Instalments, catalogue: Catalogue) -> Held:
    """Return the tubes bought up to each time."""
    ids = list(catalogue.tubes)
    return tuple(frozenset(ids[number] for number in time.palette.bought) for time in found.times)
