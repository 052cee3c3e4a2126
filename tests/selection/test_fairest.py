"""One palette for several scenarios: by hand, by exhaustive search, and stopped."""

import random
from collections.abc import Callable, Iterator
from dataclasses import replace
from fractions import Fraction
from itertools import combinations

import pytest

from fewtubes.coverage.weights import whole_weights
from fewtubes.selection.fairest import fairest, fairest_mean
from fewtubes.selection.instance import ChoiceInstance, Palette
from fewtubes.selection.joint import JointInstance, joined_samples

Draw = Callable[[int | str], ChoiceInstance]

SECONDS = 60.0


def by_hand(budget: int) -> JointInstance:
    """Return two scenarios of three tubes of price 2.

    The first is served whole by tube 0 and by half by tube 2; the second whole by tube 1 and by a
    quarter by tube 2.
    """
    sets, weights = joined_samples(
        [((2, ((0,), (2,))), (2, ((0,),))), ((1, ((1,), (2,))), (3, ((1,),)))]
    )
    base = ChoiceInstance(
        weights=(1,) * len(sets),
        minimal_sets=sets,
        prices=(2, 2, 2),
        fades=(1, 1, 1),
        owned=frozenset(),
        must_have=frozenset(),
        budget=budget,
        most_tubes=3,
    )
    return JointInstance(base, weights, (Fraction(1, 2), Fraction(1, 2)))


def test_one_tube_serves_both_a_little_where_the_others_leave_one_with_nothing() -> None:
    # Of one tube: 0 has (1, 0), 1 has (0, 1), 2 has (1/2, 1/4), whose worst is the best.
    found = fairest(by_hand(2), seconds=SECONDS)
    assert found.palette is not None
    assert found.palette.bought == (2,)
    assert found.coverages == (Fraction(1, 2), Fraction(1, 4))
    assert (found.proven, found.bound) == (True, Fraction(1, 4))


def test_two_tubes_serve_both_whole() -> None:
    found = fairest(by_hand(4), seconds=SECONDS)
    assert found.palette is not None
    assert found.palette.bought == (0, 1)
    assert min(found.coverages) == found.bound == 1


def drawn(draw: Draw, seed: int) -> JointInstance:
    """Return an instance of one to five scenarios, each with some of its samples."""
    rng = random.Random(f"joint {seed}")  # noqa: S311  # no secrets are drawn
    for attempt in range(1000):
        base = draw(f"joint {seed} {attempt}")
        if base.weights:
            break
    count, samples = rng.randint(1, 5), range(len(base.weights))
    rows = [[rng.choice((0, 1, 1, 2, 7)) for _ in samples] for _ in range(count)]
    for row in rows:
        row[rng.choice(samples)] = 3  # every scenario asks for something
    for sample in samples:
        rng.choice(rows)[sample] += 1  # and every sample is asked for
    wanted = [rng.choice((1, 1, 2, 5)) for _ in rows]
    shares = tuple(Fraction(one, sum(wanted)) for one in wanted)
    parts = [
        sum(
            (share * row[t] / sum(row) for share, row in zip(shares, rows, strict=True)),
            Fraction(0),
        )
        for t in samples
    ]
    base = replace(base, weights=whole_weights(parts).counts, least_value=0)
    return JointInstance(base, tuple(map(tuple, rows)), shares)


def allowed(base: ChoiceInstance) -> Iterator[Palette]:
    """Yield every palette that meets the demands."""
    free = [tube for tube in range(base.tube_count) if tube not in base.owned]
    for size in range(base.most_tubes + 1):
        for bought in combinations(free, size):
            palette = base.palette(bought)
            if (
                base.must_have.issubset(bought)
                and palette.cost <= base.budget
                and not base.doubles_in(bought)
            ):
                yield palette


def coverages(joint: JointInstance, palette: Palette) -> tuple[Fraction, ...]:
    """Return what a palette covers of each scenario, added up sample by sample."""
    return tuple(Fraction(sum(row[t] for t in palette.covered), sum(row)) for row in joint.weights)


def ranked(joint: JointInstance, palette: Palette) -> tuple[Fraction | int, ...]:
    """Return what palettes are told apart by, smaller being better."""
    has = coverages(joint, palette)
    mean = sum((share * one for share, one in zip(joint.shares, has, strict=True)), Fraction(0))
    return (
        *(-min(has), -mean, len(palette.bought), palette.fading, palette.cost),
        *(palette.worst_fade, palette.fade_sum),
    )


