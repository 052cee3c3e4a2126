"""What paint costs at least, where more sets of tubes reach a sample than are looked at."""

from itertools import combinations

import numpy as np
import pytest

from fewtubes.selection import least_paint
from fewtubes.selection.bound import Branches
from fewtubes.selection.least_paint import UNREACHED, LeastPaint
from fewtubes.selection.paint_bound import PaintedBranches, weight_scale

N, M = 9, 5


@pytest.fixture
def table() -> LeastPaint:
    """Return all sets of up to three of nine tubes, with drawn costs; a third reach nothing."""
    sets = [(*s, *[s[-1]] * (3 - len(s))) for k in (1, 2, 3) for s in combinations(range(N), k)]
    rng = np.random.default_rng(5)
    costs = rng.integers(1, 1000, (len(sets), M))
    costs[rng.random(costs.shape) < 0.3] = UNREACHED
    return LeastPaint(np.array(sets, dtype=np.intp), costs.astype(np.int32), N)


@pytest.mark.parametrize("looked_at", [1, 4, 1000])
def test_what_is_not_looked_at_is_bounded(
    table: LeastPaint, monkeypatch: pytest.MonkeyPatch, looked_at: int
) -> None:
    """Never more than the least over all sets allowed; the very same if enough are looked at."""
    monkeypatch.setattr(least_paint, "CHEAPEST", looked_at)
    fresh = LeastPaint(table.sets, table.costs, N)
    allowed = np.random.default_rng(6).random((50, N)) < 0.5
    told = fresh.of_samples(allowed)
    exact = np.array(
        [
            table.costs[[allowed[row][some].all() for some in table.sets]].min(
                axis=0, initial=UNREACHED
            )
            for row in range(len(allowed))
        ]
    )
    assert (told <= exact).all()
    equal = told == np.where(exact < UNREACHED, exact, 0)
    assert equal.all() if looked_at == 1000 else not equal.all()


def test_a_palette_takes_the_cheapest_set_of_each_sample(table: LeastPaint) -> None:
    tubes, covered = (1, 4, 6, 8), np.array([True, True, False, True, True])
    inside = [set(some.tolist()) <= set(tubes) for some in table.sets]
    least = table.costs[inside].min(axis=0)
    assert (least < UNREACHED).all()
    told = table.of_palettes(np.array([tubes, tubes]), np.array([covered, ~covered]))
    assert told.tolist() == [least[covered].sum(), least[~covered].sum()]
    assert table.of_palettes(np.zeros((1, 0), dtype=np.int64), covered[None]).tolist() == [0]


def test_of_sets_that_are_not_on_sale_nothing_is_known(table: LeastPaint) -> None:
    """Tube 8 is taken out: a palette with it has what the others reach."""
    kept = ~(table.sets == 8).any(axis=1)
    fewer = LeastPaint(table.sets[kept], table.costs[kept], N)
    covered = np.ones((1, M), dtype=np.bool_)
    with_it = fewer.of_palettes(np.array([[1, 4, 6, 8]]), covered)
    assert with_it.tolist() == fewer.of_palettes(np.array([[1, 4, 6]]), covered).tolist()


def test_a_set_that_covers_though_no_mix_reaches_costs_nothing_for_certain(
    table: LeastPaint,
) -> None:
    row, t = np.argwhere(table.costs == UNREACHED)[0]
    other = int(np.flatnonzero(table.costs[:, t] < UNREACHED)[0])
    told = table.knowing((table.sets[[row, other]].astype(np.int8), np.array([t, t])))
    assert told.costs[row, t] == 0
    assert told.costs[other, t] == table.costs[other, t]


def test_money_is_enough_for_what_it_buys() -> None:
    """By hand: two samples of 3 and 4 units are covered, 7 in all."""
    least = np.array([[3, 4, 9]] * 2)
    covered = np.array([[True, True, False]] * 2)
    branches = PaintedBranches(least, covered, np.array([7, 6]))
    assert branches.spent.tolist() == [7, 7]
    assert branches.payable.tolist() == [True, False]


def test_what_the_money_paints_bounds_what_is_covered() -> None:
    """By hand: 8 units paint samples of 3 and 5, worth 6 and 5, and nothing of the third.

    At the rate ½ of that one the others are worth 6 − 1½ and 5 − 2½, and the money 4: 11 in all.
    """
    least, none = np.array([[3, 5, 8]]), np.zeros((1, M), dtype=np.bool_)
    painted = PaintedBranches(least, none[:, :3], np.array([8]))
    branches = Branches(
        base=np.array([0]),
        weights=np.array([[6, 5, 4]]),
        limits=np.array([[6, 5, 4]], dtype=np.float32),
        grain=1.0,
        free=none,
        slots=np.array([0]),
        prices=np.zeros(M, dtype=np.int64),
        money=np.array([0]),
        alive=none,
        charges=np.zeros((1, 0), dtype=np.float32),
    )
    under = painted.reweighed(branches, scale=2, share=1.0)
    assert under.base.tolist() == [2 * 4]
    assert under.weights.tolist() == [[9, 5, 0]]
    assert under.base + under.weights.sum() == 2 * 11
    plain = painted.reweighed(branches, scale=2, share=0.0)
    assert (plain.base.tolist(), plain.weights.tolist()) == ([0], [[12, 10, 8]])


@pytest.mark.parametrize(
    ("total", "scale"), [(0, 2**40), (1, 2**40), (400, 2**31), (2**40, 1), (2**50, 1)]
)
def test_weights_are_scaled_up_to_what_doubles_hold(total: int, scale: int) -> None:
    assert weight_scale(total) == scale