@pytest.mark.parametrize("seed", range(40))
def test_it_is_what_trying_every_palette_finds(seed: int, random_instance: Draw) -> None:
    joint = drawn(random_instance, seed)
    found = fairest(joint, seconds=SECONDS)
    every = list(allowed(joint.base))
    assert found.infeasible == (not every)
    if not every:
        assert found.palette is None
        return
    assert found.palette is not None
    assert found.proven
    assert found.palette in every
    assert found.coverages == coverages(joint, found.palette)
    best = min(ranked(joint, palette) for palette in every)
    assert ranked(joint, found.palette) == best
    assert found.bound == -best[0]


@pytest.mark.parametrize("seed", range(6))
def test_what_is_known_before_changes_nothing(seed: int, random_instance: Draw) -> None:
    joint = drawn(random_instance, seed)
    alone = fairest(joint, seconds=SECONDS)
    every = list(allowed(joint.base))
    helped = fairest(joint, seconds=SECONDS, known=every[-3:])
    if alone.palette is not None and helped.palette is not None:
        assert ranked(joint, helped.palette) == ranked(joint, alone.palette)


@pytest.mark.parametrize("seed", range(6))
def test_stopped_it_tells_a_bound_that_holds(seed: int, random_instance: Draw) -> None:
    joint = drawn(random_instance, seed)
    found = fairest(joint, seconds=0)
    best = max((min(coverages(joint, palette)) for palette in allowed(joint.base)), default=None)
    if best is None:
        assert found.infeasible
    else:
        assert found.coverages
        assert min(found.coverages) <= best <= found.bound
        assert not found.proven or min(found.coverages) == best


def floored(joint: JointInstance, seed: int) -> JointInstance:
    """Return the same with something asked for at least of some of its scenarios."""
    rng = random.Random(f"floors {seed}")  # noqa: S311  # no secrets are drawn
    asked = [rng.choice((0, 0, 1, total // 4, total // 2, total)) for total in joint.totals]
    return replace(joint, least=tuple(asked))


def keeping(joint: JointInstance) -> list[Palette]:
    """Return every palette that covers of each scenario what is asked for, in whole weights."""
    return [
        palette
        for palette in allowed(joint.base)
        if all(
            sum(row[t] for t in palette.covered) >= least
            for row, least in zip(joint.weights, joint.least, strict=True)
        )
    ]


@pytest.mark.parametrize("seed", range(24))
def test_above_floors_both_are_what_trying_every_palette_finds(
    seed: int, random_instance: Draw
) -> None:
    joint = floored(drawn(random_instance, seed), seed)
    every = keeping(joint)
    by_worst, by_mean = fairest(joint, seconds=SECONDS), fairest_mean(joint, seconds=SECONDS)
    for found, first in ((by_worst, 0), (by_mean, 1)):
        assert found.infeasible == (not every)
        if not every:
            assert found.palette is None
            continue
        assert found.palette in every
        assert found.proven
        assert found.coverages == coverages(joint, found.palette)
        best = min(ranked(joint, palette)[first:] for palette in every)
        assert ranked(joint, found.palette)[first:] == best
        assert found.bound == found.aim == -best[0]


@pytest.mark.parametrize("seed", range(5))
def test_above_floors_what_is_stopped_tells_a_bound_that_holds(
    seed: int, random_instance: Draw
) -> None:
    joint = floored(drawn(random_instance, seed), seed)
    every = keeping(joint)
    found = fairest_mean(joint, seconds=0, known=every[-1:])
    assert found.infeasible <= (not every)
    if every and found.palette is not None:
        best = -min(ranked(joint, palette)[1] for palette in every)
        assert found.aim <= best <= found.bound


def test_floors_turn_the_best_of_the_others_away() -> None:
    # Of one tube: 0 has (1, 0) and the best mean, but of the second scenario a quarter is asked
    # for, of which 2 alone has (1/2, 1/4). More than a half of either nothing has beside that.
    joint = replace(by_hand(2), shares=(Fraction(9, 10), Fraction(1, 10)))
    free = fairest_mean(joint, seconds=SECONDS)
    held = fairest_mean(replace(joint, least=(0, 1)), seconds=SECONDS)
    assert free.coverages == (Fraction(1), Fraction(0))
    assert held.coverages == (Fraction(1, 2), Fraction(1, 4))
    none = fairest_mean(replace(joint, least=(3, 1)), seconds=SECONDS)
    assert (none.palette, none.infeasible) == (None, True)


def test_weights_are_never_too_small() -> None:
    joint = by_hand(4)
    shares = (Fraction(1, 3), Fraction(2, 3))
    for scale in (1, 7, 1000):
        weights = joint.weighed(shares, scale)
        for palette in allowed(joint.base):
            has = coverages(joint, palette)
            worth = sum(weights[t] for t in palette.covered)
            assert worth >= scale * sum(s * c for s, c in zip(shares, has, strict=True))
